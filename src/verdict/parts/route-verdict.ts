import type { DevicePart } from '#record/device/device';
import { FASTENER_POINTS, TOOL_POINTS } from '#schemes/eu-2023-1669/bands';
import type { JudgedSequence } from '#schemes/eu-2023-1669/bases/judge-sequence';
import type { PartBasis } from '#schemes/eu-2023-1669/bases/part-basis';
import type { RouteVerdict } from '../verdict.ts';
import { ledgerLines } from './ledger.ts';
import type { PartsContext } from './parts-context.ts';

/** What does a judged sequence amount to as a route: steps, points, time as far as known, and its ledger? */
export const routeVerdict = (
  part: DevicePart,
  judged: JudgedSequence,
  at: {
    readonly basis: PartBasis | undefined;
    readonly performed: RouteVerdict['performed'];
    readonly context: PartsContext;
  },
): RouteVerdict => {
  const { source } = at.context.groundwork;
  const pairing = at.basis?.main.pairingSteps;
  const timedAtoms = judged.items.flatMap((item) => item.atoms);
  const known = timedAtoms.some((atom) => atom.milliseconds !== undefined);
  const { fastener, tool } = judged;
  return {
    steps: judged.steps,
    pairingSteps: pairing?.state === 'known' ? pairing.value : 0,
    ...(known ? { seconds: timedAtoms.reduce((sum, atom) => sum + (atom.milliseconds ?? 0), 0) / 1000 } : {}),
    missingDurations: judged.items
      .filter((item) => item.atoms.some((atom) => atom.milliseconds === undefined))
      .map((item) => item.address),
    fastenerPoints:
      fastener.worst === fastener.best && fastener.worst !== 'below-scale' ? FASTENER_POINTS[fastener.worst] : null,
    toolPoints: tool.worst === tool.best && tool.worst !== 'below-scale' ? TOOL_POINTS[tool.worst] : null,
    actions: judged.items.map((item) => item.address),
    lines: ledgerLines(judged, { source, names: at.context.names, part: part.id }),
    proved: true,
    performed: at.performed,
  };
};
