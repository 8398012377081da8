import { PRIORITY_ROLES, type PriorityRole } from './input.ts';

/** Which six parameters make up R? The names of Annex IV point 5. */
export const SCORES = ['SDD', 'SF', 'ST', 'SSP', 'SSU', 'SRI'] as const;

/** One of the six parameters of Annex IV point 5. */
export type Score = (typeof SCORES)[number];

/**
 * What does each parameter weigh in R? In hundredths, summing to 100.
 * Source: Regulation (EU) 2023/1669, Annex IV point 5, formula of R (read).
 */
export const SCORE_WEIGHTS: Readonly<Record<Score, number>> = { SDD: 25, SF: 15, ST: 15, SSP: 15, SSU: 15, SRI: 15 };

/** Which of the two weight columns applies? */
export type WeightColumn = 'non-foldable' | 'foldable';

/**
 * What does each priority part weigh in SDD, SF and ST alike? In hundredths, each column summing to 100; the hinge or
 * mechanical display folding mechanism has no place in the non-foldable column.
 * Source: Regulation (EU) 2023/1669, Annex IV point 5, formulas of SDD, SF and ST (read). The formula of ST prints `TSCR`
 * where its key says `TDA`; it is read as the display assembly.
 */
export const PART_WEIGHTS: Readonly<Record<WeightColumn, Readonly<Partial<Record<PriorityRole, number>>>>> = {
  'non-foldable': {
    battery: 30,
    display: 30,
    'back-cover': 10,
    'front-camera': 5,
    'rear-camera': 5,
    'charging-port': 5,
    button: 5,
    microphone: 5,
    speaker: 5,
  },
  foldable: {
    battery: 25,
    display: 25,
    'back-cover': 9,
    'front-camera': 4,
    'rear-camera': 4,
    'charging-port': 4,
    button: 4,
    microphone: 4,
    speaker: 4,
    hinge: 17,
  },
};

/** Which roles does a column weigh? Nine, or ten with the hinge, in the order of Annex IV point 5. */
export const rolesOf = (column: WeightColumn): readonly PriorityRole[] =>
  PRIORITY_ROLES.filter((role) => PART_WEIGHTS[column][role] !== undefined);
