import { type Answer, allOf, anyOf, openAnswer, settledAnswer } from '../answer.ts';
import type { RowSubject } from '../duty-subject.ts';
import type { Check } from '../duty-table.ts';
import { deliveredAnswer } from './delivered.ts';
import { effectsAnswer } from './effects.ts';
import { itemsAnswer } from './items.ts';
import { marketAnswer, priceAnswer, yearsAnswer } from './market.ts';
import { offeredAnswer, refusedAnswer } from './offered.ts';
import { portableAnswer, serialisedAnswer, updatesAnswer } from './product-gates.ts';
import { releaseAnswer } from './release.ts';
import { separateAnswer } from './separate.ts';
import { factAnswer, figureAnswer, ingressAnswer } from './stated.ts';

type Kinds = Check['kind'];
type Checkers = { readonly [K in Kinds]: (check: Extract<Check, { kind: K }>, subject: RowSubject) => Answer };

const CHECKERS: Checkers = {
  fact: factAnswer,
  figure: figureAnswer,
  ingress: ({ code, byProduct }, subject) =>
    ingressAnswer(code ?? byProduct?.[subject.assessment.product.category ?? ''] ?? 'IP67', subject),
  offered: (check, subject) => offeredAnswer(subject, check),
  'refused-to-end-users': ({ parts }, subject) => refusedAnswer(subject, parts),
  separate: separateAnswer,
  delivered: deliveredAnswer,
  items: ({ asks }, subject) => itemsAnswer(asks, subject),
  release: releaseAnswer,
  effects: effectsAnswer,
  serialised: (_, subject) => serialisedAnswer(subject),
  'portable-battery': (_, subject) => portableAnswer(subject),
  updates: ({ years }, subject) => updatesAnswer(years, subject),
  market: marketAnswer,
  'market-price': priceAnswer,
  'market-years': ({ atLeast }, subject) => yearsAnswer(atLeast, subject),
  'either-row': ({ rows }, subject) => rowsAnswer(rows, subject),
  'one-of': ({ of }, subject) => anyOf(of.map((checks) => allOf(checks.map((check) => checkAnswer(check, subject))))),
};

/** What does the record say to one check? */
export const checkAnswer = (check: Check, subject: RowSubject): Answer =>
  (CHECKERS[check.kind] as (check: Check, subject: RowSubject) => Answer)(check, subject);

const STATE_WORDS = { met: 'met', 'not-met': 'not met', 'not-shown': 'not shown', 'does-not-apply': 'does not apply' };

/** Is one of several rows met? They come earlier in the table. */
const rowsAnswer = (rows: readonly string[], { stateOf }: RowSubject): Answer =>
  anyOf(
    rows.map((row) => {
      const state = stateOf(row);
      const says = `${row}: ${state === undefined ? 'not looked at' : STATE_WORDS[state]}`;
      if (state === 'met' || state === 'not-met') return settledAnswer(state === 'met', says, []);
      return openAnswer(says, [{ address: row, what: `whether ${row} is met`, remedy: 'see what that row misses' }]);
    }),
  );
