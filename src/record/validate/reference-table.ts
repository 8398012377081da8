import type { Referent } from './known-ids.ts';

/** Where does the record refer to something by id, and to what? `log` marks the fields by which a log may bring in new things. */
export interface ReferenceField {
  readonly pattern: string;
  readonly to: Referent;
  readonly log?: boolean;
}

const entry = 'sessions/*/entries/*';
const step = 'procedures/*/steps/*';
const both = (pattern: string, to: Referent): ReferenceField[] => [
  { pattern: `parts/*/${pattern}`, to },
  { pattern: `fasteners/*/${pattern}`, to },
];

/** Every field of the record that refers to something by its id alone; those that need their surroundings are checked apart. */
export const referenceFields: readonly ReferenceField[] = [
  { pattern: 'product/reference', to: 'specimen' },
  { pattern: 'product/biometricParts/*', to: 'part' },
  { pattern: 'parts/*/within', to: 'part' },
  { pattern: 'parts/*/face', to: 'face' },
  { pattern: 'parts/*/removal/actions/*/tools/*', to: 'tool' },
  { pattern: 'fasteners/*/between/*', to: 'part-or-chassis' },
  { pattern: 'fasteners/*/ways/*/actions/*/tools/*', to: 'tool' },
  ...both('trials/*/off/*', 'thing'),
  ...both('trials/*/specimen', 'specimen'),
  ...both('trials/*/session', 'session'),
  { pattern: 'parts/*/untried/*/off/*', to: 'thing' },
  { pattern: 'parts/*/untried/*/stillIn/*', to: 'thing' },
  { pattern: 'parts/*/untried/*/specimen', to: 'specimen' },
  { pattern: 'parts/*/untried/*/session', to: 'session' },
  ...both('behind/*/*', 'thing'),
  ...both('requires/*/first/*', 'thing'),
  { pattern: 'spares/*/replaces/*', to: 'part' },
  { pattern: 'spares/*/includes/*', to: 'part' },
  { pattern: 'spares/*/contents/fasteners/*', to: 'fastener' },
  { pattern: 'spares/*/contents/tools/*', to: 'tool' },
  { pattern: 'sessions/*/specimen', to: 'specimen' },
  { pattern: 'sessions/*/startsAs/leftBy', to: 'session' },
  { pattern: `${entry}/target`, to: 'thing', log: true },
  { pattern: `${entry}/tools/*`, to: 'tool', log: true },
  { pattern: `${entry}/goal`, to: 'part', log: true },
  { pattern: `${entry}/goal/*`, to: 'part', log: true },
  { pattern: `${entry}/released/*`, to: 'fastener', log: true },
  { pattern: `${entry}/free/*`, to: 'part', log: true },
  { pattern: `${entry}/aside/*`, to: 'part', log: true },
  { pattern: `${entry}/refitted/*`, to: 'thing', log: true },
  { pattern: `${entry}/damage/*`, to: 'damage' },
  { pattern: 'procedures/*/for', to: 'part' },
  { pattern: `${step}/target`, to: 'thing' },
  { pattern: `${step}/tools/*`, to: 'tool' },
  { pattern: `${step}/released/*`, to: 'fastener' },
  { pattern: `${step}/free/*`, to: 'part' },
  { pattern: `${step}/aside/*`, to: 'part' },
  { pattern: 'damage/*/subject', to: 'thing' },
  { pattern: 'damage/*/specimen', to: 'specimen' },
  { pattern: 'damage/*/session', to: 'session' },
  { pattern: 'swaps/*/specimen', to: 'specimen' },
  { pattern: 'swaps/*/part', to: 'part' },
  { pattern: 'swaps/*/donor/specimen', to: 'specimen' },
  { pattern: 'swaps/*/donor/spare', to: 'spare' },
  { pattern: 'swaps/*/session', to: 'session' },
  { pattern: 'swapBench/hosts/*', to: 'specimen' },
  { pattern: 'swapBench/parts/*/connectors/*/fastener', to: 'fastener' },
  { pattern: 'swapBench/parts/*/checks/*', to: 'check' },
  { pattern: 'swapBench/donors/*/part', to: 'part' },
  { pattern: 'swapBench/donors/*/specimen', to: 'specimen' },
  { pattern: 'swapBench/donors/*/spare', to: 'spare' },
  { pattern: 'measures/*/subject', to: 'thing' },
  { pattern: 'measures/*/specimen', to: 'specimen' },
  { pattern: 'evidence/*/session', to: 'session' },
];

/** Fields that hold an id whose meaning hangs on what stands beside it: checked where the surroundings are known. */
export const surroundedReferences: readonly string[] = [
  'fasteners/*/ways/*/fallback',
  'parts/*/trials/*/entry',
  'fasteners/*/trials/*/entry',
  `${entry}/way`,
  `${entry}/interval`,
  `${entry}/corrects`,
  `${entry}/ends`,
  'sessions/*/retakes/*/repeats',
  `${step}/way`,
  'damage/*/found',
  'damage/*/after',
  'damage/*/before',
  'swaps/*/donor/item',
  'swaps/*/entry',
  'swaps/*/corrects',
  'swapBench/parts/*/layer',
];
