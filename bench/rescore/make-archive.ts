import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { requireAssessment } from '#cli/read-folder';
import { seededNumbers } from '#quantity/seeded-numbers';
import type { Assessment } from '#record/schema/assessment';

const EXAMPLES = ['tarn-5', 'tarn-4', 'gust-2', 'beck-11', 'quick-log'];
/** Of so many records the last four, one of each example but the largest, have a structure of their own. */
const ROUND = 200;

/**
 * Writes an archive of so many assessments, varied from the examples by the seed: every record with its own name, its own prices
 * of product and spares and its own years of updates, so that no two have the same facts; two in a hundred with a part
 * more, so that they have routes of their own. JSON, in folders of 100.
 */
export const makeArchive = (folder: string, count: number, seed: number): void => {
  const next = seededNumbers(seed);
  const bases = EXAMPLES.map(
    (name) => requireAssessment(fileURLToPath(new URL(`../../examples/${name}`, import.meta.url))).assessment,
  );
  for (let index = 0; index < count; index += 1) {
    const base = bases[index % bases.length];
    if (!base) continue;
    const place = join(folder, String(Math.floor(index / 100)).padStart(3, '0'));
    mkdirSync(place, { recursive: true });
    writeFileSync(join(place, `${String(index).padStart(5, '0')}.json`), JSON.stringify(varied(base, index, next)));
  }
};

const varied = (base: Assessment, index: number, next: () => number): Assessment => {
  const spares = Object.entries(base.spares ?? {}).map(([id, spare]) => [
    id,
    { ...spare, ...(spare.price ? { price: `${5 + Math.floor(next() * 9000) / 100} EUR` } : {}) },
  ]);
  const security = base.supply?.software?.security;
  const own = index % ROUND >= ROUND - 4 ? { [`shim-${index}`]: { name: `shim ${index}` } } : {};
  return {
    ...base,
    product: {
      ...base.product,
      name: `${base.product.name} ${index}`,
      price: `${150 + Math.floor(next() * 90_000) / 100} EUR`,
    },
    parts: { ...base.parts, ...own },
    ...(base.spares ? { spares: Object.fromEntries(spares) } : {}),
    supply: {
      ...base.supply,
      software: { ...base.supply?.software, security: { ...security, years: 2 + Math.floor(next() * 7) } },
    },
  } as Assessment;
};
