import { standingEntries } from '#record/log/bench-log';
import type { Assessment } from '#record/schema/assessment';
import type { RouteSource } from '#routes/problem/from-record';
import { referenceSpecimen } from '#routes/sequence/observed';
import type { Verdict } from './verdict.ts';

/** What was examined: specimens, sessions and how much of each. */
export const examinedOf = (source: RouteSource): Verdict['examined'] => {
  const { assessment, device } = source;
  const reference = referenceSpecimen(source);
  const sessions = Object.entries(assessment.sessions ?? {}).map(([id, session]) => {
    const entries = standingEntries(session);
    const held = Object.values(session.holds ?? {}).reduce((sum, hold) => sum + (hold.to - hold.from), 0);
    const last = entries.reduce((latest, [, entry]) => Math.max(latest, entry.at), 0);
    return {
      id,
      kind: session.kind,
      specimen: session.specimen,
      operator: session.operator ?? 'not named',
      start: session.start,
      entries: entries.length,
      seconds: last - held,
    };
  });
  return {
    specimens: Object.entries(assessment.specimens ?? {}).map(([id, specimen]) => ({
      id,
      text: specimenWords(specimen),
      reference: id === reference,
    })),
    sessions,
    counts: {
      parts: device.parts.size,
      fasteners: device.fasteners.size,
      pieces: [...device.fasteners.values()].reduce((sum, fastener) => sum + fastener.count, 0),
      entries: sessions.reduce((sum, session) => sum + session.entries, 0),
      trials: [...source.trials.values()].reduce(
        (sum, trials) => sum + trials.positive.length + trials.negative.length,
        0,
      ),
    },
    ...untriedOf(source),
  };
};

/** Which questions were waved off? By the names of their things; in the order of the record. */
const untriedOf = ({ assessment, device }: RouteSource): Pick<Verdict['examined'], 'untried'> => {
  const nameOf = (id: string): string => device.parts.get(id)?.name ?? device.fasteners.get(id)?.name ?? id;
  const untried = Object.entries(assessment.parts ?? {}).flatMap(([part, record]) =>
    Object.entries(record.untried ?? {}).map(([id, { stillIn, session, note }]) => ({
      address: `parts/${part}/untried/${id}`,
      part: nameOf(part),
      stillIn: stillIn.map(nameOf),
      session: session ?? 'not named',
      ...(note === undefined ? {} : { note }),
    })),
  );
  return untried.length === 0 ? {} : { untried };
};

const specimenWords = (specimen: NonNullable<Assessment['specimens']>[string]): string => {
  const firmware = Object.values(specimen.firmware ?? {}).at(-1)?.version;
  return [
    specimen.name,
    specimen.obtained,
    specimen.sealed === undefined ? undefined : specimen.sealed ? 'sealed when obtained' : 'not sealed when obtained',
    specimen.revision === undefined ? undefined : `revision ${specimen.revision}`,
    specimen.region === undefined ? undefined : `region ${specimen.region}`,
    firmware === undefined ? undefined : `firmware ${firmware}`,
    specimen.condition,
    specimen.charge === undefined ? undefined : `charge ${specimen.charge} when opened`,
  ]
    .filter((word) => word !== undefined)
    .join('; ');
};
