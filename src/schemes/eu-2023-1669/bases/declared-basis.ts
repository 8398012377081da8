import type { DevicePart } from '#record/device/device';
import type { RouteSource } from '#routes/problem/from-record';
import { declaredItems, procedureFor } from '#routes/sequence/declared';
import type { PartFinding, PriorityRole } from '../input.ts';
import type { Interpretations } from '../interpretations.ts';
import { pairingSteps } from '../readings.ts';
import { judgeSequence } from './judge-sequence.ts';
import { judgedFinding, type PartBasis, stepsWithPairing } from './part-basis.ts';

/** What do the maker's own procedures say of one part? Undefined where there is none for it. */
export const declaredBasis = (
  part: DevicePart,
  context: { readonly source: RouteSource; readonly readings: Interpretations },
): PartBasis | undefined => {
  const found = procedureFor(context.source, part.id);
  if (!found) return undefined;
  const [id, procedure] = found;
  const judged = judgeSequence(declaredItems(context.source, id, procedure), { ...context, part: part.id });
  const main = judgedFinding(part, judged, context);
  return {
    part: part.id,
    role: part.role as PriorityRole,
    main,
    wide: main,
    judged,
    shownSteps: judged.steps,
    fewestSteps: judged.steps,
    proved: true,
  };
};

/** What does a declared score sheet say of one role? Steps, fastener and tool class as declared; what it leaves out is open. */
export const sheetFinding = (
  source: RouteSource,
  role: PriorityRole,
  readings: Interpretations,
): PartFinding | undefined => {
  const sheet = source.assessment.product.scoreSheet;
  const line = sheet?.parts[role];
  if (!line || line.absent === true) return undefined;
  const at = `product/scoreSheet/parts/${role}`;
  const evidence = sheet?.evidence ?? [];
  const missing = (field: string, what: string) => [
    {
      address: `${at}/${field}`,
      what: `${what} of the ${role.replaceAll('-', ' ')} as declared`,
      remedy: 'ask for the technical documentation, Annex VI point 1(c)',
    },
  ];
  const remote = line.remoteActions ?? 0;
  const pairing = {
    state: 'known' as const,
    value: pairingSteps({ notifications: Math.ceil(remote / 2), authorisations: Math.floor(remote / 2) }, readings),
    evidence,
  };
  return {
    role,
    name: role.replaceAll('-', ' '),
    pairingSteps: pairing,
    steps:
      line.steps === undefined
        ? { state: 'open', missing: missing('steps', 'number of steps') }
        : stepsWithPairing({ worst: line.steps, best: line.steps }, pairing, []),
    fastener:
      line.fastener === undefined
        ? { state: 'open', missing: missing('fastener', 'worst fastener class') }
        : { state: 'known', value: line.fastener, evidence },
    tool:
      line.tool === undefined
        ? { state: 'open', missing: missing('tool', 'worst tool class') }
        : { state: 'known', value: line.tool, evidence },
  };
};
