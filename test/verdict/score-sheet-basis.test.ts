// Through the whole verdict, since a score sheet meets parts, procedures and readings only there.
import { describe, expect, it } from 'vitest';
import { type Assessment, assessment as schema } from '#record/schema/assessment';
import { type SheetChanges, scoreSheetX } from '../records/score-sheet-x.ts';
import { basisOf } from '../records/small-record.ts';

const UNSAID = { steps: 8, fastener: 'resupplied', tool: 'basic', remoteActions: undefined } as const;

const declaredOf = (record: Assessment, readings: Readonly<Record<string, string>> = {}) =>
  basisOf(record, 'declared', readings);

/** Device X with a battery whose line says nothing of remote actions, and with these parts and procedures. */
const withBattery = (battery: object, more: object = {}, changes: SheetChanges = {}): Assessment =>
  schema.parse({
    ...scoreSheetX({ ...changes, parts: { battery: UNSAID, ...changes.parts } }),
    parts: { battery: { role: 'battery', name: 'Battery', ...battery } },
    ...more,
  });

const batterySteps = (record: Assessment, readings: Readonly<Record<string, string>> = {}) => {
  const { figures, low, high } = declaredOf(record, readings);
  return [figures, low, high].map((form) => form?.parts.battery?.steps);
};

describe('a line of the score sheet without remote actions', () => {
  it('leaves steps and score open where the record knows no part of the role', () => {
    const record = scoreSheetX({ parts: { battery: UNSAID } });
    const { figures, low, high, missing } = declaredOf(record);
    expect([figures, low, high].map((form) => form?.parts.battery?.steps)).toEqual([null, 18, 8]);
    // V1 and V0 of the constructed device X: the two ends of the same sheet.
    expect([figures.R, low?.R, high?.R]).toEqual([null, '3.1850', '3.3350']);
    expect(missing.map(({ address }) => address)).toEqual(['product/scoreSheet/parts/battery/remoteActions']);
    expect(batterySteps(record, { 'remote-pairing': 'one-action' })).toEqual([null, 13, 8]);
  });

  it.each<[string, object, unknown]>([
    ['closed by a part that is not serialised', { serialised: false }, [8, undefined, undefined]],
    [
      'closed by a part known to need neither',
      { remoteNotification: false, remoteAuthorisation: false },
      [8, undefined, undefined],
    ],
    ['open by a part of which nothing is known', {}, [null, 18, 8]],
    ['open by one action where one is needed', { remoteNotification: true, remoteAuthorisation: false }, [null, 13, 8]],
    ['open by both where both are needed', { remoteNotification: true, remoteAuthorisation: true }, [null, 18, 8]],
    ['open by one where only one can be', { remoteAuthorisation: false }, [null, 13, 8]],
  ])('is %s', (_name, battery, expected) => {
    expect(batterySteps(withBattery(battery))).toEqual(expected);
  });

  it('is settled by stating them, whatever the part needs', () => {
    const needs = { remoteNotification: true, remoteAuthorisation: true };
    const stated = (remoteActions: number) =>
      withBattery(needs, {}, { parts: { battery: { ...UNSAID, remoteActions } } });
    expect([0, 1, 2].map((count) => batterySteps(stated(count))[0])).toEqual([8, 13, 18]);
  });
});

const plain = { serialised: false };
const lift = (part: string, times: number) => ({
  for: part,
  steps: [
    ...Array.from({ length: times - 1 }, (_, index) => ({ do: 'lift', tools: [], free: [`tray-${index}`] })),
    { do: 'lift', tools: [], free: [part] },
  ],
});
const trays = Object.fromEntries(Array.from({ length: 9 }, (_, index) => [`tray-${index}`, {}]));
const speakers = { left: { role: 'speaker', ...plain }, right: { role: 'speaker', ...plain } };
/** Device X, whose sheet says 9 steps for the speaker, with two speakers and procedures for some of them. */
const withSpeakers = (procedures: object): Assessment =>
  schema.parse({ ...scoreSheetX(), parts: { ...trays, ...speakers }, procedures });

