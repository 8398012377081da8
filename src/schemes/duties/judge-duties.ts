import { type Answer, allOf, openAnswer, settledAnswer } from './answer.ts';
import { checkAnswer } from './checks/check-answer.ts';
import { beginningOf, conductAnswer, dateAnswer, onceBegun } from './dates.ts';
import type { DutyFinding, DutyState } from './duty-finding.ts';
import type { DutySubject, RowSubject } from './duty-subject.ts';
import type { DutyRow, DutyTable } from './duty-table.ts';

const categoryWords = (category: string): string => category.replaceAll('-', ' ');

/** Is the product of a class the row is about? */
const productAnswer = (row: DutyRow, table: DutyTable, { assessment }: DutySubject): Answer => {
  const { category } = assessment.product;
  const products = row.products ?? table.products ?? 'any';
  if (products === 'any') return settledAnswer(true, '', []);
  const ground = { address: 'product/category' };
  if (category === undefined)
    return openAnswer('category not on record', [
      { ...ground, what: 'what category of product it is', remedy: 'record product/category' },
    ]);
  if (products.includes(category)) return settledAnswer(true, '', [ground]);
  const { elsewhere, elsewhereFor = [] } = table;
  if (elsewhere !== undefined && (elsewhereFor === 'any' || elsewhereFor.includes(category)))
    return openAnswer(
      elsewhere,
      [
        {
          ...ground,
          what: `whether the law covers this product (category ${categoryWords(category)})`,
          remedy: 'look into the text of the law',
        },
      ],
      [ground],
    );
  const listed = products.map(categoryWords).join(', ');
  return settledAnswer(false, `category ${categoryWords(category)}; the row is about: ${listed}`, [ground]);
};

/** Is a smartphone or slate tablet inside the scope by size and kind? Other categories are not asked. */
const scopeAnswer = (table: DutyTable, { scope, assessment }: DutySubject): Answer => {
  const { category } = assessment.product;
  const asked = table.scope === true && (category === 'smartphone' || category === 'slate-tablet');
  if (!asked || scope.inScope === true) return settledAnswer(true, '', []);
  if (scope.inScope === false) return settledAnswer(false, `out of scope: ${scope.outOfScope}`, []);
  return openAnswer('whether it is in scope is open', scope.missing);
};

/** What decides whether the row applies at all, apart from the day of what was seen? One no; else what is open of it, alone. */
const applies = (row: DutyRow, table: DutyTable, subject: RowSubject): Answer => {
  const dates = (row.dates ?? table.dates ?? []).filter(({ decides }) => decides !== 'conduct');
  const first = allOf([productAnswer(row, table, subject), scopeAnswer(table, subject)]);
  if (first.is === 'no') return first;
  const dated = dates.map((test) => dateAnswer(test, subject));
  if (dated.some(({ is }) => is === 'no')) return allOf(dated);
  const all = [first, ...dated, ...(row.when ?? []).map((check) => checkAnswer(check, subject))];
  const gate = allOf(all);
  return gate.is === 'open' ? allOf(all.filter(({ is }) => is === 'open')) : gate;
};

/** What was found, once its day was looked at: `before` where the law did not hold yet on that day. */
const found = (row: DutyRow, table: DutyTable, subject: RowSubject): Answer | 'before' => {
  const { category, firstPlaced } = subject.assessment.product;
  const dates = row.dates ?? table.dates ?? [];
  const answer = allOf(row.checks.map((check) => checkAnswer(check, subject)));
  const conduct = dates.find(({ decides }) => decides === 'conduct');
  const timely = conduct ? conductAnswer(answer, conduct, category) : answer;
  if (timely === 'before' || row.begins === undefined) return timely;
  const law = dates.find(({ decides }) => decides === 'placed')?.from ?? '';
  return onceBegun(timely, beginningOf(row.begins, law, firstPlaced));
};

const lawStart = (row: DutyRow, table: DutyTable): string =>
  (row.dates ?? table.dates ?? []).find(({ decides }) => decides === 'conduct')?.from ?? '';

interface Outcome {
  readonly state: DutyState;
  readonly from: Answer;
}

const outcomeOf = (row: DutyRow, table: DutyTable, subject: RowSubject): Outcome => {
  const gate = applies(row, table, subject);
  if (gate.is === 'no') return { state: 'does-not-apply', from: gate };
  const answer = found(row, table, subject);
  if (answer === 'before') {
    const says = `what is on record was seen before the law held (${lawStart(row, table)})`;
    return { state: 'does-not-apply', from: openAnswer(says, []) };
  }
  if (gate.is === 'open') {
    const says = `whether it applies is not shown: ${openOf(gate)}`;
    return { state: 'not-shown', from: { ...allOf([gate, answer]), is: 'open', says, missing: gate.missing } };
  }
  if (answer.is === 'open') return { state: 'not-shown', from: answer };
  return { state: answer.is === 'yes' ? 'met' : 'not-met', from: answer };
};

/**
 * Is a row from memory set aside in this record? Such a row is a default that may be edited; what was read in a text, or in a
 * text about it, may not.
 */
const setAside = ({ id, mark }: DutyRow, { assessment }: DutySubject): Outcome | undefined => {
  const chosen = mark === 'memory' ? assessment.product.dutyDefaults?.[id] : undefined;
  if (chosen?.asked !== false) return undefined;
  const ground = { address: `product/dutyDefaults/${id}` };
  return { state: 'does-not-apply', from: settledAnswer(false, `set aside here: ${chosen.reason}`, [ground]) };
};

const openOf = ({ says }: Answer): string => says || 'facts are missing';

/** What comes of one row for one subject? */
const judgeRow = (row: DutyRow, table: DutyTable, subject: RowSubject): DutyFinding => {
  const { state, from } = setAside(row, subject) ?? outcomeOf(row, table, subject);
  return {
    id: row.id,
    title: row.title,
    jurisdiction: table.jurisdiction,
    law: table.short,
    clause: row.clause,
    state,
    observed: from.says,
    ...(row.condition === undefined ? {} : { condition: row.condition }),
    asks: row.asks,
    facts: from.facts,
    evidence: from.evidence,
    missing: state === 'not-shown' ? from.missing : [],
    mark: row.mark,
    source: `${table.title} (${table.identifier}); ${row.source ?? table.source}`,
    notes: [row.note, table.remark].filter((note) => note !== undefined),
  };
};

/**
 * What does the record show of each duty? Row by row in the order of the tables: met, not met, not shown or does not apply, with
 * what it rests on and what is missing. Observations from the record, no advice; pure, and independent of the order of ids.
 */
export const judgeDuties = (tables: readonly DutyTable[], subject: DutySubject): readonly DutyFinding[] => {
  const states = new Map<string, DutyState>();
  const stateOf = (row: string): DutyState | undefined => states.get(row);
  return tables.flatMap((table) =>
    table.rows.map((row) => {
      const finding = judgeRow(row, table, {
        ...subject,
        jurisdiction: table.jurisdiction,
        parts: row.parts,
        stateOf,
      });
      states.set(row.id, finding.state);
      return finding;
    }),
  );
};
