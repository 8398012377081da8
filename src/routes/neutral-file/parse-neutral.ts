import {
  NEUTRAL_LIMITS,
  type NeutralAction,
  type NeutralProblem,
  type NeutralTool,
} from '../neutral/neutral-problem.ts';
import { type NeutralFault, NeutralReader, type RawObject } from './neutral-reader.ts';

/** What does a route problem file hold: a problem that the solver may take as it stands, or everything wrong with it? */
export type NeutralReading =
  | { readonly problem: NeutralProblem }
  | { readonly problem?: undefined; readonly faults: readonly NeutralFault[] };

const fields = ['format', 'version', 'tools', 'actions', 'target', 'firstPickupFree', 'changeover'];

/**
 * Reads JSON text in the format `unfasten/route-problem`, version 1. All faults at once, each with its id path and remedy;
 * sizes past `NEUTRAL_LIMITS` are faults by name. Throws nothing.
 */
export function parseNeutral(text: string): NeutralReading {
  let raw: unknown;
  try {
    raw = JSON.parse(text);
  } catch (error) {
    const what = `This is no JSON: ${error instanceof Error ? error.message : String(error)}`;
    return { faults: [{ where: '', value: undefined, what, remedy: 'Write one JSON object.' }] };
  }
  const reader = new NeutralReader();
  const problem = readProblem(reader, reader.object('', raw, fields));
  return reader.faults.length > 0 ? { faults: reader.faults } : { problem };
}

function readProblem(reader: NeutralReader, raw: RawObject): NeutralProblem {
  if (raw.format !== 'unfasten/route-problem') {
    const words = { what: 'The format is another', remedy: 'Write "unfasten/route-problem".' };
    reader.fault('format', raw.format, words);
  }
  if (raw.version !== 1) reader.fault('version', raw.version, { what: 'The version is unknown', remedy: 'Write 1.' });
  const tools = reader
    .list('tools', raw.tools, NEUTRAL_LIMITS.tools)
    .map((tool, index) => readTool(reader, tool, index));
  const toolIds = tools.map(({ id }) => id);
  reader.unique(toolIds, (index) => `tools[${index}].id`);
  const actions = reader
    .list('actions', raw.actions, NEUTRAL_LIMITS.actions)
    .map((action, index) => readAction(reader, action, { index, toolIds }));
  reader.unique(
    actions.map(({ id }) => id),
    (index) => `actions[${index}].id`,
  );
  const target = readFacts(reader, 'target', raw.target);
  checkSize(reader, actions, target);
  return {
    format: 'unfasten/route-problem',
    version: 1,
    tools,
    actions,
    target,
    ...(raw.firstPickupFree === undefined ? {} : { firstPickupFree: readFlag(reader, raw.firstPickupFree) }),
    ...(raw.changeover === undefined ? {} : { changeover: readChangeover(reader, raw.changeover, toolIds) }),
  };
}

function readTool(reader: NeutralReader, value: unknown, index: number): NeutralTool {
  const where = `tools[${index}]`;
  const raw = reader.object(where, value, ['id', 'pickupSeconds']);
  return {
    id: reader.name(`${where}.id`, raw.id),
    pickupSeconds: reader.seconds(`${where}.pickupSeconds`, raw.pickupSeconds),
  };
}

interface ActionPlace {
  readonly index: number;
  readonly toolIds: readonly string[];
}

function readAction(reader: NeutralReader, value: unknown, { index, toolIds }: ActionPlace): NeutralAction {
  const where = `actions[${index}]`;
  const raw = reader.object(where, value, ['id', 'tool', 'seconds', 'needs', 'gives']);
  return {
    id: reader.name(`${where}.id`, raw.id),
    tool: raw.tool === null ? null : reader.reference(`${where}.tool`, raw.tool, toolIds),
    seconds: reader.seconds(`${where}.seconds`, raw.seconds),
    needs: readFacts(reader, `${where}.needs`, raw.needs),
    gives: readFacts(reader, `${where}.gives`, raw.gives),
  };
}

function readFacts(reader: NeutralReader, where: string, value: unknown): readonly string[] {
  const items = reader.list(where, value, NEUTRAL_LIMITS.references);
  return items.map((item, index) => reader.name(`${where}[${index}]`, item));
}

function readFlag(reader: NeutralReader, value: unknown): boolean {
  if (typeof value === 'boolean') return value;
  reader.fault('firstPickupFree', value, { what: 'This is neither true nor false', remedy: 'Write true or false.' });
  return false;
}

function readChangeover(
  reader: NeutralReader,
  value: unknown,
  toolIds: readonly string[],
): readonly (readonly [string, string, number])[] {
  const rows = reader.list('changeover', value, NEUTRAL_LIMITS.changeovers).map((row, index) => {
    const where = `changeover[${index}]`;
    const items = reader.list(where, row, 3);
    const from = reader.reference(`${where}[0]`, items[0], toolIds);
    const to = reader.reference(`${where}[1]`, items[1], toolIds);
    if (from === to && from !== '') {
      const remedy = 'Leave the row out: a tool in hand is not taken up again.';
      reader.fault(where, row, { what: 'This goes from a tool to itself', remedy });
    }
    return [from, to, reader.seconds(`${where}[2]`, items[2])] as const;
  });
  reader.unique(
    rows.map(([from, to]) => JSON.stringify([from, to])),
    (index) => `changeover[${index}]`,
  );
  return rows;
}

function checkSize(reader: NeutralReader, actions: readonly NeutralAction[], target: readonly string[]): void {
  const references = actions.reduce((sum, { needs, gives }) => sum + needs.length + gives.length, 0);
  const facts = new Set([...actions.flatMap(({ needs, gives }) => [...needs, ...gives]), ...target]).size;
  for (const [what, count, most] of [
    ['needs and gives', references, NEUTRAL_LIMITS.references],
    ['different facts', facts, NEUTRAL_LIMITS.facts],
  ] as const) {
    if (count <= most) continue;
    const words = { what: `There are more ${what} than the limit of ${most}`, remedy: 'Split the problem.' };
    reader.fault('actions', count, words);
  }
}
