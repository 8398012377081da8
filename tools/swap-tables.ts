import { readFileSync, writeFileSync } from 'node:fs';
import { matrixTable, RATE_DEVICES, ratesTable, SWAP_PAGE, withTable } from './source/swap-tables.ts';

// Writes the two tables of docs/method/swap-diagnosis.md: the signature matrix, and how often decisions are wrong where something
// taken for granted does not hold (500 devices a row, some minutes). Run with `npx tsx tools/swap-tables.ts`; a test compares.
const page = new URL(`../${SWAP_PAGE}`, import.meta.url);
const withMatrix = withTable(readFileSync(page, 'utf8'), 'signatures', matrixTable());
writeFileSync(page, withTable(withMatrix, 'rates', ratesTable(RATE_DEVICES)));
