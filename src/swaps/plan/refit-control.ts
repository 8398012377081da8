import { type BenchSetup, never } from './bench-setup.ts';
import { type BenchState, matingsLeft } from './bench-state.ts';

/** Matings that a control, a foreign piece and putting the own part back take. */
const MATINGS_WITH_CONTROL = 3;

/**
 * Is the own part still to be refitted and seen in a host before a foreign piece comes in? Only where that is asked for, no foreign piece
 * was there already, and the connectors bear one mating more.
 */
export const needsControl = (
  setup: BenchSetup,
  state: BenchState,
  { part, host }: { readonly part: number; readonly host: number },
): boolean => {
  const { belief, worn } = state.parts[part] ?? never();
  const id = setup.problem.hosts[host]?.id ?? never();
  if (!setup.problem.refitControl || belief.controlledIn.includes(id)) return false;
  if (belief.runs.some((run) => run.host === id && !run.isOwn)) return false;
  const of = setup.parts[part] ?? never();
  const left = matingsLeft(of, worn, { host: id, hostIndex: host, piece: host, hosts: state.hosts.length });
  return left >= MATINGS_WITH_CONTROL;
};
