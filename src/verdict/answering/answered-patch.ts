import { isScaffold } from '#record/patch/is-scaffold';
import { type Keys, keysOf, pointerOf, valueAt } from '#record/patch/json-pointer';
import type { Json, Operation, Patch } from '#record/patch/operation';
import { fieldNames, schemaAt } from '#record/read/schema-at';
import { type Assessment, assessment as assessmentSchema } from '#record/schema/assessment';

/** Who answered a question, when, and what shows it. */
export interface Provenance {
  readonly by: string;
  /** Day the answer was found, ISO 8601. */
  readonly on: string;
  /** The moment with its offset, where it is known: RFC 3339. */
  readonly at?: string;
  readonly evidence: readonly string[];
  readonly note?: string;
}

/** An answer that was chosen: whose question, its words, and the change that says it and no more. */
export interface ChosenAnswer {
  /** Ids of the questions it answers; two for a pair. */
  readonly questions: readonly string[];
  readonly says: string;
  readonly patch: Patch;
}

/** What stood beside a fact and said where it came from, before the answer took its place. */
export interface ReplacedSource {
  /** The place of the fact, ids between slashes. */
  readonly place: string;
  readonly source?: string;
  readonly date?: string;
  readonly evidence?: readonly string[];
  readonly note?: string;
}

const SOURCE_FIELDS = ['source', 'date', 'evidence', 'note'] as const;

/** Maps of things that say more than one fact each: their source is not the source of an answer about them. */
const THINGS: readonly string[] = ['parts', 'fasteners', 'tools', 'spares'];

/**
 * Which change of the record takes an answer, with who, when and evidence? They stand beside the fact where the record has a
 * place for them there, in the stead of what said where the older statement came from; else in an entry of `notes`.
 */
export const answeredPatch = (assessment: Assessment, answer: ChosenAnswer, given: Provenance): Patch => {
  let unsourced = false;
  const written = answer.patch.map((operation): Operation => {
    if (operation.op !== 'add' || isScaffold(operation, answer.patch)) return operation;
    const place = sourcedPlace(assessment, operation);
    if (!place) {
      unsourced = true;
      return operation;
    }
    return { ...operation, value: withSource(operation.value, place.inside, given) };
  });
  return unsourced ? [...written, ...noteOperations(assessment, answer, given)] : written;
};

/** What said where the facts came from that an answer takes the place of? Empty where nothing did. */
export const replacedSources = (assessment: Assessment, patch: Patch): readonly ReplacedSource[] =>
  patch.flatMap((operation) => {
    const place = operation.op === 'add' && sourcedPlace(assessment, operation);
    const old = place ? valueAt(assessment, place.keys) : undefined;
    if (!place || !isMap(old)) return [];
    const fields = SOURCE_FIELDS.flatMap((field) => (old[field] === undefined ? [] : [[field, old[field]] as const]));
    return fields.length === 0 ? [] : [{ place: place.keys.join('/'), ...Object.fromEntries(fields) }];
  });

type Addition = Extract<Operation, { readonly op: 'add' }>;

interface SourcedPlace {
  /** The keys of the map that takes the source. */
  readonly keys: Keys;
  /** The keys of that map inside the value written. */
  readonly inside: Keys;
}

/** The map that holds the fact: the one whose standing is stated, else the value itself where it is a fact of its own. */
const sourcedPlace = (assessment: Assessment, { path, value }: Addition): SourcedPlace | undefined => {
  if (!isMap(value)) return undefined;
  const keys = keysOf(path);
  const inner = Object.entries(value).find(([, member]) => isMap(member) && member.standing !== undefined)?.[0];
  const inside = inner === undefined || value.standing !== undefined ? [] : [inner];
  const place = [...keys, ...inside];
  const isKnownThing =
    place.length === 2 && THINGS.includes(place[0] ?? '') && valueAt(assessment, place) !== undefined;
  const takes = fieldNames(schemaAt(assessmentSchema, place)).includes('source');
  return takes && !isKnownThing ? { keys: place, inside } : undefined;
};

const withSource = (value: Json, inside: Keys, given: Provenance): Json => {
  if (!isMap(value)) return value;
  const [key, ...rest] = inside;
  if (key !== undefined) return { ...value, [key]: withSource(value[key] ?? {}, rest, given) };
  const kept = Object.entries(value).filter(([field]) => !(SOURCE_FIELDS as readonly string[]).includes(field));
  return {
    ...Object.fromEntries(kept),
    source: given.by,
    date: given.on,
    ...(given.evidence.length > 0 ? { evidence: [...given.evidence] } : {}),
    ...(given.note === undefined ? {} : { note: given.note }),
  };
};

const noteOperations = (assessment: Assessment, answer: ChosenAnswer, given: Provenance): readonly Operation[] => {
  const { by, on, at, evidence, note } = given;
  const shown = evidence.length === 0 ? '' : ` Evidence: ${evidence.join(', ')}.`;
  const said = note === undefined ? '' : ` ${note}`;
  const text = `${answer.questions.join(' & ')}: ${answer.says}. Answered on ${on}.${shown}${said}`;
  const entry = { text, by, ...(at === undefined ? {} : { on: at }) };
  const key = freeKey(assessment, answer.questions);
  const add = (keys: Keys, value: Json): Operation => ({ op: 'add', path: pointerOf(keys), value });
  return [...(assessment.notes === undefined ? [add(['notes'], {})] : []), add(['notes', key], entry)];
};

/** Longest stem of an id of a note, so that a number still fits behind it. */
const MOST_STEM = 70;

/** An id made from the question's; numbered where the record has an older answer to it. */
const freeKey = (assessment: Assessment, questions: readonly string[]): string => {
  const stem = `answer-${questions.join('-').replaceAll(/[^A-Za-z0-9._-]/g, '-')}`.slice(0, MOST_STEM);
  for (let count = 1; ; count++) {
    const key = count === 1 ? stem : `${stem}-${count}`;
    if (assessment.notes?.[key] === undefined) return key;
  }
};

const isMap = (value: unknown): value is Readonly<Record<string, Json>> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);
