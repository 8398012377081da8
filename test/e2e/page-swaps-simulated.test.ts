import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { applyPatch } from '#record/patch/apply-patch';
import type { Assessment } from '#record/schema/assessment';
import { checkAssessment } from '#record/validate/check-assessment';
import { runsOf } from '#swaps/model/runs-of';
import type { SwapRun } from '#swaps/model/swap-run';
import { answerRun, type PartAnswer, type SimulatedDevice } from '#swaps/simulate/answer-run';
import type { HiddenTruth } from '#swaps/simulate/hidden-truth';
import { nextSwapOf } from '#verdict/swaps/swap-plan-of';
import type { RunDraft } from '#web/swaps/run-draft';
import { runPatch } from '#web/swaps/run-patch';
import { share } from '../share.ts';
import { launchBrowser } from './browser.ts';
import { type PageServer, servePage } from './page-server.ts';

/** A case is a dozen runs, each entered by hand. */
const PATIENT = { timeout: 600_000 };

type Bench = NonNullable<Assessment['swapBench']>;
type BenchPart = NonNullable<Bench['parts']>[string];

interface Case {
  readonly truth: HiddenTruth;
  readonly found: RegExp;
  readonly part?: BenchPart;
  readonly donors?: Bench['donors'];
  readonly predecessor?: true;
  /** A piece that the person tries as well, where the plan has decided without it. */
  readonly alsoTried?: string;
}

const OFFERED: BenchPart = {
  open: 60,
  fit: 60,
  check: 60,
  authorisation: true,
  authorise: 60,
  calibration: true,
  calibrate: 60,
};
const lost = { part: 'cell', kind: 'salvaged-locked-unit', homeLock: 'lost', revision: 'R1' } as const;
/** Two of them: what one piece does could be that piece's own fault. */
const LOST: Bench['donors'] = { 'cell-lost': lost, 'cell-lost-too': lost };

/** The nine cases of the issue, each by what is really the matter and what has to be said of it in the end. */
const CASES: readonly (readonly [name: string, Case])[] = [
  [
    'a hand slip',
    { truth: { explanation: 'handling-damage', damagedAt: { a: 1 }, code: 'E5' }, found: /Cause: handling damage\./ },
  ],
  [
    'a bad donor',
    { truth: { explanation: 'bad-donor', piece: 'specimen:b', code: 'E5' }, found: /Cause: bad donor\./ },
  ],
  [
    'a reversible lock',
    { truth: { explanation: 'pairing-reversible', code: 'E3' }, found: /Cause: pairing, reversible\./ },
  ],
  ['a latching lock', { truth: { explanation: 'pairing-latching', code: 'E5' }, found: /Cause: pairing, latching\./ }],
  [
    'a calibration',
    { truth: { explanation: 'missing-calibration', code: 'E4' }, found: /Cause: missing calibration\./ },
  ],
  [
    'a bug fixed by an update',
    { truth: { explanation: 'firmware-bug', lastFirmware: '1.0', code: 'E2' }, found: /Cause: firmware bug, mended\./ },
  ],
  [
    'a blocked donor',
    {
      truth: { explanation: 'donor-home-locked', code: 'E5' },
      found: /Cause: blocked donor\./,
      donors: LOST,
      alsoTried: 'donor:cell-lost',
    },
  ],
  [
    'one undecided',
    {
      truth: { explanation: 'pairing-reversible', code: 'E5' },
      found:
        /Cause undecided: bug, not mended and pairing, reversible stand\.[\s\S]*No authorised step is offered at this bench/,
      part: { ...OFFERED, authorisation: false },
    },
  ],
  [
    'one carried over',
    {
      truth: { explanation: 'pairing-reversible', code: 'E3' },
      found: /Cause: pairing, reversible\.[\s\S]*Since the predecessor, Tarn 4carried over: /,
      predecessor: true,
    },
  ],
];

