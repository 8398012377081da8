import { pointerOf } from '#record/patch/json-pointer';
import type { Json } from '#record/patch/operation';
import type { Assessment } from '#record/schema/assessment';
import { PRIORITY_ROLES } from '#schemes/eu-2023-1669/input';
import { type OpenAnswer, type OpenVariable, writing } from './open-variable.ts';
import { type OpenFact, placeVariable } from './supply-variables.ts';

const yesNo = (yes: string, no: string): readonly (readonly [string, string, Json])[] => [
  ['yes', yes, true],
  ['no', no, false],
];

/** Which variable is an open fact about a part, a fastener or a tool? Undefined where it is none, or has no list of answers. */
export const partVariable = (assessment: Assessment, fact: OpenFact): OpenVariable | undefined => {
  const [first, id = '', field, ...rest] = fact.address.split('/');
  if (first === 'parts' && (field === 'remoteNotification' || field === 'remoteAuthorisation'))
    return placeVariable(assessment, fact, {
      touches: 'judging',
      answers: yesNo('it is needed', 'it is not needed'),
      furthest: { low: 'yes', high: 'no' },
    });
  if (first === 'parts' && field === undefined && isMissingRole(assessment, id))
    return absenceVariable(assessment, fact, id);
  if (first === 'tools') return toolVariable(assessment, fact, field);
  if (first === 'fasteners' && field === 'ways') return leavesVariable(assessment, fact, id);
  if (first === 'product' && id === 'scoreSheet') return sheetVariable(assessment, fact, rest.at(-1));
  return undefined;
};

const isMissingRole = (assessment: Assessment, id: string): boolean =>
  (PRIORITY_ROLES as readonly string[]).includes(id) && assessment.parts?.[id] === undefined;

/** A part that may not be there. That it is there opens what is not known of it, so only the other answer settles anything. */
const absenceVariable = (assessment: Assessment, fact: OpenFact, role: string): OpenVariable =>
  placeVariable(
    assessment,
    { ...fact, what: `whether the product has a ${role.replaceAll('-', ' ')}` },
    {
      touches: 'routes',
      answers: [
        ['no', 'it has none', { role, absent: true }],
        ['yes', 'it has one', { role }],
      ],
      furthest: { low: 'yes', high: 'no' },
    },
  );

const toolVariable = (assessment: Assessment, fact: OpenFact, field: string | undefined): OpenVariable | undefined => {
  if (field === 'withProduct')
    return placeVariable(assessment, fact, {
      touches: 'judging',
      answers: yesNo('it is supplied or offered free', 'it is neither'),
      furthest: { low: 'no', high: 'yes' },
    });
  if (field === 'basicKind')
    return placeVariable(assessment, fact, {
      touches: 'judging',
      answers: [
        // Which of the sixteen it is makes no difference to a score.
        ['yes', 'it is on the list', 'spudger'],
        ['no', 'it is not on the list', null],
      ],
      furthest: { low: 'no', high: 'yes' },
    });
  return field === 'onSale' ? saleVariable(assessment, fact) : undefined;
};

/** Whether a tool can be bought. Only what it says is written, so that what another answer says of the tool stays. */
const saleVariable = (assessment: Assessment, { address, what, remedy }: OpenFact): OpenVariable => {
  const onSale = address.split('/');
  const licensable = pointerOf([...onSale.slice(0, 2), 'licensable']);
  const yes: OpenAnswer['patch'] = [...writing(assessment, onSale, true), { op: 'add', path: licensable, value: true }];
  return {
    id: address,
    kind: 'fact',
    touches: 'judging',
    asks: what,
    remedy,
    answers: [
      { id: 'yes', says: 'it can be bought, and no patent stands in the way', patch: yes },
      { id: 'no', says: 'it cannot', patch: writing(assessment, onSale, false) },
    ],
    // What cannot be bought is below the scale.
    furthest: { low: 'yes', high: 'yes' },
  };
};

const CLASSES = [
  ['reusable', 'it can be used again'],
  ['removable', 'it comes away cleanly and cannot be used again'],
  ['destroyed', 'it cannot be removed without damage or residue'],
] as const;

/** In which class every way of a fastener leaves it that does not say so yet. Undefined where the record describes no way. */
const leavesVariable = (assessment: Assessment, fact: OpenFact, fastener: string): OpenVariable | undefined => {
  const ways = Object.entries(assessment.fasteners?.[fastener]?.ways ?? {}).filter(([, { leaves }]) => !leaves);
  if (ways.length === 0) return undefined;
  const answers = CLASSES.map(([id, says]): OpenAnswer => {
    const patch = ways.flatMap(([way]) => writing(assessment, ['fasteners', fastener, 'ways', way, 'leaves'], id));
    return { id, says, patch };
  });
  const furthest = { low: 'removable', high: 'reusable' };
  return { id: fact.address, kind: 'fact', touches: 'routes', asks: fact.what, remedy: fact.remedy, answers, furthest };
};

const SHEET_ANSWERS: Readonly<Record<string, readonly (readonly [string, string, Json])[]>> = {
  // One count a band of the table of DDi: more is not needed to find an end.
  steps: [2, 5, 10, 15, 16].map((steps) => [String(steps), `${steps} steps`, steps] as const),
  fastener: ['reusable', 'resupplied', 'removable', 'below-scale'].map((name) => [name, name, name] as const),
  tool: ['none', 'basic', 'with-spare', 'with-product', 'commercial', 'below-scale'].map(
    (name) => [name, name.replaceAll('-', ' '), name] as const,
  ),
  remoteActions: [0, 1, 2].map((count) => [String(count), `${count}`, count] as const),
};

const sheetVariable = (assessment: Assessment, fact: OpenFact, field = ''): OpenVariable | undefined => {
  const answers = SHEET_ANSWERS[field];
  return answers && placeVariable(assessment, fact, { touches: 'judging', answers, ...furthestOnSheet(field) });
};

const FURTHEST_ON_SHEET: Readonly<Record<string, NonNullable<OpenVariable['furthest']>>> = {
  steps: { low: '16', high: '2' },
  fastener: { low: 'removable', high: 'reusable' },
  tool: { low: 'commercial', high: 'none' },
  remoteActions: { low: '2', high: '0' },
};

const furthestOnSheet = (field: string): Pick<OpenVariable, 'furthest'> => {
  const furthest = FURTHEST_ON_SHEET[field];
  return furthest ? { furthest } : {};
};
