import { sameDimension } from '#quantity/dimension';
import { parseQuantity } from '#quantity/parse-quantity';
import { quantityKind } from '#quantity/quantity';
import type { PathSegment } from '../problem.ts';
import { unknownNameRemedy } from '../suggest.ts';
import type { LinkContext } from './check-links.ts';
import { checkSwapBench } from './check-swap-bench.ts';
import { checkSwapCorrections } from './check-swap-corrections.ts';
import { checkSwapOrder } from './check-swap-order.ts';
import { checkSwapSizes } from './check-swap-sizes.ts';
import { isPlainMap, itemOf, itemsOf, numberOf, type PlainMap, textOf } from './plain.ts';

/** Do the fits of parts and what is at hand for them hold together: donors, checks, sessions, corrections, order? */
export const checkSwaps = (context: LinkContext): void => {
  for (const [id, swap] of itemsOf(context.data.swaps)) {
    const path = ['swaps', id];
    checkDonor(path, swap, context);
    checkItem(path, swap, context);
    checkEffect(path, swap, context);
    checkMeasured(path, swap, context);
    checkSession(path, swap, context);
  }
  checkSwapCorrections(context);
  checkSwapOrder(context);
  checkSwapSizes(context);
  checkSwapBench(context);
};

const checkDonor = (path: readonly PathSegment[], swap: PlainMap, { findings }: LinkContext): void => {
  if (swap.donor === undefined) return;
  if (swap.fitted === 'own')
    findings.add([...path, 'donor'], {
      message: 'the own part was fitted, so that there is no donor',
      remedy: 'Remove the donor, or write fitted: foreign.',
      at: 'key',
    });
  const { specimen, item } = isPlainMap(swap.donor) ? swap.donor : {};
  if (swap.fitted === 'foreign' && item === undefined && specimen !== undefined && specimen === swap.specimen)
    findings.add([...path, 'donor', 'specimen'], {
      value: specimen,
      message: 'a part out of the host itself is its own part',
      remedy: 'Write fitted: own and remove the donor, or name the other specimen.',
    });
};

/** A piece named is one of those at hand, where these are listed, and fits the place it was fitted at. */
const checkItem = (path: readonly PathSegment[], swap: PlainMap, { data, findings }: LinkContext): void => {
  const item = isPlainMap(swap.donor) ? textOf(swap.donor.item) : undefined;
  const donors = isPlainMap(data.swapBench) ? data.swapBench.donors : undefined;
  if (item === undefined || itemsOf(donors).length === 0) return;
  const listed = itemOf(donors, item);
  const place = [...path, 'donor', 'item'];
  if (!listed)
    findings.add(place, {
      value: item,
      kind: 'unknown-reference',
      message: `no donor "${item}" is listed in swapBench/donors`,
      remedy: unknownNameRemedy(
        item,
        itemsOf(donors).map(([id]) => id),
        'List it there first.',
      ),
    });
  else if (textOf(listed.part) !== undefined && textOf(swap.part) !== undefined && listed.part !== swap.part)
    findings.add(place, {
      value: item,
      message: `this piece fits at "${String(listed.part)}", not at "${String(swap.part)}"`,
      remedy: 'Name another piece, or correct the place.',
    });
};

const checkEffect = (path: readonly PathSegment[], swap: PlainMap, { findings }: LinkContext): void => {
  if (swap.effect === 'E0') {
    const bad = Object.entries(isPlainMap(swap.checks) ? swap.checks : {}).find(
      ([, result]) => result === 'fail' || result === 'reduced',
    );
    if (bad) findings.add([...path, 'effect'], traceFound(`the check "${bad[0]}" says ${String(bad[1])}`));
    else if (swap.notice !== undefined) findings.add([...path, 'effect'], traceFound('a notice is on record'));
  }
  if (swap.calibration !== undefined && swap.calibrated === false)
    findings.add([...path, 'calibrated'], {
      value: false,
      message: 'a calibration is on record',
      remedy: 'Write calibrated: true, or take the calibration out.',
    });
  const starts = isPlainMap(swap.starts) ? swap.starts : {};
  const [tried, failed] = [numberOf(starts.tried), numberOf(starts.failed)];
  if (tried !== undefined && failed !== undefined && failed > tried)
    findings.add([...path, 'starts', 'failed'], {
      value: failed,
      message: `more starts failed than were tried (${tried})`,
      remedy: 'Correct one of the two counts.',
    });
};

const traceFound = (what: string) => ({
  value: 'E0',
  message: `E0 is no trace at all, yet ${what}`,
  remedy: 'Choose the effect that was seen (E1 to E7), or correct what was seen.',
});

const checkMeasured = (path: readonly PathSegment[], swap: PlainMap, { findings }: LinkContext): void => {
  for (const [index, item] of (Array.isArray(swap.measured) ? swap.measured : []).entries()) {
    if (!isPlainMap(item)) continue;
    const [before, after] = [item.before, item.after].map((value) => parseQuantity(textOf(value) ?? '').quantity);
    if (!before || !after || sameDimension(before.unit.dimension, after.unit.dimension)) continue;
    findings.add([...path, 'measured', index, 'after'], {
      value: item.after,
      kind: 'dimension',
      message: `${quantityKind(before)} expected as before, found ${quantityKind(after)}`,
      remedy: 'Write both in units of one kind.',
    });
  }
};

const checkSession = (path: readonly PathSegment[], swap: PlainMap, { data, log, findings }: LinkContext): void => {
  const [session, entry] = [textOf(swap.session), textOf(swap.entry)];
  const worked = itemOf(data.sessions, session);
  if (worked && textOf(swap.specimen) !== undefined && textOf(worked.specimen) !== undefined)
    if (worked.specimen !== swap.specimen)
      findings.add([...path, 'specimen'], {
        value: swap.specimen,
        message: `the session worked on specimen "${String(worked.specimen)}"`,
        remedy: 'Name the specimen of the session, or another session.',
      });
  if (entry === undefined || (session !== undefined && !worked)) return;
  if (session === undefined)
    findings.add([...path, 'entry'], {
      value: entry,
      message: 'an entry is named without its session',
      remedy: 'Name the session as well.',
    });
  else if (!log.has(session, entry))
    findings.add([...path, 'entry'], {
      value: entry,
      kind: 'unknown-reference',
      message: `session "${session}" has no entry "${entry}"`,
      remedy: unknownNameRemedy(entry, log.names(session), 'Name an entry that is logged.'),
    });
};
