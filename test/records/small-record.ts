import { type Assessment, assessment as schema } from '#record/schema/assessment';
import { groundworkOf, type IndexBasis, indexBases, readingsOf } from '#verdict/index-bases';

type Raw = Readonly<Record<string, unknown>>;

/** One logged action of a small record: what, on what, with which tools, and whatever else. */
export type LogLine = readonly [what: string, target: string, tools?: readonly string[], more?: Raw];

/** Tools that are on the basic list, and tools that are only on sale. */
export const TOOLS: Raw = {
  driver: { name: 'Driver', basicKind: 'cross-recess-driver', onSale: true, licensable: true, withProduct: false },
  pick: { name: 'Pick', basicKind: 'pick', onSale: true, licensable: true, withProduct: false },
  spudger: { name: 'Spudger', basicKind: 'spudger', onSale: true, licensable: true, withProduct: false },
  mat: { name: 'Heating mat', basicKind: null, onSale: true, licensable: true, withProduct: false },
  cloth: { name: 'Cloth', basicKind: null, onSale: true, licensable: true, withProduct: false },
  clamp: { name: 'Clamp', basicKind: null, onSale: true, licensable: true, withProduct: false, holdingAid: true },
};

/** A measured session on the one specimen that begins complete, an entry each ten seconds. */
const sessionOf = (lines: readonly LogLine[]): Raw => ({
  kind: 'measured',
  specimen: 'a',
  start: '2026-03-02T09:00:00+01:00',
  startsAs: 'complete',
  entries: Object.fromEntries(
    lines.map(([what, target, tools = [], more = {}], index) => [
      `e${index + 1}`,
      { at: 10 * (index + 1), do: what, target, tools, took: 10, ...more },
    ]),
  ),
});

/** A record that the schema accepts, of an invented handset without hinge, from its parts, fasteners and one log. */
export const smallRecord = (raw: Raw & { readonly log?: readonly LogLine[] }): Assessment => {
  const { log, product, ...rest } = raw;
  return schema.parse({
    format: 'unfasten/assessment',
    version: 1,
    invented: true,
    product: {
      name: 'Tarn small',
      category: 'smartphone',
      foldable: { foldingDisplay: false, hinge: false },
      reference: 'a',
      ...(product as Raw | undefined),
    },
    specimens: { a: { name: 'Specimen A' } },
    tools: TOOLS,
    ...(log ? { sessions: { run: sessionOf(log) } } : {}),
    ...rest,
  });
};

/** The bases of a record under its own readings with some of them changed. */
export const basesOf = (record: Assessment, readings: Readonly<Record<string, string>> = {}): readonly IndexBasis[] => {
  const groundwork = groundworkOf(record);
  return indexBases(groundwork, { ...readingsOf(record), ...readings } as ReturnType<typeof readingsOf>);
};

/** One basis of a record. */
export const basisOf = (
  record: Assessment,
  basis: IndexBasis['basis'],
  readings: Readonly<Record<string, string>> = {},
): IndexBasis => {
  const found = basesOf(record, readings).find((candidate) => candidate.basis === basis);
  if (!found) throw new RangeError(`the record has nothing for the basis ${basis}`);
  return found;
};
