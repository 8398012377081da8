import type { Explained, FigureValue } from '#quantity/explained';
import { evidenceOf, missingOf, OPEN, word } from './figure.ts';
import {
  type Finding,
  INFORMATION_ITEMS,
  type IndexInput,
  type InformationAccess,
  type InformationFinding,
  type InformationItem,
} from './input.ts';
import { climbLadder, type Requirement, type Rung } from './ladder.ts';
import { clause } from './method.ts';

/** One row of the table of SRI: what end users get free and publicly, and on what terms professionals get everything. */
export interface InformationRow {
  readonly points: number;
  readonly endUsers: 'all-but-board-diagrams' | 'not-asked';
  readonly professionals: 'free' | 'reasonable-fee';
}

/**
 * How many points does repair information earn?
 * Source: Regulation (EU) 2023/1669, Annex IV point 5, table of SRI; the eleven items are those of Regulation (EU)
 * 2023/1670, Annex II B (D for tablets) 1.1(2)(e) (both read).
 */
export const INFORMATION_TABLE: readonly InformationRow[] = [
  { points: 5, endUsers: 'all-but-board-diagrams', professionals: 'free' },
  { points: 3, endUsers: 'not-asked', professionals: 'free' },
  { points: 1, endUsers: 'not-asked', professionals: 'reasonable-fee' },
];

const generosity: Readonly<Record<InformationAccess, number>> = {
  free: 3,
  'reasonable-fee': 2,
  'deterring-fee': 1,
  'not-offered': 0,
};

const meets = (finding: Finding<InformationAccess>, asked: InformationAccess): FigureValue => {
  if (finding.state === 'open') return OPEN;
  return word(finding.state === 'known' && generosity[finding.value] >= generosity[asked] ? 'yes' : 'no');
};

const isWord = (value: FigureValue, text: string): boolean => value.kind === 'word' && value.value === text;

interface Asked {
  readonly item: InformationItem;
  readonly audience: 'endUsers' | 'professionals';
  readonly terms: InformationAccess;
}

/** What end users get, professionals get too; what professionals do not get, end users do not get either. */
const decidedBy = (finding: InformationFinding, asked: Asked): Finding<InformationAccess> => {
  const own = finding[asked.audience];
  const other = asked.audience === 'endUsers' ? finding.professionals : finding.endUsers;
  if (asked.audience === 'professionals') return isWord(meets(other, asked.terms), 'yes') ? other : own;
  return own.state === 'open' && isWord(meets(other, asked.terms), 'no') ? other : own;
};

const requirement = (input: IndexInput, asked: Asked): Requirement => {
  const from = decidedBy(input.information[asked.item], asked);
  const terms = asked.terms === 'free' ? 'free' : 'at a reasonable fee or free';
  const audience = asked.audience === 'endUsers' ? 'the public' : 'professionals';
  return {
    input: {
      address: `information/${asked.item}/${asked.audience}`,
      label: `${asked.item} to ${audience} ${terms}`,
      value: meets(from, asked.terms),
      evidence: evidenceOf(from),
    },
    missing: missingOf(from),
  };
};

const rungOf = (input: IndexInput, row: InformationRow): Rung => {
  const toPublic = INFORMATION_ITEMS.filter((item) => row.endUsers !== 'not-asked' && item !== 'board-diagrams');
  const fee = row.professionals === 'free' ? 'free' : 'at a reasonable fee';
  return {
    points: row.points,
    says: `everything to professionals ${fee}${toPublic.length > 0 ? ', all but board diagrams public and free' : ''}`,
    requirements: [
      ...toPublic.map((item) => requirement(input, { item, audience: 'endUsers', terms: 'free' })),
      ...INFORMATION_ITEMS.map((item) =>
        requirement(input, { item, audience: 'professionals', terms: row.professionals }),
      ),
    ],
  };
};

/**
 * What is SRI, and what would the next rung ask for? Annex IV point 5, table of SRI. Public information that is free
 * while the board diagrams cost a fee reaches 1 point only; a fee that deters is no offer on the scale.
 */
export const informationScore = (input: IndexInput): Explained =>
  climbLadder(
    { id: 'SRI', label: 'repair information', clause: clause('Annex IV point 5, table of SRI') },
    INFORMATION_TABLE.map((row) => rungOf(input, row)),
  );
