import { compareFirmware } from '../device/firmware-order.ts';
import type { Swap } from '../schema/assessment.ts';
import { standingSwaps } from '../standing-swaps.ts';
import type { LinkContext } from './check-links.ts';
import { isPlainMap, itemOf, itemsOf, numberOf, type PlainMap, textOf, textsOf } from './plain.ts';

/**
 * Do the runs follow one another as they can? One run is one start of one specimen with one firmware, dates go the way of the
 * numbers, and a firmware does not go back. Only fits that stand are looked at. Cost: that of a sort.
 */
export const checkSwapOrder = (context: LinkContext): void => {
  // What has the wrong shape is passed over: the schema check reports it.
  const swaps = Object.fromEntries(itemsOf(context.data.swaps)) as unknown as Readonly<Record<string, Swap>>;
  const standing = standingSwaps(swaps) as unknown as readonly Fit[];
  const numbered = standing.filter(([, { run }]) => numberOf(run) !== undefined);
  const dated = standing
    .filter(([, { on }]) => !Number.isNaN(dateOf(on)))
    .toSorted(([, a], [, b]) => dateOf(a.on) - dateOf(b.on));
  checkRuns(numbered, context);
  checkDates(numbered, context);
  const reported = new Set<string>();
  for (const fits of [numbered, dated]) checkFirmware(fits, reported, context);
  checkHistory(dated, context);
};

type Fit = readonly [id: string, swap: PlainMap];

const dateOf = (on: unknown): number => Date.parse(textOf(on) ?? '');

const checkRuns = (numbered: readonly Fit[], { findings }: LinkContext): void => {
  const firstOf = new Map<unknown, Fit>();
  const places = new Map<string, string>();
  for (const [id, swap] of numbered) {
    const { run, specimen, part, firmware } = swap;
    const [other, first] = firstOf.get(run) ?? [];
    if (first && textOf(specimen) !== undefined && first.specimen !== specimen)
      findings.add(['swaps', id, 'run'], {
        value: run,
        message: `run ${String(run)} is a start of specimen "${String(first.specimen)}" (fit "${other}"), not of "${String(specimen)}"`,
        remedy: 'Give each start of a specimen a number of its own.',
      });
    else if (first && textOf(first.firmware) !== undefined && textOf(firmware) !== undefined)
      if (first.firmware !== firmware)
        findings.add(['swaps', id, 'firmware'], {
          value: firmware,
          message: `run ${String(run)} was on firmware ${String(first.firmware)} (fit "${other}")`,
          remedy: 'One run has one firmware: correct one of the two, or number the runs apart.',
        });
    if (!first) firstOf.set(run, [id, swap]);
    const place = JSON.stringify([run, specimen, part]);
    const twin = places.get(place);
    if (twin !== undefined)
      findings.add(['swaps', id, 'part'], {
        value: part,
        message: `run ${String(run)} has a fit at "${String(part)}" already (fit "${twin}")`,
        remedy: 'Number the runs apart, or let the later one correct the other.',
      });
    places.set(place, id);
  }
};

/** Dates go the way of the numbers, whatever the specimen: a run has the number of its place in the whole row. */
const checkDates = (numbered: readonly Fit[], { findings }: LinkContext): void => {
  let latest: Fit | undefined;
  for (const [id, swap] of numbered) {
    const on = dateOf(swap.on);
    if (Number.isNaN(on)) continue;
    if (latest && latest[1].run !== swap.run && dateOf(latest[1].on) > on)
      findings.add(['swaps', id, 'on'], {
        value: swap.on,
        kind: 'order',
        message: `run ${String(swap.run)} comes after run ${String(latest[1].run)}, which was made later (${String(latest[1].on)})`,
        remedy: 'Correct the moment, or number the runs in their order.',
      });
    else if (!latest || dateOf(latest[1].on) <= on) latest = [id, swap];
  }
};

const checkFirmware = (fits: readonly Fit[], reported: Set<string>, { data, findings }: LinkContext): void => {
  const listed = isPlainMap(data.swapBench) ? textsOf(data.swapBench.firmware) : [];
  const newest = new Map<unknown, Fit & { readonly 1: PlainMap }>();
  for (const [id, swap] of fits) {
    const firmware = textOf(swap.firmware);
    if (firmware === undefined) continue;
    const [other, earlier] = newest.get(swap.specimen) ?? [];
    const since = earlier && compareFirmware(firmware, textOf(earlier.firmware) ?? '', listed);
    if (since === undefined || since > 0) newest.set(swap.specimen, [id, swap]);
    else if (since < 0 && !reported.has(id)) {
      reported.add(id);
      findings.add(['swaps', id, 'firmware'], {
        value: firmware,
        kind: 'order',
        message: `a firmware does not go back: specimen "${String(swap.specimen)}" had ${String(earlier?.firmware)} before (fit "${other}")`,
        remedy: 'Correct the version, or the order of the runs.',
      });
    }
  }
};

/** A version other than the specimen's own history has for that moment is odd, not wrong: the history may have been kept by the day. */
const checkHistory = (dated: readonly Fit[], { data, findings }: LinkContext): void => {
  for (const [id, { specimen, firmware, on }] of dated) {
    const known = versionAt(itemOf(data.specimens, specimen), dateOf(on));
    if (known === undefined || textOf(firmware) === undefined || known === firmware) continue;
    findings.add(['swaps', id, 'firmware'], {
      value: firmware,
      severity: 'warning',
      kind: 'suspicious',
      message: `the history of specimen "${String(specimen)}" has ${known} at that moment`,
      remedy: 'Correct one of the two, or add the update to the history.',
    });
  }
};

const versionAt = (specimen: PlainMap | undefined, moment: number): string | undefined => {
  let last: { readonly since: number; readonly version: string | undefined } | undefined;
  for (const [, item] of itemsOf(specimen?.firmware)) {
    const since = dateOf(item.since);
    if (since <= moment && (last === undefined || since >= last.since)) last = { since, version: textOf(item.version) };
  }
  return last?.version;
};