describe('a record with a score sheet and procedures', () => {
  it('keeps what procedures give, and takes the sheet for parts without one', () => {
    const { inputs } = declaredOf(withSpeakers({ p: lift('left', 4) }));
    expect(inputs?.main.parts.speaker.instances.map(({ part, steps }) => [part, steps])).toEqual([
      ['left', { state: 'known', value: 4, evidence: [] }],
      ['right', { state: 'known', value: 9, evidence: [] }],
    ]);
    expect(inputs?.disagreements).toEqual([]);
  });

  it('is the same whichever of the parts comes first', () => {
    const record = withSpeakers({ p: lift('left', 4) });
    const { left, right, ...rest } = record.parts ?? {};
    const turned = { ...record, parts: { ...(right ? { right } : {}), ...(left ? { left } : {}), ...rest } };
    expect(declaredOf(turned).figures).toEqual(declaredOf(record).figures);
  });

  it.each<[string, Assessment, readonly string[]]>([
    [
      'a sheet better than one of two parts',
      withSpeakers({ p: lift('left', 10) }),
      [
        'steps: the score sheet declares 9 steps for the speaker, procedures/p gives 10 steps; what the procedures give is used',
      ],
    ],
    [
      'a sheet worse than both parts',
      withSpeakers({ p: lift('left', 4), q: lift('right', 7) }),
      [
        'steps: the score sheet declares 9 steps for the speaker, procedures/p and procedures/q give 7 steps; what the procedures give is used',
      ],
    ],
  ])('names the contradiction of %s', (_name, record, expected) => {
    const found = declaredOf(record).inputs?.disagreements ?? [];
    expect(found.map(({ path, text }) => `${path.split('/').at(-1)}: ${text}`)).toEqual(expected);
    expect(found.every(({ path }) => path.startsWith('product/scoreSheet/parts/speaker/'))).toBe(true);
  });

  it('names none where an answer to what is open makes the two agree', () => {
    const battery = (steps: number, needs: object = {}) =>
      withBattery(
        needs,
        { parts: { ...trays, battery: { role: 'battery', ...needs } }, procedures: { p: lift('battery', 6) } },
        {
          parts: { battery: { steps, fastener: 'reusable', tool: 'none' } },
        },
      );
    const both = { remoteNotification: true, remoteAuthorisation: true };
    const paths = (record: Assessment) => declaredOf(record).inputs?.disagreements.map(({ path }) => path);
    expect(paths(battery(6))).toEqual([]);
    expect(paths(battery(16))).toEqual([]);
    expect(paths(battery(16, both))).toEqual([]);
    expect(paths(battery(16, plain))).toEqual(['product/scoreSheet/parts/battery/steps']);
    expect(paths(battery(5))).toEqual(['product/scoreSheet/parts/battery/steps']);
  });

  it('compares the classes of fasteners and tools as well', () => {
    const screw = {
      kind: 'screw',
      between: ['battery', 'chassis'],
      ways: { undo: { actions: [{ do: 'unscrew', tools: ['driver'] }], leaves: 'reusable' } },
    };
    const steps = [
      { do: 'unscrew', target: 'screw', way: 'undo', tools: ['driver'] },
      { do: 'lift', tools: [], free: ['battery'] },
    ];
    const record = (line: object) =>
      withBattery(
        plain,
        { fasteners: { screw }, procedures: { p: { for: 'battery', steps } } },
        { parts: { battery: { steps: 1, fastener: 'reusable', tool: 'basic', ...line } } },
      );
    const texts = (line: object) => declaredOf(record(line)).inputs?.disagreements.map(({ text }) => text);
    expect(texts({})).toEqual([]);
    expect(texts({ fastener: 'removable', tool: 'none' })).toEqual([
      'the score sheet declares fastener class removable for the battery, procedures/p gives fastener class reusable; what the procedures give is used',
      'the score sheet declares tool class none for the battery, procedures/p gives tool class basic; what the procedures give is used',
    ]);
  });
});
