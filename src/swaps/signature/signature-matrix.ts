import type { Suspicion } from '../model/suspicion.ts';
import type { Allowed } from './allowed.ts';
import type { OrderedSetting } from './placed-run.ts';
import { predict } from './predict.ts';

/** One column of the signature matrix: a run of the full protocol with two units A and B, whose own parts are a and b. */
export interface MatrixColumn {
  readonly label: string;
  readonly setting: OrderedSetting;
}

/** One row: an explanation in one exact form, and what it allows in each column. */
export interface MatrixRow {
  readonly label: string;
  readonly suspicion: Suspicion;
  /** The circumstances where they are not the usual ones. */
  readonly changed?: (setting: OrderedSetting) => OrderedSetting;
  readonly allowed: readonly Allowed[];
}

/**
 * Which signature does each explanation have in the full protocol? Two units of one revision on firmware v1: baseline, refit control,
 * cross in both directions, swap-back; then b in A again with one thing changed at a time. After a step that changes the host
 * (authorised, own identity moved) the next column looks at a host that never had it. Worked out by the rules of `predict`;
 * docs/method/swap-diagnosis.md prints it.
 */
export const signatureMatrix = (): readonly MatrixRow[] =>
  ROWS.map((row) => ({ ...row, allowed: MATRIX_COLUMNS.map((column) => cell(row, column)) }));

/** The firmware versions of the matrix, oldest first. */
const FIRMWARE = ['v1', 'v2'];

const run = (order: number, host: 'A' | 'B', piece: 'a' | 'b'): OrderedSetting => ({
  order,
  host,
  hostRevision: 'r1',
  part: 'part',
  piece: {
    key: piece,
    home: piece.toUpperCase(),
    kind: 'used-genuine',
    revision: 'r1',
    homeLock: 'none',
  },
  isOwn: piece.toUpperCase() === host,
  handled: order > 2,
  firmware: 'v1',
  calibrated: false,
  authorised: false,
  identityMoved: false,
  ready: true,
  settled: true,
});

const FULL_PROTOCOL: readonly MatrixColumn[] = [
  { label: 'A+a baseline', setting: run(1, 'A', 'a') },
  { label: 'B+b baseline', setting: run(2, 'B', 'b') },
  { label: 'A+a refit control', setting: run(3, 'A', 'a') },
  { label: 'B+b refit control', setting: run(4, 'B', 'b') },
  { label: 'A+b', setting: run(5, 'A', 'b') },
  { label: 'B+a', setting: run(6, 'B', 'a') },
  { label: 'A+a back', setting: run(7, 'A', 'a') },
  { label: 'B+b back', setting: run(8, 'B', 'b') },
];

const AGAIN = run(9, 'A', 'b');

/** The columns of the matrix, in the order of the protocol. */
export const MATRIX_COLUMNS: readonly MatrixColumn[] = [
  ...FULL_PROTOCOL,
  { label: 'A+b authorised', setting: { ...AGAIN, authorised: true } },
  { label: 'A+b calibrated', setting: { ...AGAIN, calibrated: true } },
  { label: 'A+b own identity moved', setting: { ...AGAIN, identityMoved: true } },
  { label: 'A+b on v2', setting: { ...AGAIN, firmware: 'v2' } },
  { label: 'A+b again', setting: AGAIN },
];

type RowStart = Omit<MatrixRow, 'allowed'>;

const ROWS: readonly RowStart[] = [
  { label: 'accepted', suspicion: { explanation: 'accepted' } },
  { label: 'bad donor: b', suspicion: { explanation: 'bad-donor', piece: 'b' } },
  {
    label: 'handling damage: A, at its refit control',
    suspicion: { explanation: 'handling-damage', damagedFrom: { A: 3 } },
  },
  {
    label: 'handling damage: A, at the cross',
    suspicion: { explanation: 'handling-damage', damagedFrom: { A: 5 } },
  },
  {
    label: 'handling damage: A and B, at the cross',
    suspicion: { explanation: 'handling-damage', damagedFrom: { A: 5, B: 6 } },
  },
  { label: 'missing calibration', suspicion: { explanation: 'missing-calibration' } },
  {
    label: 'revision mismatch, A and B of one revision',
    suspicion: { explanation: 'revision-mismatch' },
  },
  {
    label: 'revision mismatch, B of another revision',
    suspicion: { explanation: 'revision-mismatch' },
    changed: (setting) => ({
      ...setting,
      hostRevision: setting.host === 'B' ? 'r2' : 'r1',
      piece: { ...setting.piece, revision: setting.piece.home === 'B' ? 'r2' : 'r1' },
    }),
  },
  { label: 'bug up to v1', suspicion: { explanation: 'firmware-bug', lastFirmware: 'v1' } },
  { label: 'bug of every version at hand', suspicion: { explanation: 'unfixed-bug' } },
  { label: 'gauge or cache, settled', suspicion: { explanation: 'gauge-or-cache' } },
  {
    label: 'gauge or cache, not settled',
    suspicion: { explanation: 'gauge-or-cache' },
    changed: (setting) => ({ ...setting, settled: false }),
  },
  { label: 'pairing, reversible', suspicion: { explanation: 'pairing-reversible' } },
  { label: 'pairing, latching', suspicion: { explanation: 'pairing-latching' } },
  {
    label: "donor's home unit locked: no unit is",
    suspicion: { explanation: 'donor-home-locked' },
  },
  {
    label: "donor's home unit locked: B is",
    suspicion: { explanation: 'donor-home-locked' },
    changed: (setting) => ({
      ...setting,
      piece: { ...setting.piece, homeLock: setting.piece.home === 'B' ? 'locked' : 'none' },
    }),
  },
  { label: 'host not ready: every host is', suspicion: { explanation: 'host-not-ready' } },
  {
    label: 'host not ready: open, not grounded or nearly empty',
    suspicion: { explanation: 'host-not-ready' },
    changed: (setting) => ({ ...setting, ready: false }),
  },
  { label: 'test error at A+b', suspicion: { explanation: 'test-error', misread: 5 } },
];

/** Columns after the eighth follow the full protocol singly, as if the others of them had not been. */
const cell = (row: RowStart, column: MatrixColumn): Allowed => {
  const before = FULL_PROTOCOL.filter(({ setting }) => setting.order < column.setting.order);
  const changed = row.changed ?? ((setting) => setting);
  const runs = [...before, column].map(({ setting }) => changed(setting));
  return predict(row.suspicion, runs, FIRMWARE).at(-1) ?? [];
};
