import type { DimensionName } from '#quantity/dimension';

/** Which dimensions may a field's quantity have? Any where none is named. */
export interface QuantityField {
  readonly pattern: string;
  readonly dimensions?: readonly DimensionName[];
  readonly mayBeNegative?: boolean;
  readonly atMostPercent?: number;
}

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
  { pattern: 'tools/*/pickup', dimensions: ['time'] },
  { pattern: 'parts/*/mass', dimensions: ['mass'] },
  { pattern: 'parts/*/energy', dimensions: ['energy'] },
  { pattern: 'parts/*/removal/takes', dimensions: ['time'] },
  { pattern: 'parts/*/removal/actions/*/takes', dimensions: ['time'] },
  { pattern: 'parts/*/removal/actions/*/reach', ...reach },
  { pattern: 'fasteners/*/ways/*/actions/*/takes', dimensions: ['time'] },
  { pattern: 'fasteners/*/ways/*/actions/*/reach', ...reach },
  { pattern: 'spares/*/price', dimensions: ['money'] },
  { pattern: 'spares/*/delivery', dimensions: ['time'] },
  { pattern: 'sessions/*/charge', ...charge },
  { pattern: 'sessions/*/entries/*/took', dimensions: ['time'] },
  { pattern: 'sessions/*/entries/*/reach', ...reach },
  { pattern: 'sessions/*/entries/*/cellSide', dimensions: ['temperature'] },
  { pattern: 'swaps/*/charge', ...charge },
  { pattern: 'swaps/*/soak', dimensions: ['time'] },
  { pattern: 'swaps/*/starts/after', dimensions: ['time'] },
  { pattern: 'swaps/*/measured/*/before', mayBeNegative: true },
  { pattern: 'swaps/*/measured/*/after', mayBeNegative: true },
  { pattern: 'swaps/*/pairing/cost', dimensions: ['money'] },
  { pattern: 'swaps/*/calibration/cost', dimensions: ['money'] },
  { pattern: 'swapBench/start', dimensions: ['time'] },
  { pattern: 'swapBench/soak', dimensions: ['time'] },
  { pattern: 'swapBench/close', dimensions: ['time'] },
  { pattern: 'swapBench/update', dimensions: ['time'] },
  { pattern: 'swapBench/parts/*/open', dimensions: ['time'] },
  { pattern: 'swapBench/parts/*/authorise', dimensions: ['time'] },
  { pattern: 'swapBench/parts/*/calibrate', dimensions: ['time'] },
  { pattern: 'swapBench/parts/*/moveIdentity', dimensions: ['time'] },
  { pattern: 'swapBench/parts/*/fit', dimensions: ['time'] },
  { pattern: 'swapBench/parts/*/check', dimensions: ['time'] },
  { pattern: 'measures/*/value', mayBeNegative: true },
];