const specimen = (name: string) => ({
  name,
  revision: 'R1',
  accountLock: 'none' as const,
  charge: '30 %',
  firmware: { boot: { version: '1.0', since: '2026-01-01T09:00:00+00:00' } },
});

const recordOf = ({ part = OFFERED, donors, predecessor }: Omit<Case, 'truth' | 'found'>): Assessment => ({
  format: 'unfasten/assessment',
  version: 1,
  product: { name: 'Tarn 5', category: 'smartphone', ...(predecessor ? { predecessor: 'before' } : {}) },
  specimens: { a: specimen('Specimen A'), b: specimen('Specimen B') },
  parts: { cell: { name: 'Cell', role: 'battery' } },
  swapBench: {
    start: 60,
    soak: 60,
    close: 60,
    update: 300,
    hides: 0,
    firmware: ['1.0', '1.1'],
    hosts: ['a', 'b'],
    parts: { cell: part },
    ...(donors ? { donors } : {}),
  },
});

/** The predecessor refused foreign cells in the same way. */
const before: Assessment = {
  ...recordOf({}),
  product: { name: 'Tarn 4', category: 'smartphone' },
  swaps: Object.fromEntries(
    ['a', 'b', 'a', 'b'].map((host, index) => [
      `f${index}`,
      {
        specimen: host,
        part: 'cell',
        fitted: 'foreign' as const,
        donor: { kind: 'used-genuine' as const, specimen: host === 'a' ? 'b' : 'a' },
        arm: 'cross' as const,
        run: index + 1,
        firmware: '0.9',
        effect: 'E3' as const,
      },
    ]),
  ),
};

let server: PageServer;
let browser: Browser;

/** The whole of it takes minutes: under `npm run test:deep` alone. */
const PLAYED = CASES.slice(0, share(0, CASES.length));

beforeAll(async () => {
  if (PLAYED.length === 0) return;
  const records = CASES.map(([, one], index) => [`case-${index}`, recordOf(one)] as const);
  server = await servePage([], { documents: { ...Object.fromEntries(records), before } });
  browser = await launchBrowser();
});

afterAll(async () => {
  await browser?.close();
  await server?.stop();
});

/** Numbers from 0 to below 1, the same for the same seed: a linear congruence of Park and Miller, CACM 31 (1988) 1192. */
const drawsFrom = (seed: number) => {
  let state = seed;
  return () => {
    state = (state * 48_271) % 2_147_483_647;
    return state / 2_147_483_647;
  };
};

/** What the device answers to the run on the sheet: its settings are what the record would say of it. */
const answersTo = async (page: Page, assessment: string, { device, random }: Play): Promise<readonly PartAnswer[]> => {
  const kept = await page.evaluate((key) => localStorage.getItem(key), `unfasten.run-sheet.${assessment}`);
  const [draft] = JSON.parse(kept ?? '[]') as RunDraft[];
  if (!draft) throw new Error('no run lies on the sheet');
  const { document } = await server.ledger.head(assessment);
  const applied = applyPatch(document, runPatch(document, draft, { random: () => 0, isBrokenOff: true }).patch);
  if (!applied.fits) throw new Error(applied.message);
  const all = [...runsOf(applied.document).runs];
  const ofRun = (is: boolean) => (run: SwapRun) => (run.order === draft.run) === is;
  const fits = all.flatMap(([, runs]) => runs.filter(ofRun(true)));
  const earlier = new Map(all.map(([part, runs]) => [part, runs.filter(ofRun(false))]));
  return answerRun(device, { order: draft.run, fits, earlier }, random);
};

interface Play {
  readonly device: SimulatedDevice;
  readonly random: () => number;
}

