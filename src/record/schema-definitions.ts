import type { z } from 'zod';
import {
  access,
  assessment,
  claim,
  evidence,
  expectation,
  informationItem,
  interpretation,
  measure,
  supply,
  updateKind,
} from './schema/assessment.ts';
import { action, day, duration, id, moment, quantityText, role, standing, text } from './schema/basics.ts';
import { damage, entry, hold, procedure, retake, session } from './schema/bench.ts';
import {
  category,
  offer,
  product,
  publicSheet,
  scoreSheet,
  scoreSheetLine,
  spare,
  specimen,
  tool,
} from './schema/product.ts';
import {
  behind,
  decision,
  fastener,
  fastenerKind,
  odds,
  part,
  requirement,
  trial,
  untried,
  way,
  wayAction,
} from './schema/structure.ts';
import { swap, swapBench } from './schema/swaps.ts';

/** A part of the schema that has a name of its own in the JSON Schema and a section in the reference. */
export interface SchemaDefinition {
  readonly name: string;
  readonly schema: z.ZodType;
  /** What it stands for, in one sentence. */
  readonly says: string;
}

const define = (name: string, schema: z.ZodType, says: string): SchemaDefinition => ({ name, schema, says });

/** The named parts of the schema in reading order: the whole record, its collections, then the values they are made of. */
export const schemaDefinitions: readonly SchemaDefinition[] = [
  define('assessment', assessment, 'The whole record of one product under study.'),
  define('product', product, 'The product under study: the model, not the unit on the bench.'),
  define('publicSheet', publicSheet, 'What the public product sheet declares: R and its six sub-scores.'),
  define('scoreSheet', scoreSheet, "What the maker's technical documentation declares for each role."),
  define('scoreSheetLine', scoreSheetLine, 'One line of a declared score sheet.'),
  define('specimen', specimen, 'A physical unit on the bench.'),
  define('tool', tool, 'A tool: what it is, who supplies it, what taking it up costs.'),
  define('part', part, 'One physical item; two speakers are two parts of one role.'),
  define('fastener', fastener, 'A set of like fasteners at one place; connectors and adhesives are fasteners.'),
  define('way', way, 'One manner of releasing a fastener, with the reuse class it leaves.'),
  define('wayAction', wayAction, 'One action of a way or a removal.'),
  define('odds', odds, 'Chances of a way where the bench has not counted them.'),
  define('trial', trial, 'What was tried, with exactly what off, and what came of it.'),
  define('untried', untried, 'A question put before an act made it unanswerable, and not tried; it is no trial.'),
  define('behind', behind, 'What had to be off, by sight: alternatives of sets.'),
  define('requirement', requirement, 'Precedence for another reason than access; only a decision overrides it.'),
  define('decision', decision, 'A named decision with a reason: the only thing that overrides a requirement.'),
  define('session', session, 'A stretch of bench work of one kind; never rewritten.'),
  define('entry', entry, 'One logged action.'),
  define('hold', hold, 'A pause that is not work.'),
  define('retake', retake, 'A stretch in which something was done again; it gives no times and no odds.'),
  define('procedure', procedure, "A route as the maker's own documents give it."),
  define('damage', damage, 'What broke, how bad, when found, between which entries it must have happened.'),
  define('spare', spare, 'A spare part as sold.'),
  define('offer', offer, 'Whether an offer is real, and how far that was shown.'),
  define('supply', supply, 'Parts, information and software support as offered.'),
  define('access', access, 'How an audience gets one item of repair information.'),
  define('updateKind', updateKind, 'For how many years one kind of update is guaranteed.'),
  define('swap', swap, 'One fit of a part into a specimen.'),
  define('swapBench', swapBench, 'What is at hand for swaps: time, firmware, hosts, donors, costs.'),
  define('measure', measure, 'A quantity measured at the bench.'),
  define('claim', claim, 'What somebody claims of the product, and what the bench found.'),
  define('evidence', evidence, 'Something that shows a fact; files are named by their SHA-256.'),
  define('interpretation', interpretation, 'A chosen reading of an ambiguous rule.'),
  define('expectation', expectation, 'A named set of assumptions under which a conditional verdict is stated.'),
  define('id', id, 'The name of an item; stable, since addresses and references use it.'),
  define('text', text, 'Free text as the assessor wrote it.'),
  define('quantity', quantityText, 'A quantity with its unit, and its uncertainty or range.'),
  define('duration', duration, 'Seconds as a bare number, or a quantity of time.'),
  define('day', day, 'A calendar day, ISO 8601.'),
  define('moment', moment, 'A moment with its offset, RFC 3339.'),
  define('standing', standing, 'How well a fact of supply is established; only `established` settles a figure.'),
  define('category', category, 'Which kind of product it is.'),
  define('role', role, 'What a part is for: the priority parts first, then other roles.'),
  define('fastenerKind', fastenerKind, 'What sort of fastener it is.'),
  define('action', action, 'One atom of bench work, off or back.'),
  define('informationItem', informationItem, 'One item of repair information, Regulation (EU) 2023/1670, Annex II.'),
];
