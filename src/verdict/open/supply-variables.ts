import type { Json } from '#record/patch/operation';
import type { Assessment } from '#record/schema/assessment';
import type { OpenAnswer, OpenVariable } from './open-variable.ts';
import { writing } from './open-variable.ts';

/** An open fact as the figures name it: its address and what would settle it. */
export interface OpenFact {
  readonly address: string;
  readonly what: string;
  readonly remedy: string;
}

type Answers = readonly (readonly [id: string, says: string, value: Json])[];

/** A variable about one place of the record, each answer a value there. */
export const placeVariable = (
  assessment: Assessment,
  fact: OpenFact,
  as: {
    readonly touches: OpenVariable['touches'];
    readonly keys?: readonly string[];
    readonly answers: Answers;
    readonly furthest?: OpenVariable['furthest'];
  },
): OpenVariable => {
  const keys = as.keys ?? fact.address.split('/');
  return {
    id: fact.address,
    kind: 'fact',
    touches: as.touches,
    asks: fact.what,
    remedy: fact.remedy,
    answers: as.answers.map(([id, says, value]): OpenAnswer => ({ id, says, patch: writing(assessment, keys, value) })),
    ...(as.furthest ? { furthest: as.furthest } : {}),
  };
};

const established = (value: Readonly<Record<string, Json>>): Json => ({ ...value, standing: 'established' });

/** Answers to who can get a spare part; an offer counts as shown in every reading once it was delivered. */
const OFFERS: Answers = [
  ['yes', 'it can be had', established({ how: 'delivered' })],
  ['no', 'it is refused', established({ how: 'refused' })],
];

/** Below five years the scale has no points (Annex IV point 5, table of SSU); four stand for anything less. */
const YEARS: Answers = [
  ['7', 'seven years or more', established({ years: 7 })],
  ['6', 'six years', established({ years: 6 })],
  ['5', 'five years', established({ years: 5 })],
  ['less', 'less than five years', established({ years: 4 })],
];

const ACCESS: Answers = [
  ['free', 'free of charge', established({ access: 'free' })],
  ['reasonable-fee', 'for a reasonable fee', established({ access: 'reasonable-fee' })],
  ['deterring-fee', 'for a fee that deters', established({ access: 'deterring-fee' })],
  ['not-offered', 'not at all', established({ access: 'not-offered' })],
];

/** Which variable is an open fact of supply or of the product as a whole? Undefined where it is none of these. */
export const supplyVariable = (assessment: Assessment, fact: OpenFact): OpenVariable | undefined => {
  const [first, second, third] = fact.address.split('/');
  if (first === 'product' && second === 'foldable')
    return placeVariable(assessment, fact, {
      touches: 'product',
      answers: [
        ['yes', 'it does', { foldingDisplay: true, hinge: true }],
        ['no', 'it does not', { foldingDisplay: false, hinge: false }],
      ],
    });
  if (first !== 'supply') return undefined;
  if (second === 'parts')
    return placeVariable(assessment, fact, { touches: 'product', answers: OFFERS, furthest: furthestOffer(fact) });
  if (second === 'information')
    return placeVariable(assessment, fact, { touches: 'product', answers: ACCESS, furthest: furthestAccess(fact) });
  const keys = ['supply', 'software', third ?? ''];
  return placeVariable(assessment, fact, {
    touches: 'product',
    keys,
    answers: YEARS,
    furthest: { low: '5', high: '7' },
  });
};

/** The lowest that still has points: the display to end users, all else to professionals (Annex IV point 5, table of SSP). */
const furthestOffer = ({ address }: OpenFact): OpenVariable['furthest'] => {
  const isAsked = address.endsWith('/professionals') || address === 'supply/parts/display/endUsers';
  return { low: isAsked ? 'yes' : 'no', high: 'yes' };
};

/** The lowest that still has points: everything to professionals for a reasonable fee (Annex IV point 5, table of SRI). */
const furthestAccess = ({ address }: OpenFact): OpenVariable['furthest'] => ({
  low: address.endsWith('/professionals') ? 'reasonable-fee' : 'not-offered',
  high: 'free',
});
