import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { deviceOf } from '#record/device/device';
import { benchRuns, standingEntries } from '#record/log/bench-log';
import { experienceOf } from '#record/log/experience';
import { trialsOf } from '#record/log/trials';
import { type Assessment, assessment, type Entry } from '#record/schema/assessment';
import type { RouteSource } from '#routes/problem/from-record';
import { PRIORITY_ROLE_NAMES } from '#routes/problem/priority-roles';
import { flatAtoms, type SequenceItem } from '#routes/sequence/bench-sequence';
import { observedSequence, referenceSpecimen } from '#routes/sequence/observed';
import { DEFAULT_COUNTING } from '#routes/steps/counting-rules';
import { countSteps } from '#routes/steps/step-counter';
import { share } from '../share.ts';

/** One entry in so many is perturbed; all of them under the full share. */
const EVERY = share(7, 1);

const base = assessment.parse(
  parse(readFileSync(new URL('../../examples/tarn-5/assessment.yaml', import.meta.url), 'utf8'), { maxAliasCount: 0 }),
);
const sourceOf = (record: Assessment): RouteSource => {
  const device = deviceOf(record);
  return { assessment: record, device, trials: trialsOf(record, device), experience: experienceOf(record, device) };
};
const baseSource = sourceOf(base);
const aids = new Set(Object.entries(base.tools ?? {}).flatMap(([id, tool]) => (tool.holdingAid ? [id] : [])));
const count = (items: readonly SequenceItem[]): number =>
  countSteps(flatAtoms(items).atoms, DEFAULT_COUNTING, aids).total;
const milliseconds = (items: readonly SequenceItem[]): number =>
  flatAtoms(items).atoms.reduce((sum, atom) => sum + (atom.milliseconds ?? 0), 0);
const observed = (source: RouteSource, part: string): readonly SequenceItem[] | undefined =>
  observedSequence(source, part, { reach: 'pessimistic', keepAll: false, fewest: count })?.items;

/** The record with one more entry that corrects an earlier one, as a bench would put it right. */
const corrected = (session: string, old: string, entry: Partial<Entry>): Assessment => {
  const record = structuredClone(base);
  const entries = record.sessions?.[session]?.entries;
  if (entries) entries.put_right = { at: 99_999, ...entry, corrects: old };
  return record;
};

const priorityParts = [...baseSource.device.parts.values()]
  .filter((part) => PRIORITY_ROLE_NAMES.has(part.role ?? ''))
  .map((part) => part.id);
const sequences = new Map(priorityParts.map((part) => [part, observed(baseSource, part) ?? []]));
const measured = benchRuns(base)
  .filter((run) => run.specimen === referenceSpecimen(baseSource))
  .flatMap((run) => run.sessions.filter((id) => base.sessions?.[id]?.kind === 'measured'));
const entries = measured.flatMap((session) => {
  const record = base.sessions?.[session];
  return record ? standingEntries(record).map(([id, entry]) => ({ session, id, entry })) : [];
});
const chosen = entries.filter((_, index) => index % EVERY === 0);
const addressOf = ({ session, id }: (typeof entries)[number]): string => `sessions/${session}/entries/${id}`;
const partsNeeding = (address: string): readonly string[] =>
  priorityParts.filter((part) => sequences.get(part)?.some((item) => item.address === address));
const withItem = (items: readonly SequenceItem[], address: string, change: (item: SequenceItem) => SequenceItem[]) =>
  items.flatMap((item) => (item.address === address ? change(item) : [item]));

describe(`perturbing one entry in ${EVERY} of the measured run of tarn-5`, () => {
  it('has entries that matter and entries that do not', () => {
    const needed = entries.filter((entry) => partsNeeding(addressOf(entry)).length > 0);
    expect(needed.length).toBeGreaterThan(40);
    expect(needed.length).toBeLessThan(entries.length);
    expect([...sequences.values()].every((items) => items.length > 0)).toBe(true);
  });

  it.each(chosen)(
    'another tool at $id gives the count of the same sequence with that tool',
    ({ session, id, entry }) => {
      const address = addressOf({ session, id, entry });
      const source = sourceOf(corrected(session, id, { ...entry, tools: ['pliers'] }));
      for (const part of priorityParts) {
        const items = sequences.get(part) ?? [];
        const expected = withItem(items, address, (item) => [
          { ...item, atoms: item.atoms.map((atom) => ({ ...atom, tools: ['pliers'] })) },
        ]);
        expect(count(observed(source, part) ?? []), part).toBe(count(expected));
      }
    },
  );

  it.each(chosen)(
    '100 s more at $id are 100 s more in every sequence that has it, and none elsewhere',
    ({ session, id, entry }) => {
      const address = addressOf({ session, id, entry });
      if (typeof entry.took !== 'number') return;
      const source = sourceOf(corrected(session, id, { ...entry, took: entry.took + 100 }));
      const needing = partsNeeding(address);
      for (const part of priorityParts) {
        const before = milliseconds(sequences.get(part) ?? []);
        expect(milliseconds(observed(source, part) ?? []), part).toBe(before + (needing.includes(part) ? 100_000 : 0));
      }
    },
  );

  it.each(chosen)('withdrawing $id moves what needed it, and leaves the rest alone', ({ session, id, entry }) => {
    const address = addressOf({ session, id, entry });
    const source = sourceOf(corrected(session, id, { withdrawn: true }));
    const needing = partsNeeding(address);
    for (const part of priorityParts) {
      const items = sequences.get(part) ?? [];
      const now = observed(source, part) ?? [];
      if (!needing.includes(part))
        expect(
          now.map((item) => item.address),
          part,
        ).toEqual(items.map((item) => item.address));
      else if (entry.do === 'heat') expect(count(now), part).toBe(count(withItem(items, address, () => [])));
      else expect(figures(source, part, now), part).not.toEqual(figures(baseSource, part, items));
    }
    const trials = (from: RouteSource): readonly string[] =>
      [...from.trials.values()].flatMap(({ positive }) => positive.map((trial) => trial.address));
    expect(trials(source)).not.toContain(address);
  });
});

/** What a sequence gives: its count, its time, and what is shown to have had to be off. */
const figures = (source: RouteSource, part: string, items: readonly SequenceItem[]) => [
  count(items),
  milliseconds(items),
  source.trials.get(part)?.positive.map(({ off }) => off),
];