const enter = async (page: Page, { effect, notice }: PartAnswer): Promise<void> => {
  if (effect === undefined) throw new Error('a single part is hidden by none');
  if (effect === 'E0') await page.getByRole('button', { name: 'All of them pass' }).click();
  await page.getByRole('radio', { name: new RegExp(`^${effect}`) }).check();
  if (notice) {
    await page.getByLabel('Its wording, word for word').fill(notice.wording);
    await page.getByLabel(/^Where:/).fill(notice.where);
    await page.getByLabel(/^When it comes again/).fill(notice.returns);
    await page
      .getByRole('group', { name: 'Can be put away at once' })
      .getByLabel(notice.dismissible ? 'yes' : 'no')
      .check();
  }
  if (effect !== 'E4') return;
  await page.getByLabel('function measured').fill('greatest power');
  await page.getByLabel('with the own part').fill('18.0 ± 0.2 W');
  await page.getByLabel('as fitted now').fill('9.1 ± 0.2 W');
};

/** The run on the sheet is made: how the specimen stood, what the device answers, saved. */
const finish = async (page: Page, assessment: string, how: Play): Promise<void> => {
  for (const name of [/^Closed up/, /^Grounded/, /^Soak and reset/])
    await page.getByRole('group', { name }).getByLabel('yes').check();
  await page.getByLabel('Charge').fill('30 %');
  for (const answer of await answersTo(page, assessment, how)) await enter(page, answer);
  await page.getByRole('button', { name: /^Save run/ }).click();
  await page.getByText(/^Run \d+ is saved\.$/).waitFor();
  await page.getByText(/^All on disk/).waitFor();
};

/** A run that the plan did not ask for: a piece into the first specimen. */
const tryPiece = async (page: Page, piece: string): Promise<void> => {
  await page.getByRole('button', { name: 'Begin a run of it' }).click();
  await page.getByRole('button', { name: 'Add it to this run' }).click();
  await page.getByLabel('Piece that goes in').selectOption(piece);
};

const MOST_RUNS = 40;
const OVER = 'No further run at this bench would decide more.';

/** Runs the sheet suggests are entered until it suggests none; how many there were. */
const play = async (page: Page, assessment: string, how: Play): Promise<number> => {
  const make = page.getByRole('button', { name: 'Make this run' });
  for (let run = 1; run <= MOST_RUNS; run += 1) {
    await make.or(page.getByText(OVER)).waitFor();
    if (await page.getByText(OVER).isVisible()) return run - 1;
    await make.click();
    await finish(page, assessment, how);
  }
  throw new Error('the sheet goes on suggesting runs');
};

test.each(CASES)('the record of %s is sound, and a first run is suggested: the specimen as it is', (_, one) => {
  const document = recordOf(one);
  expect(checkAssessment(document)).toEqual([]);
  expect(nextSwapOf(document)?.next.run?.fits).toMatchObject([{ part: 'cell', arm: 'baseline' }]);
});

test.each(PLAYED)(
  'a simulated device with %s is worked through on the run sheet, and the truth is named',
  PATIENT,
  async (name, { truth, found, alsoTried }) => {
    const assessment = `case-${CASES.findIndex(([other]) => other === name)}`;
    const page = await (await browser.newContext({ viewport: { width: 1440, height: 900 } })).newPage();
    await page.goto(new URL(`/a/${assessment}/swaps`, server.url).href);
    const device: SimulatedDevice = { truths: new Map([['cell', truth]]), firmware: ['1.0', '1.1'] };
    const how = { device, random: drawsFrom(7) };
    const runs = await play(page, assessment, how);
    if (alsoTried !== undefined) {
      await tryPiece(page, alsoTried);
      await finish(page, assessment, how);
      await play(page, assessment, how);
    }
    expect(runs).toBeGreaterThan(3);
    await page.getByRole('link', { name: 'What the runs say' }).click();
    const cell = page.getByRole('region', { name: 'Cell', exact: true });
    await cell.locator('summary').click();
    await expect.poll(() => cell.textContent(), { timeout: 60_000 }).toMatch(found);
    await page.context().close();
  },
);
