import type { DimensionName } from '#quantity/dimension';
import { MOST_SECONDS } from '../schema/basics.ts';

/** Which dimensions may a field's quantity have? Any where none is named. */
export interface QuantityField {
  readonly pattern: string;
  readonly dimensions?: readonly DimensionName[];
  readonly mayBeNegative?: boolean;
  readonly atMostPercent?: number;
  /** Longest duration [s]: that of one written as a bare number. */
  readonly atMostSeconds?: number;
}

const duration = { dimensions: ['time'], atMostSeconds: MOST_SECONDS } as const;
const charge = { dimensions: ['ratio'], atMostPercent: 100 } as const;
const reach = { dimensions: ['temperature', 'volume', 'mass'] } as const;

/** Every field of the record that holds a quantity as text, with what it measures. */
export const quantityFields: readonly QuantityField[] = [
  { pattern: 'product/diagonal', dimensions: ['length'] },
  { pattern: 'product/foldedDiagonal', dimensions: ['length'] },
  { pattern: 'product/price', dimensions: ['money'] },
  { pattern: 'product/figures/*/is' },
  { pattern: 'product/markets/*/wholesalePrice', dimensions: ['money'] },
  { pattern: 'specimens/*/charge', ...charge },
  { pattern: 'specimens/*/massBeforeOpening', dimensions: ['mass'] },
  { pattern: 'tools/*/pickup', ...duration },
  { pattern: 'parts/*/mass', dimensions: ['mass'] },
  { pattern: 'parts/*/energy', dimensions: ['energy'] },
  { pattern: 'parts/*/removal/takes', ...duration },
  { pattern: 'parts/*/removal/actions/*/takes', ...duration },
  { pattern: 'parts/*/removal/actions/*/reach', ...reach },
  { pattern: 'fasteners/*/ways/*/actions/*/takes', ...duration },
  { pattern: 'fasteners/*/ways/*/actions/*/reach', ...reach },
  { pattern: 'spares/*/price', dimensions: ['money'] },
  { pattern: 'spares/*/delivery', dimensions: ['time'] },
  { pattern: 'sessions/*/charge', ...charge },
  { pattern: 'sessions/*/entries/*/took', ...duration },
  { pattern: 'sessions/*/entries/*/reach', ...reach },
  { pattern: 'sessions/*/entries/*/cellSide', dimensions: ['temperature'] },
  { pattern: 'swaps/*/charge', ...charge },
  { pattern: 'swaps/*/soak', ...duration },
  { pattern: 'swaps/*/starts/after', ...duration },
  { pattern: 'swaps/*/measured/*/before', mayBeNegative: true },
  { pattern: 'swaps/*/measured/*/after', mayBeNegative: true },
  { pattern: 'swaps/*/pairing/cost', dimensions: ['money'] },
  { pattern: 'swaps/*/calibration/cost', dimensions: ['money'] },
  { pattern: 'swapBench/start', ...duration },
  { pattern: 'swapBench/soak', ...duration },
  { pattern: 'swapBench/close', ...duration },
  { pattern: 'swapBench/update', ...duration },
  { pattern: 'swapBench/parts/*/open', ...duration },
  { pattern: 'swapBench/parts/*/authorise', ...duration },
  { pattern: 'swapBench/parts/*/calibrate', ...duration },
  { pattern: 'swapBench/parts/*/moveIdentity', ...duration },
  { pattern: 'swapBench/parts/*/fit', ...duration },
  { pattern: 'swapBench/parts/*/check', ...duration },
  { pattern: 'measures/*/value', mayBeNegative: true },
];
