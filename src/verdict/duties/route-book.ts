import type { RouteSource } from '#routes/problem/from-record';
import type { RouteAction, RouteProblem } from '#routes/problem/route-problem';
import { isAdmitted } from '#routes/search/usable';
import { itemsOfRoute, type SequenceItem } from '#routes/sequence/bench-sequence';
import { declaredItems, procedureFor } from '#routes/sequence/declared';
import { evidencedItems } from '#routes/sequence/item-evidence';
import { planGraph } from '#routes/structure/plan-graph';
import { reachable } from '#routes/structure/reach';
import type { ClassOnRoute, DutyRoute, ReleaseCriterion, RouteBook } from '#schemes/duties/duty-subject';
import { bestShown } from '#schemes/eu-2023-1669/bases/best-search';
import { type ClassRange, fastenerRange, toolRange } from '#schemes/eu-2023-1669/bases/class-ranges';
import { fastenerRanges, toolRanges } from '#schemes/eu-2023-1669/bases/judge-sequence';
import { anyRecordName, recordName } from '#schemes/eu-2023-1669/bases/record-names';
import type { ToolClass } from '#schemes/eu-2023-1669/input';
import type { Interpretations } from '#schemes/eu-2023-1669/interpretations';
import type { Groundwork } from '../index-bases.ts';

/** What a book is written from. */
interface Book {
  readonly groundwork: Groundwork;
  readonly readings: Interpretations;
  /** Classes of tools for a part, looked up once: read at the best and at the worst class that each fits. */
  readonly ranges: Map<string, readonly ClassRange<ToolClass>[]>;
}

const worstOfSeveral = (readings: Interpretations): Interpretations => ({
  ...readings,
  'tool-in-several-classes': 'worst',
});
const bestOfSeveral = (readings: Interpretations): Interpretations => ({
  ...readings,
  'tool-in-several-classes': 'best',
});

const onRoute = <C extends string>(id: string, name: string, range: ClassRange<C>): ClassOnRoute<C> => ({
  id,
  name,
  worst: range.worst,
  best: range.best,
  missing: range.missing,
  evidence: range.evidence,
});

/** Which hazard has an atom: by what it does, or by the tool it takes? */
const hazardsOf = (source: RouteSource, { atoms }: Pick<RouteAction, 'atoms'>): ReadonlySet<'heat' | 'solvent'> => {
  const found = new Set<'heat' | 'solvent'>();
  for (const atom of atoms) {
    if (atom.do === 'heat') found.add('heat');
    if (atom.do === 'dissolve') found.add('solvent');
    for (const tool of atom.tools) {
      const hazard = source.assessment.tools?.[tool]?.hazard;
      if (hazard === 'heat' || hazard === 'solvent') found.add(hazard);
    }
  }
  return found;
};

const hazardWords = (
  source: RouteSource,
  items: readonly SequenceItem[],
  hazard: 'heat' | 'solvent',
): readonly string[] =>
  items
    .filter((item) => hazardsOf(source, item).has(hazard))
    .map((item) => {
      const at = item.atoms.find(({ place }) => place !== undefined)?.place ?? item.released[0]?.fastener;
      return `${hazard}${at === undefined ? '' : ` at the ${anyRecordName(source.assessment, at)}`}`;
    });

/** Of a log entry its session: a route rests on so many entries that naming each would say less. */
const sessionOf = (evidence: string): string => /^sessions\/[^/]+/.exec(evidence)?.[0] ?? evidence;

/** All fasteners and tools from the complete product to the part: a duty looks at the whole way, the index at its last stretch. */
const dutyRoute = (
  items: readonly SequenceItem[],
  basis: DutyRoute['basis'],
  { groundwork: { source }, readings, part }: Book & { readonly part: string },
): DutyRoute => {
  const at = { source, part, readings: bestOfSeveral(readings) };
  const worst = new Map<string, ClassRange<ToolClass>>(
    toolRanges(items, { ...at, readings: worstOfSeveral(readings) }),
  );
  const tools = toolRanges(items, at).map(([id, range]): ClassOnRoute<ToolClass> => {
    const other = worst.get(id);
    const plain = onRoute(id, recordName(source.assessment, 'tools', id), range);
    return other ? { ...plain, other: { worst: other.worst, best: other.best } } : plain;
  });
  return {
    basis,
    fasteners: fastenerRanges(items, at).map(([id, range]) =>
      onRoute(id, recordName(source.assessment, 'fasteners', id), range),
    ),
    tools,
    heat: hazardWords(source, items, 'heat'),
    solvent: hazardWords(source, items, 'solvent'),
    off: [...new Set(items.flatMap(({ off }) => off))],
    actions: items.map(({ address }) => address),
    evidence: [...new Set(items.flatMap(({ evidence }) => evidence.map(sessionOf)))],
  };
};

