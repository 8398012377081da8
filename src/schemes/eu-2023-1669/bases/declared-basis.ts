import type { MissingFact } from '#quantity/explained';
import type { DevicePart } from '#record/device/device';
import { declaredItems, procedureFor } from '#routes/sequence/declared';
import type { Finding, PartFinding, PriorityRole } from '../input.ts';
import type { Interpretations } from '../interpretations.ts';
import { judgeSequence } from './judge-sequence.ts';
import { type IndexSource, sheetPairingFinding } from './pairing.ts';
import { judgedFinding, type PartBasis, stepsWithPairing } from './part-basis.ts';

/** What do the maker's own procedures say of one part? Undefined where there is none for it. */
export const declaredBasis = (
  part: DevicePart,
  context: { readonly source: IndexSource; readonly readings: Interpretations },
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

/** For which part is a line of the score sheet read? For none where the record has no part of the role. */
interface SheetContext {
  readonly source: IndexSource;
  readonly readings: Interpretations;
  readonly part?: DevicePart;
}

/**
 * What does a declared score sheet say of one role, read for one of its parts where the record has any? Steps, fastener and
 * tool class as declared; what it leaves out is open, remote actions included. Undefined where it has no such line.
 */
export const sheetFinding = (role: PriorityRole, context: SheetContext): PartFinding | undefined => {
  const { source, readings, part } = context;
  const sheet = source.assessment.product.scoreSheet;
  const line = sheet?.parts[role];
  if (!line || line.absent === true) return undefined;
  const evidence = sheet?.evidence ?? [];
  const pairing = sheetPairingFinding(
    source,
    { role, part: part?.id, remoteActions: line.remoteActions, evidence },
    readings,
  );
  const declared = <T>(field: string, value: T | undefined, what: string): Finding<T> =>
    value === undefined
      ? { state: 'open', missing: [undeclared(role, field, what)] }
      : { state: 'known', value, evidence };
  return {
    role,
    ...(part ? { part: part.id } : {}),
    name: part?.name ?? role.replaceAll('-', ' '),
    pairingSteps: pairing,
    steps:
      line.steps === undefined
        ? { state: 'open', missing: [undeclared(role, 'steps', 'number of steps')] }
        : stepsWithPairing({ worst: line.steps, best: line.steps }, pairing, []),
    fastener: declared('fastener', line.fastener, 'worst fastener class'),
    tool: declared('tool', line.tool, 'worst tool class'),
  };
};

const undeclared = (role: PriorityRole, field: string, what: string): MissingFact => ({
  address: `product/scoreSheet/parts/${role}/${field}`,
  what: `${what} of the ${role.replaceAll('-', ' ')} as declared`,
  remedy: 'ask for the technical documentation, Annex VI point 1(c)',
});
