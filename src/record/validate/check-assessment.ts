import type { UnplacedProblem } from '../problem.ts';
import { checkLinks } from './check-links.ts';
import { checkOrder } from './check-order.ts';
import { quantityRules } from './check-quantities.ts';
import { referenceRules } from './check-references.ts';
import { checkScoreSheet } from './check-score-sheet.ts';
import { checkSession } from './check-session.ts';
import { checkStructure } from './check-structure.ts';
import { checkSwaps } from './check-swaps.ts';
import { walkFields } from './field-walk.ts';
import { Findings } from './findings.ts';
import { knownIds } from './known-ids.ts';
import { logIndex } from './log-index.ts';
import { isPlainMap, itemsOf } from './plain.ts';

/**
 * What in a record contradicts itself, refers to nothing, or measures the wrong thing? Takes data as read, also where it
 * breaks the schema: what has the wrong shape is passed over here, since the schema check reports it. Cost: linear.
 */
export const checkAssessment = (data: unknown): readonly UnplacedProblem[] => {
  if (!isPlainMap(data)) return [];
  const findings = new Findings();
  const known = knownIds(data);
  walkFields(data, [...referenceRules(known, findings), ...quantityRules(findings)]);
  checkStructure(data, findings);
  const context = { data, log: logIndex(data), findings, known };
  checkLinks(context);
  for (const [id, session] of itemsOf(data.sessions)) checkSession(id, session, context);
  checkOrder(context);
  checkSwaps(context);
  checkScoreSheet(data, findings);
  return findings.problems;
};
