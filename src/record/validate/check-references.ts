import type { PathSegment } from '../problem.ts';
import { id } from '../schema/basics.ts';
import { schemaFields } from '../schema-fields.ts';
import { unknownNameRemedy } from '../suggest.ts';
import type { FieldRule } from './field-walk.ts';
import type { Findings } from './findings.ts';
import type { KnownIds, Referent } from './known-ids.ts';
import { type ReferenceField, referenceFields } from './reference-table.ts';

const words: Readonly<Record<Referent, string>> = {
  part: 'part',
  'part-or-chassis': 'part',
  fastener: 'fastener',
  thing: 'part or fastener',
  tool: 'tool',
  specimen: 'specimen',
  session: 'session',
  face: 'face',
  damage: 'damage',
  evidence: 'item of evidence',
  spare: 'spare',
  check: 'function check',
};

/** Which fields list evidence? Every one of that name that the schema has. */
const evidenceFields = (): readonly ReferenceField[] =>
  schemaFields()
    .filter(({ pattern, schema }) => pattern.endsWith('/evidence/*') && schema === id)
    .map(({ pattern }) => ({ pattern, to: 'evidence' }));

/** Does every id that is referred to exist? Each that does not is reported where it stands, with the name probably meant. */
export const referenceRules = (known: KnownIds, findings: Findings): readonly FieldRule[] =>
  [...referenceFields, ...evidenceFields()].map(({ pattern, to, log }) => ({
    pattern,
    check: (value, path) => {
      if (typeof value !== 'string' || known.has(to, value)) return;
      if (log && (to === 'tool' ? known.opensByLog.tool : known.opensByLog.thing)) return;
      reportUnknown({ id: value, to, path }, known, findings);
    },
  }));

const reportUnknown = (
  { id: name, to, path }: { readonly id: string; readonly to: Referent; readonly path: readonly PathSegment[] },
  known: KnownIds,
  findings: Findings,
): void => {
  const names = to === 'part-or-chassis' ? [...known.names(to), 'chassis'] : known.names(to);
  const other = otherSort(to, name, known);
  findings.add(path, {
    kind: 'unknown-reference',
    value: name,
    message: other
      ? `"${name}" is a ${other}, but a ${words[to]} is expected here`
      : `there is no ${words[to]} "${name}"`,
    remedy: other
      ? `Name a ${words[to]}.`
      : unknownNameRemedy(name, names, `Describe it first, or name one that is described.`),
  });
};

const otherSort = (to: Referent, id: string, known: KnownIds): string | undefined => {
  if (to !== 'fastener' && known.has('fastener', id) && to !== 'thing') return words.fastener;
  return to === 'fastener' && known.has('part', id) ? words.part : undefined;
};