const routesTo = (book: Book, part: string): readonly DutyRoute[] => {
  const { source, problems } = book.groundwork;
  const at = { ...book, part };
  const best = bestShown(problems, { source, readings: book.readings, part });
  const declared = procedureFor(source, part);
  return [
    ...(best.kind === 'found' ? [dutyRoute(evidencedItems(itemsOfRoute(best.actions), source), 'best found', at)] : []),
    ...(declared ? [dutyRoute(declaredItems(source, ...declared), 'declared', at)] : []),
  ];
};

const kept = <V>(map: Map<string, V>, key: string, make: () => V): V => {
  const old = map.get(key);
  if (old !== undefined) return old;
  const made = make();
  map.set(key, made);
  return made;
};

/** Is an action within the criterion, every open class at one end? */
const isWithin = (
  action: RouteAction,
  criterion: ReleaseCriterion,
  {
    groundwork: { source },
    ranges,
    readings,
    part,
    end,
  }: Book & { readonly part: string; readonly end: 'worst' | 'best' },
): boolean => {
  const hazards = hazardsOf(source, action);
  if ([...criterion.without].some((hazard) => hazards.has(hazard))) return false;
  if (action.kind === 'release' && criterion.fasteners !== 'any') {
    const range = fastenerRange(source, { part, fastener: action.subject, leaves: action.leaves });
    if (!criterion.fasteners.has(range[end])) return false;
  }
  const readBoth = [bestOfSeveral(readings), worstOfSeveral(readings)];
  return action.atoms
    .flatMap(({ tools }) => tools)
    .every((tool) =>
      kept(ranges, `${part}\n${tool}`, () =>
        readBoth.map((reading) => toolRange(source, { part, tool }, reading)),
      ).some((range) => criterion.tools.has(range[end])),
    );
};

/** Does the part come free with the actions that are kept? */
const comesFree = (problem: RouteProblem, part: string, keeps: (action: RouteAction) => boolean): boolean => {
  const graph = planGraph(problem);
  const usable = Uint8Array.from(graph.actions, (action) => (keeps(action) ? 1 : 0));
  const target = graph.factIds.get(`free/${part}`);
  return target !== undefined && reachable(graph, usable, []).facts[target] === 1;
};

const admits = (book: Book, part: string, criterion: ReleaseCriterion): 'shown' | 'possible' | 'none' => {
  const { pessimistic, optimistic } = book.groundwork.problems;
  const shown = (action: RouteAction) =>
    isAdmitted(action, {}) && isWithin(action, criterion, { ...book, part, end: 'worst' });
  if (comesFree(pessimistic, part, shown)) return 'shown';
  const onRecord = (action: RouteAction) => isAdmitted(action, { allowNotShown: true });
  const possible = (action: RouteAction) =>
    onRecord(action) && isWithin(action, criterion, { ...book, part, end: 'best' });
  return comesFree(optimistic, part, possible) || !comesFree(optimistic, part, onRecord) ? 'possible' : 'none';
};

/**
 * The routes of a record as duties look at them: best found and declared with every class on the way, and whether a way within
 * a criterion is shown, possible, or excluded. Facts never become false on the way off, so that reaching them is enough.
 */
export const routeBook = (groundwork: Groundwork, readings: Interpretations): RouteBook => {
  const book = { groundwork, readings, ranges: new Map<string, readonly ClassRange<ToolClass>[]>() };
  const known = new Map<string, readonly DutyRoute[]>();
  return {
    routesTo: (part) => kept(known, part, () => routesTo(book, part)),
    admits: (part, criterion) => admits(book, part, criterion),
  };
};
