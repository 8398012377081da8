import type { MissingFact } from '#quantity/explained';
import type { RouteSource } from '#routes/problem/from-record';
import type { Finding, PriorityRole } from '../input.ts';
import type { Interpretations } from '../interpretations.ts';
import { pairingSteps } from '../readings.ts';
import { recordName } from './record-names.ts';

/**
 * What did swaps settle of the remote actions that a part's replacement needs for full function? Undefined where they left it
 * open. Worked out by the caller from the diagnosis of the swaps: this folder knows none.
 */
export interface RemoteNeeds {
  readonly remoteNotification?: boolean;
  readonly remoteAuthorisation?: boolean;
  readonly evidence: readonly string[];
}

/** The source of routes, and by part id what swaps settled of remote actions. */
export interface IndexSource extends RouteSource {
  readonly remote?: ReadonlyMap<string, RemoteNeeds>;
}

type Source = Pick<IndexSource, 'assessment' | 'remote'>;

const FIELDS = ['remoteNotification', 'remoteAuthorisation'] as const;
const ACTIONS = { remoteNotification: 'a remote notification', remoteAuthorisation: 'a remote authorisation' } as const;

/** What is known of one remote action: needed, not needed, or what is missing. */
interface RemoteAction {
  readonly needed: boolean | undefined;
  readonly missing: readonly MissingFact[];
  readonly evidence: readonly string[];
}

/**
 * Does full function after the replacement of a part need a remote notification, and a remote authorisation (Annex IV point 5)?
 * As the record says, or as swaps settled it; where the two contradict each other it is open, and says so.
 */
export const remoteActions = ({ assessment, remote }: Source, part: string): readonly RemoteAction[] =>
  FIELDS.map((field) => {
    const record = assessment.parts?.[part];
    const stated = record?.[field] ?? (record?.serialised === false ? false : undefined);
    const shown = remote?.get(part)?.[field];
    const name = recordName(assessment, 'parts', part);
    const evidence = [
      ...(stated === undefined ? [] : (record?.evidence ?? [])),
      ...(shown === undefined ? [] : (remote?.get(part)?.evidence ?? [])),
    ];
    if (stated !== undefined && shown !== undefined && stated !== shown)
      return { needed: undefined, missing: [contradictory({ part, name, field, stated })], evidence };
    const needed = stated ?? shown;
    return { needed, missing: needed === undefined ? [missingRemote({ part, name, field })] : [], evidence };
  });

/**
 * How many steps does pairing add to a part? Five for each remote notification or authorisation needed for full function
 * (Annex IV point 5); open between its ends while one of the two is not known.
 */
export const pairingFinding = (source: Source, part: string, readings: Interpretations): Finding<number> => {
  const [notification, authorisation] = remoteActions(source, part) as readonly [RemoteAction, RemoteAction];
  const steps = (n: boolean, a: boolean): number =>
    pairingSteps({ notifications: n ? 1 : 0, authorisations: a ? 1 : 0 }, readings);
  const best = steps(notification.needed ?? false, authorisation.needed ?? false);
  const worst = steps(notification.needed ?? true, authorisation.needed ?? true);
  if (best === worst)
    return {
      state: 'known',
      value: best,
      evidence: [...new Set([...notification.evidence, ...authorisation.evidence])],
    };
  return { state: 'open', missing: [...notification.missing, ...authorisation.missing], worst, best };
};

/** One line of a score sheet as far as pairing goes: its role, the part it is read for where one is recorded, what it states. */
interface SheetPairing {
  readonly role: PriorityRole;
  readonly part: string | undefined;
  readonly remoteActions: number | undefined;
  readonly evidence: readonly string[];
}

/**
 * How many steps does pairing add to the declared steps of a score sheet line? Five for each remote action it states besides
 * them (Annex IV point 5). A line that states none is closed only by a part known to need none: otherwise its steps may
 * already count them or leave them out, so that the number is open from none to all that the part needs or may need.
 */
export const sheetPairingFinding = (
  source: Source,
  { role, part, remoteActions: stated, evidence }: SheetPairing,
  readings: Interpretations,
): Finding<number> => {
  if (stated !== undefined) {
    const actions = { notifications: Math.ceil(stated / 2), authorisations: Math.floor(stated / 2) };
    return { state: 'known', value: pairingSteps(actions, readings), evidence };
  }
  const needed = part === undefined ? undefined : pairingFinding(source, part, readings);
  if (needed?.state === 'known' && needed.value === 0) return needed;
  const all = pairingSteps({ notifications: 1, authorisations: 1 }, readings);
  const unsaid: MissingFact = {
    address: `product/scoreSheet/parts/${role}/remoteActions`,
    what: `how many remote actions the ${role.replaceAll('-', ' ')} needs besides the declared steps`,
    remedy: 'ask for the technical documentation; record 0 where it needs none or the declared steps count them',
  };
  return {
    state: 'open',
    missing: [unsaid, ...(needed?.state === 'open' ? needed.missing : [])],
    worst: needed?.state === 'known' ? needed.value : ((needed?.state === 'open' ? needed.worst : undefined) ?? all),
    best: 0,
  };
};

interface AskedAction {
  readonly part: string;
  readonly name: string;
  readonly field: (typeof FIELDS)[number];
}

const missingRemote = ({ part, name, field }: AskedAction): MissingFact => ({
  address: `parts/${part}/${field}`,
  what: `whether a replacement for ${name} needs ${ACTIONS[field]} for full function`,
  remedy: 'fit a foreign part and its own part again, and see what the software asks for',
});

const contradictory = ({ part, name, field, stated }: AskedAction & { readonly stated: boolean }): MissingFact => ({
  address: `parts/${part}/${field}`,
  what: `whether a replacement for ${name} needs ${ACTIONS[field]}: the record says ${stated ? 'yes' : 'no'}, its swaps show the contrary`,
  remedy: 'look at the runs again, and take back what does not hold',
});
