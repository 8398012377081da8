import { expect, test } from 'vitest';
import { readRepositoryFile } from '../../tools/source/repository-files.ts';
import { matrixTable, RATE_DEVICES, ratesTable, SWAP_PAGE, withTable } from '../../tools/source/swap-tables.ts';
import { share } from '../share.ts';

const page = readRepositoryFile(SWAP_PAGE);

test('the method page prints the signature matrix that the rules give', () => {
  expect(withTable(page, 'signatures', matrixTable())).toBe(page);
});

test('where everything holds no decision is wrong; the rates on the method page are those of its seeds', () => {
  const table = ratesTable(share(4, RATE_DEVICES));
  const [alone, together] = table.split('\n').slice(2, 4);
  for (const row of [alone, together]) expect(row?.split(' | ')[2]).toBe('0.0 %');
  if (share(0, 1) === 1) expect(withTable(page, 'rates', table)).toBe(page);
});
