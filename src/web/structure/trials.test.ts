import { expect, test } from 'vitest';
import type { Assessment } from '#record/schema/assessment';
import { smallRecord } from '../../../test/records/small-record.ts';
import { applyPatch } from '../ledger/apply-patch.ts';
import { answerOpenTrials } from './answer-open-trials.ts';
import type { TrialsAnswer, TrialsRequest } from './open-trials-messages.ts';
import { reviewSource } from './review-source.ts';
import { takenBackPatch, trialPatch } from './trial-answer.ts';
import { listed, movesWords, offToTell, trialQuestion } from './trial-words.ts';
import { TrialsClient, type TrialsPort } from './trials-client.ts';

const screw = (between: readonly [string, string], behind?: readonly (readonly string[])[]) => ({
  kind: 'screw',
  between,
  ways: { turn: { actions: [{ do: 'unscrew', tools: ['driver'] }], leaves: 'reusable' } },
  ...(behind === undefined ? {} : { behind }),
});

const record = smallRecord({
  parts: {
    cover: { name: 'Cover', role: 'back-cover', behind: [] },
    foil: { name: 'Foil', within: 'cover' },
    coil: { name: 'Coil', behind: [['cover']] },
    battery: { name: 'Battery', role: 'battery' },
  },
  fasteners: {
    'cover-screws': screw(['cover', 'chassis'], []),
    'coil-screws': screw(['coil', 'chassis'], [['cover']]),
    'battery-screws': screw(['battery', 'chassis'], [['cover']]),
  },
  log: [
    ['unscrew', 'cover-screws', ['driver']],
    ['lift', 'cover'],
    ['unscrew', 'coil-screws', ['driver']],
    ['lift', 'coil'],
    ['unscrew', 'battery-screws', ['driver']],
    ['lift', 'battery'],
  ],
});
const source = reviewSource(record);
const firstOf = (document: Assessment) => {
  const [first] = answerOpenTrials({ generation: 1, document }).trials ?? [];
  if (!first) throw new RangeError('no trial');
  return first;
};
const answer = { key: 't-1', specimen: 'a', date: '2026-11-25' };

test('a trial is asked by what is still on, told by carriers alone, and says what hangs on it but not which answer does what', () => {
  const trial = firstOf(record);
  expect(trialQuestion(trial, source)).toBe('Does Battery come while Coil is still on?');
  expect(offToTell(trial, source)).toEqual(['cover']);
  expect(movesWords(trial.moves, source)).toBe('On it hangs: Battery, 1 step.');
  expect(movesWords([], source)).toBe('Nothing moves by this alone.');
  expect(trialQuestion({ subject: 'foil', off: [] }, source)).toBe('Does Foil come with nothing else off?');
  expect(trialQuestion({ subject: 'battery-screws', off: [] }, source)).toBe(
    'Can battery screws be released while Cover and Coil are still on?',
  );
  expect(listed(['cover', 'foil', 'coil', 'battery', 'cover-screws'], source)).toBe('Cover, Foil, Coil and 2 more');
});

test.each([
  ['yes', []],
  ['no', ['battery']],
] as const)(
  'an answer "%s" goes into the record with exactly what was off, and the engine goes on from it',
  (came, left) => {
    const trial = firstOf(record);
    const applied = applyPatch(record, trialPatch(source, trial, { ...answer, came }));
    if (!applied.fits) throw new RangeError(applied.why);
    expect(applied.document.parts?.battery?.trials).toEqual({
      't-1': { off: trial.off, came, specimen: 'a', date: '2026-11-25' },
    });
    const next = answerOpenTrials({ generation: 1, document: applied.document }).trials ?? [];
    expect(next.map(({ off }) => off)).not.toContainEqual(trial.off);
    expect(next.filter(({ moves }) => moves.length > 0).map(({ subject }) => subject)).toEqual(left);
  },
);

test('an answer can be taken back as long as nobody has touched it', () => {
  const trial = firstOf(record);
  const applied = applyPatch(record, trialPatch(source, trial, { ...answer, came: 'damaged' }));
  if (!applied.fits) throw new RangeError(applied.why);
  const written = applied.document;
  const back = takenBackPatch({ document: written, device: source.device }, trial.subject, 't-1');
  expect(applyPatch(written, back ?? [])).toMatchObject({ fits: true });
  expect(takenBackPatch(source, trial.subject, 't-1')).toBeUndefined();
});

test('a record that cannot be read gives its reason in words', () => {
  const parts = Object.fromEntries(
    Array.from({ length: 400 }, (_, index) => [`p${index}`, { within: `p${index + 1}` }]),
  );
  expect(answerOpenTrials({ generation: 1, document: { ...record, parts } }).problem).toMatch(/./);
});

test('TrialsClient asks about the newest document only, and starts another worker where one stopped', () => {
  const asked: Assessment[] = [];
  const ears: ((event: { readonly data: TrialsAnswer }) => void)[] = [];
  const fails: ((event: object) => void)[] = [];
  const start = (): TrialsPort => ({
    postMessage: ({ document }: TrialsRequest) => void asked.push(document),
    addEventListener: (type: string, listener: never) => void (type === 'message' ? ears : fails).push(listener),
    terminate: () => undefined,
  });
  const client = new TrialsClient(start);
  const [one, two, three] = [{ ...record }, { ...record }, { ...record }];
  for (const document of [one, two, three, three]) client.askAbout(document);
  ears[0]?.({ data: { generation: 1, trials: [] } });
  const { answered, busy } = client.look();
  expect([asked.length, asked[1] === three, answered?.document === one, busy]).toEqual([2, true, true, true]);
  fails[0]?.({});
  expect(client.look().answer?.problem).toMatch(/^The engine stopped/);
  for (const document of [three, two, two]) client.askAbout(document);
  expect([ears.length, asked[2] === two]).toEqual([2, true]);
});
