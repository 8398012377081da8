import { randomUUID } from 'node:crypto';
import { mkdirSync, readFileSync, renameSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import type { Assessment } from '#record/schema/assessment';
import { canonicalJson, sha256Hex } from '#store/canonical-json';
import { RESCORING_METHOD } from '#verdict/rescore/rescoring';
import type { RubricFacts } from '#verdict/rubric/metric-value';

/** What is kept of one structure: the name of the product, and its facts without evidence and without what is missing. */
export interface KeptFacts {
  readonly product: string;
  readonly facts: RubricFacts;
}

/**
 * What tells records apart as far as metrics go? SHA-256 of the canonical JSON (RFC 8785) of the record without its title and
 * notes: layout, comments and YAML or JSON make no difference.
 */
export const structureHash = (assessment: Assessment): string => {
  const { title: _title, notes: _notes, ...structure } = assessment;
  return sha256Hex(canonicalJson(structure));
};

/**
 * What tells records apart as far as their routes go? The same without what no route, time or class is read from: names and
 * prices, what is measured, and what the maker offers in information and updates. Products that differ in these only share the
 * values that cost a search.
 */
export const routeHash = (assessment: Assessment): string => {
  const { title: _title, notes: _notes, measures: _measures, product, supply, spares, ...structure } = assessment;
  const { name: _name, price: _price, ...kind } = product;
  return sha256Hex(
    canonicalJson({
      ...structure,
      product: kind,
      partsOffered: supply?.parts ?? {},
      spares: Object.fromEntries(
        Object.entries(spares ?? {}).map(([id, { price: _asked, name: _called, ...spare }]) => [id, spare]),
      ),
      hash: 'routes',
    }),
  );
};

/** Kinds of metric that are worked out from routes, and from nothing that the route hash leaves out. */
const ROUTE_METRICS = /^(?:steps|expected-time|damage|reuse-class|tool-class|reversible)\//;

/** Which of some facts rest on the routes? */
export const routeFactsOf = ({ metrics, ...facts }: RubricFacts): RubricFacts => ({
  ...facts,
  metrics: Object.fromEntries(Object.entries(metrics).filter(([key]) => ROUTE_METRICS.test(key))),
});

const fileOf = (folder: string, structure: string): string =>
  join(folder, sha256Hex(RESCORING_METHOD).slice(0, 12), structure.slice(0, 2), `${structure}.json`);

/** Reads kept facts back; `undefined` where there are none, or where a crash left half a file: they are made anew then. */
export const readKeptFacts = (folder: string, structure: string): KeptFacts | undefined => {
  try {
    const kept = JSON.parse(readFileSync(fileOf(folder, structure), 'utf8')) as KeptFacts & { readonly method: string };
    return kept.method === RESCORING_METHOD ? kept : undefined;
  } catch (error) {
    if (error instanceof SyntaxError || (error as NodeJS.ErrnoException).code === 'ENOENT') return undefined;
    throw error;
  }
};

/** Keeps facts for a structure. Another worker that keeps the same at once writes the same bytes. */
export const keepFacts = (folder: string, structure: string, { product, facts }: KeptFacts): KeptFacts => {
  const kept = { method: RESCORING_METHOD, product, facts: withoutSources(facts) };
  const file = fileOf(folder, structure);
  const neighbour = `${file}.${randomUUID()}.part`;
  mkdirSync(dirname(file), { recursive: true });
  writeFileSync(neighbour, JSON.stringify(kept));
  renameSync(neighbour, file);
  return kept;
};

/** Scores need values only; what is missing and the evidence are worked out again where they are shown. */
const withoutSources = ({ category, roles, metrics }: RubricFacts): RubricFacts => ({
  category,
  roles: Object.fromEntries(Object.entries(roles).map(([role, { answer }]) => [role, { answer, missing: [] }])),
  metrics: Object.fromEntries(
    Object.entries(metrics).map(([key, { range, words, none, whole }]) => [
      key,
      {
        ...(range ? { range } : {}),
        ...(words ? { words } : {}),
        none,
        ...(whole ? { whole } : {}),
        missing: [],
        evidence: [],
      },
    ]),
  ),
});
