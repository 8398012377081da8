import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { openApiDocument } from './app.ts';

const read = (path: string) => JSON.parse(readFileSync(new URL(`../../${path}`, import.meta.url), 'utf8'));

test('the committed description of the addresses is that of the server (`npx tsx tools/schema-docs.ts` makes it)', () => {
  expect(read('docs/reference/openapi.json')).toEqual(
    JSON.parse(JSON.stringify(openApiDocument(read('package.json').version))),
  );
});
