/** A record with so many log entries, released and refitted in turn, so that it has no faults. All invented. */
export const longLog = (entries: number): Record<string, unknown> => {
  const parts: Record<string, unknown> = {};
  const fasteners: Record<string, unknown> = {};
  for (let index = 0; index < THINGS; index += 1) {
    parts[`part-${index}`] = { name: `Part ${index}`, role: 'bracket', mass: '3.1 ± 0.1 g' };
    const ways = { undo: { actions: [{ do: 'unscrew', tools: ['ph00'] }], leaves: 'reusable' } };
    fasteners[`screws-${index}`] = { kind: 'screw', count: 4, between: [`part-${index}`, 'chassis'], ways };
  }
  const log: Record<string, unknown> = {};
  for (let index = 0; index < entries; index += 1) log[`e${index}`] = entry(index);
  const session = {
    kind: 'measured',
    specimen: 's1',
    start: '2026-10-01T09:00:00+02:00',
    startsAs: 'complete',
    entries: log,
  };
  return {
    format: 'unfasten/assessment',
    version: 1,
    invented: true,
    product: { name: 'Tarn 5' },
    specimens: { s1: {} },
    tools: { ph00: { name: 'Driver PH00' } },
    parts,
    fasteners,
    sessions: { x1: session },
    evidence: { clip: { kind: 'video' } },
  };
};

const THINGS = 60;

const entry = (index: number): Record<string, unknown> => {
  const thing = Math.floor(index / 2) % THINGS;
  const off = index % 2 === 0;
  return {
    at: 10 + index * 9.5,
    do: off ? 'unscrew' : 'fasten',
    target: `screws-${thing}`,
    ...(off ? { way: 'undo' } : {}),
    tools: ['ph00'],
    took: `${3 + (index % 7)} s`,
    goal: `part-${thing}`,
    outcome: 'done',
    named: 'at-once',
    naming: 'by-hand',
    reviewed: true,
    note: `entry number ${index}`,
    evidence: ['clip'],
  };
};
