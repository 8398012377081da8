import type { Suspicion } from '../model/suspicion.ts';
import { controlledHosts, type MadeRun, troubleSeen } from './made-run.ts';

/**
 * What must two histories have alike to foretell the same? Which suspicions stand, where onsets of damage before now are alike and so are
 * runs misread before now; and of what earlier fits left behind what a standing suspicion, or one that may still arise, goes by.
 */
export const historyKey = (standing: readonly Suspicion[], runs: readonly MadeRun[]): string => {
  const explanations = new Set(standing.map(({ explanation }) => explanation));
  return `${sorted(standing.map(formOf))} ${memoryOf(runs, explanations)}`;
};

/** Which suspicions are alike for all runs to come? Those of one form. */
export const formOf = ({ explanation, piece, damagedFrom, lastFirmware }: Suspicion): string => {
  const hosts = damagedFrom && Object.keys(damagedFrom).sort().join('+');
  return [explanation, piece, lastFirmware, hosts].filter((word) => word !== undefined).join(':');
};

const memoryOf = (runs: readonly MadeRun[], standing: ReadonlySet<string>): string => {
  const foreign = runs.filter(({ isOwn }) => !isOwn);
  const isPaired = standing.has('pairing-reversible') || standing.has('pairing-latching');
  const authorised = runs.filter((run) => run.authorised).map(({ host, piece }) => `${host}/${piece.key}`);
  return [
    troubleSeen(runs),
    lastSeen(runs),
    sorted(foreign.map(({ host, outcome }) => (outcome === 'unseen' ? `${host}?` : host))),
    sorted(runs.filter(({ handled }) => handled).map(({ host }) => host)),
    sorted(controlledHosts(runs)),
    standing.has('bad-donor') ? sorted(foreign.map(({ piece }) => piece.key)) : '',
    isPaired ? sorted(authorised) : '',
    standing.has('pairing-latching') ? marksOf(runs) : '',
  ].join('|');
};

/** What showed in which circumstances when they were last met, once there was trouble? It is taken to show again in the same. */
const lastSeen = (runs: readonly MadeRun[]): string => {
  if (runs.every(({ outcome }) => outcome === 'passed' || outcome === 'unseen')) return '';
  const seen = runs.filter(({ outcome }) => outcome !== 'unseen');
  const last = new Map(seen.map((run) => [circumstances(run), run]));
  const latest = new Set(new Map(seen.map((run) => [run.host, run])).values());
  return sorted([...last].map(([at, run]) => `${at}/${run.outcome}${latest.has(run) ? '!' : ''}`));
};

const circumstances = ({ host, piece, firmware, handled, authorised, calibrated, identityMoved }: MadeRun): string =>
  [host, piece.key, firmware, ...[handled, authorised, calibrated, identityMoved].map(Number)].join('/');

/** Which hosts keep the mark of a foreign piece that nobody authorised, and which were given to a foreign one? */
const marksOf = (runs: readonly MadeRun[]): string => {
  const marks = new Map<string, { unauthorised: boolean; given: boolean }>();
  for (const run of runs) {
    const mark = marks.get(run.host) ?? { unauthorised: false, given: false };
    if (run.authorised) marks.set(run.host, { unauthorised: false, given: !run.isOwn });
    else if (!run.isOwn && !run.identityMoved) marks.set(run.host, { ...mark, unauthorised: true });
  }
  return sorted([...marks].map(([host, { unauthorised, given }]) => `${host}${Number(unauthorised)}${Number(given)}`));
};

const sorted = (words: readonly string[]): string => [...new Set(words)].sort().join(',');
