import type { Belief } from './belief-graph.ts';
import { type BenchSetup, type Choice, never, type PartSetup, settingKey, settingOf } from './bench-setup.ts';
import { type BenchState, matingsLeft, sameSteps } from './bench-state.ts';
import { needsControl } from './refit-control.ts';

/** A part in a host, on the firmware that the run is to have, by index. */
export interface Where {
  readonly part: number;
  readonly host: number;
  readonly firmware: number;
}

/**
 * Can a part be left as it is and not be looked at in a run of this host? Not an empty place, nor one that stops the device, nor a
 * foreign piece that may do so, since it would not be known what hid the rest.
 */
export const mayBeLeft = (state: BenchState, { part, host, firmware }: Where): boolean => {
  const place = state.parts[part]?.places[host];
  if (!place || place.piece < 0 || place.hides === true) return false;
  return place.piece === host || (place.hides === false && state.hosts[host]?.firmware === firmware);
};

/**
 * What can be done with a part in a run of this host? Another look at what is fitted; the own part refitted; another piece, out of
 * another host where it sits there; each with a step offered for it once a foreign piece has shown trouble. The rules: a host is run
 * before it is opened; a foreign piece goes first into the host that may be used up first; no connector is mated more often than
 * it is rated for.
 */
export const partChoices = (setup: BenchSetup, state: BenchState, where: Where): readonly Choice[] => {
  const part = state.parts[where.part] ?? never();
  const place = part.places[where.host] ?? never();
  const kept: Choice[] = place.piece < 0 ? [] : [{ ...stepsOf(place), piece: place.piece, handled: false }];
  if (!state.hosts[where.host]?.seen) return kept;
  const fitted = freePieces(setup, state, where)
    .filter(({ piece }) => mayMate(setup, state, { ...where, piece }) && mayCross(setup, state, { ...where, piece }))
    .map((fit): Choice => ({ ...NO_STEP, ...fit, handled: true }));
  const all = [...kept, ...fitted];
  const treated = part.belief.troubled
    ? all.flatMap((choice) => withSteps(setup.parts[where.part] ?? never(), part.belief, { choice, host: where.host }))
    : all;
  return treated.filter((choice) => !stopsAgain(state, where, choice));
};

/** Would a piece that is known to stop the device be started once more as it is? It comes out, or a step is taken. */
const stopsAgain = (state: BenchState, { part, host, firmware }: Where, choice: Choice): boolean => {
  const place = state.parts[part]?.places[host];
  const isAsItWas = choice.piece === place?.piece && !choice.handled && state.hosts[host]?.firmware === firmware;
  return place?.hides === true && isAsItWas && sameSteps(stepsOf(place), stepsOf(choice));
};

/** Would a choice leave what is known of the part as it is, whatever is seen? */
export const tellsNothing = (setup: BenchSetup, state: BenchState, where: Where & { choice: Choice }): boolean => {
  const { belief } = state.parts[where.part] ?? never();
  const { graph } = (setup.parts[where.part] ?? never()).beliefs;
  const { choice, host } = where;
  if (choice.handled && choice.piece === host && needsControl(setup, state, where)) return false;
  return !graph.tells(belief, () => settingOf(setup, where), settingKey(where));
};

/** As fitted, nothing done to it. */
export const NO_STEP = { authorised: false, calibrated: false, identityMoved: false };

const stepsOf = ({ authorised, calibrated, identityMoved }: typeof NO_STEP): typeof NO_STEP => ({
  authorised,
  calibrated,
  identityMoved,
});

/** Pieces that can be fitted in a host: the one in it when it is the own part, those lying loose, those in other hosts run before. */
const freePieces = (
  setup: BenchSetup,
  state: BenchState,
  { part, host }: Where,
): readonly { piece: number; from?: number }[] => {
  const { pieces } = setup.parts[part] ?? never();
  const { places } = state.parts[part] ?? never();
  return pieces.flatMap((_, piece) => {
    const at = places.findIndex((place) => place.piece === piece);
    if (at < 0) return [{ piece }];
    if (at === host) return piece === host ? [{ piece }] : [];
    return state.hosts[at]?.seen ? [{ piece, from: at }] : [];
  });
};

const mayMate = (setup: BenchSetup, state: BenchState, { part, host, piece }: Where & { piece: number }): boolean => {
  const of = setup.parts[part] ?? never();
  const id = setup.problem.hosts[host]?.id ?? never();
  const { worn } = state.parts[part] ?? never();
  return matingsLeft(of, worn, { host: id, hostIndex: host, piece, hosts: state.hosts.length }) > 0;
};

/** A foreign piece goes first where a host can be lost: into each host only once those before it in the order have had one. */
const mayCross = (setup: BenchSetup, state: BenchState, { part, host, piece }: Where & { piece: number }): boolean => {
  if (piece === host) return true;
  // Pieces that are exchanged are out of both hosts: a control that came later would take one out once more.
  if (state.hosts.some((_, at) => needsControl(setup, state, { part, host: at }))) return false;
  const { belief, worn } = state.parts[part] ?? never();
  const matings = setup.parts[part]?.part.matings;
  return setup.problem.hosts
    .slice(0, host)
    .every(
      ({ id }, earlier) =>
        belief.runs.some((run) => run.host === id && !run.isOwn) ||
        (matings?.[id] ?? Number.POSITIVE_INFINITY) <= (worn[earlier] ?? 0),
    );
};

/** The same choice bare and with each step offered that can tell something of what stands, where that is not done already. */
const withSteps = (
  { part }: PartSetup,
  { standing }: Belief,
  { choice, host }: { choice: Choice; host: number },
): readonly Choice[] => {
  const options = [choice];
  const foreign = choice.piece !== host;
  const latching = standing.includes('pairing-latching');
  const paired = latching || standing.includes('pairing-reversible');
  if (part.authoriseSeconds !== undefined && !choice.authorised && (foreign ? paired : latching))
    options.push({ ...choice, authorised: true });
  if (part.calibrateSeconds !== undefined && !choice.calibrated && foreign && standing.includes('missing-calibration'))
    options.push({ ...choice, calibrated: true });
  if (part.identitySeconds !== undefined && !choice.identityMoved && foreign && choice.handled && paired)
    options.push({ ...choice, identityMoved: true });
  return options;
};
