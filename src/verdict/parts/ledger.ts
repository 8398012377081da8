import { medianOf } from '#quantity/statistics';
import { durationKey } from '#record/log/experience';
import type { RouteSource } from '#routes/problem/from-record';
import type { RouteAtom } from '#routes/problem/route-problem';
import type { SequenceItem } from '#routes/sequence/bench-sequence';
import { itemEvidence } from '#routes/sequence/item-evidence';
import type { CountedStep } from '#routes/steps/step-counter';
import { fastenerRange } from '#schemes/eu-2023-1669/bases/class-ranges';
import type { JudgedSequence } from '#schemes/eu-2023-1669/bases/judge-sequence';
import { END_WORDS } from '#schemes/eu-2023-1669/bases/sequence-trees';
import type { LedgerLine } from '../verdict.ts';
import { itemWords, type Names } from '../words.ts';

/** What is a ledger written from? */
export interface LedgerContext {
  readonly source: RouteSource;
  readonly names: Names;
  readonly part: string;
}

/** The step ledger of a judged sequence: one line a counted operation, with the reason it ended. */
export const ledgerLines = (judged: JudgedSequence, context: LedgerContext): readonly LedgerLine[] => {
  let before = 0;
  return judged.counted.map((step) => {
    const line = ledgerLine(step, judged, { ...context, before });
    before += step.count;
    return line;
  });
};

const ledgerLine = (
  step: CountedStep,
  judged: JudgedSequence,
  context: LedgerContext & { readonly before: number },
): LedgerLine => {
  const { source, names, before } = context;
  const indices = [...new Set(step.atoms.map((atom) => judged.itemOf[atom] ?? 0))];
  const items = indices.flatMap((index) => judged.items[index] ?? []);
  const firstAtom = (index: number): number => judged.itemOf.indexOf(index);
  const does = indices.flatMap((index) => {
    const item = judged.items[index];
    if (!item) return [];
    const words = itemWords(item, names, source.device);
    return step.atoms
      .filter((atom) => judged.itemOf[atom] === index)
      .map((atom) => words[atom - firstAtom(index)] ?? '');
  });
  const atoms = step.atoms.map((atom) => ({
    atom: judged.items[judged.itemOf[atom] ?? 0]?.atoms[atom - firstAtom(judged.itemOf[atom] ?? 0)],
    item: judged.items[judged.itemOf[atom] ?? 0],
  }));
  const releasing = atoms.flatMap(({ atom, item }) => (atom?.releases && item ? item.released : []));
  const damage = damageWords(items, source);
  return {
    from: before + 1,
    to: before + step.count,
    does,
    tools: step.tools.map(names.tool),
    fasteners: releasing.map(({ fastener, leaves }) => {
      const known = source.device.fasteners.get(fastener);
      const range = fastenerRange(source, { part: context.part, fastener, leaves });
      return {
        id: fastener,
        name: names.fastener(fastener),
        kind: known?.kind ?? 'other',
        count: known?.count ?? 1,
        leaves: range.worst === range.best ? range.worst : `${range.worst} or ${range.best}, open`,
      };
    }),
    ended: END_WORDS[step.ended],
    ...times(atoms, source),
    ...(damage === undefined ? {} : { damage }),
    inStretch: indices.some((index) => judged.inStretch.has(index)),
    evidence: [...new Set(items.flatMap((item) => itemEvidence(item, source)))],
  };
};

const damageWords = (items: readonly SequenceItem[], source: RouteSource): string | undefined => {
  const entries = new Set(items.flatMap((item) => itemEvidence(item, source)));
  const found = Object.entries(source.assessment.damage ?? {}).filter(
    ([, damage]) =>
      damage.session !== undefined &&
      [damage.found, damage.after, damage.before].some(
        (entry) => entry !== undefined && entries.has(`sessions/${damage.session}/entries/${entry}`),
      ),
  );
  return found.length === 0
    ? undefined
    : found.map(([id, damage]) => `${damage.what} (${damage.severity}; ${id})`).join('; ');
};

/** Mean time of a line, and median and range where measured sessions have every atom of it. */
const times = (
  atoms: readonly { readonly atom: RouteAtom | undefined; readonly item: SequenceItem | undefined }[],
  source: RouteSource,
): Pick<LedgerLine, 'seconds' | 'spread'> => {
  const timed = atoms.flatMap(({ atom, item }) =>
    atom?.milliseconds === undefined
      ? []
      : [{ milliseconds: atom.milliseconds, samples: samplesOf(atom, item, source) }],
  );
  if (timed.length === 0) return {};
  const seconds = timed.reduce((sum, { milliseconds }) => sum + milliseconds, 0) / 1000;
  if (timed.some(({ samples }) => samples.length === 0)) return { seconds };
  const total = (pick: (samples: readonly number[]) => number): number =>
    timed.reduce((sum, { samples }) => sum + pick(samples), 0) / 1000;
  const spread = {
    median: total((samples) => medianOf(samples) ?? 0),
    low: total((samples) => Math.min(...samples)),
    high: total((samples) => Math.max(...samples)),
    n: Math.min(...timed.map(({ samples }) => samples.length)),
  };
  return { seconds, spread };
};

const samplesOf = (atom: RouteAtom, item: SequenceItem | undefined, source: RouteSource): readonly number[] => {
  if (!item) return [];
  const { durations } = source.experience;
  if (atom.removes) return durations.get(durationKey(atom.removes.part, undefined, atom.removes.becomes)) ?? [];
  const [kind, fastener = '', way] = item.address.split('/');
  return kind === 'release' ? (durations.get(durationKey(fastener, way, atom.do)) ?? []) : [];
};
