import { limitWords } from '../limit-words.ts';
import { limits } from '../limits.ts';
import type { PathSegment } from '../problem.ts';
import { unknownNameRemedy } from '../suggest.ts';
import { circlesOf } from './cycles.ts';
import type { Findings } from './findings.ts';
import { isPlainMap, itemOf, itemsOf, type PlainMap, textOf, textsOf } from './plain.ts';

/** Does the description of parts and fasteners hold together: ids, carriers, ends, precedence, fallbacks, sights? */
export const checkStructure = (data: PlainMap, findings: Findings): void => {
  checkNames(data, findings);
  checkCarriers(data, findings);
  for (const [id, fastener] of itemsOf(data.fasteners)) {
    checkEnds(data, id, { fastener, findings });
    checkFallbacks(id, fastener, findings);
  }
  checkPrecedence(data, findings);
  for (const collection of ['parts', 'fasteners'])
    for (const [id, item] of itemsOf(data[collection])) checkSubject([collection, id], item, findings);
};

/** Lists of what is off mix parts and fasteners, so that the two share one set of names; "chassis" is neither. */
const checkNames = (data: PlainMap, findings: Findings): void => {
  for (const collection of ['parts', 'fasteners'])
    if (itemOf(data[collection], 'chassis'))
      findings.add([collection, 'chassis'], {
        at: 'key',
        value: 'chassis',
        kind: 'reserved-key',
        message: '"chassis" stands for everything that is no part',
        remedy: 'Choose another id.',
      });
  for (const [id] of itemsOf(data.fasteners))
    if (itemOf(data.parts, id))
      findings.add(['fasteners', id], {
        at: 'key',
        value: id,
        kind: 'clash',
        message: `"${id}" names a part and a fastener`,
        remedy: 'Rename one of them: lists of what is off mix the two.',
      });
};

const checkCarriers = (data: PlainMap, findings: Findings): void => {
  const carriers = new Map<string, string[]>();
  for (const [id, part] of itemsOf(data.parts)) {
    const within = textOf(part.within);
    if (within === undefined) continue;
    carriers.set(id, [within]);
    if (part.absent !== true && itemOf(data.parts, within)?.absent === true)
      findings.add(['parts', id, 'within'], {
        value: within,
        message: `"${within}" is known not to exist and carries nothing`,
        remedy: 'Name another carrier, or remove "absent" there.',
      });
  }
  checkChains(carriers, findings);
  for (const circle of circlesOf(carriers)) addCircle(circle, { path: (id) => ['parts', id, 'within'], findings });
};

/**
 * A chain of carriers as long as the file would make every later question about it take its square. A circle is no chain: it is
 * reported as what it is.
 */
const checkChains = (carriers: ReadonlyMap<string, readonly string[]>, findings: Findings): void => {
  for (const start of carriers.keys()) {
    const chain = new Set<string>();
    for (let id: string | undefined = start; id !== undefined && !chain.has(id); id = carriers.get(id)?.[0]) {
      chain.add(id);
      if (chain.size > limits.carriers) break;
    }
    if (chain.size <= limits.carriers) continue;
    findings.add(['parts', start, 'within'], limitWords('carriers', carriers.get(start)?.[0]));
    return;
  }
};

const addCircle = (
  circle: readonly string[],
  { path, findings }: { readonly path: (id: string) => readonly PathSegment[]; readonly findings: Findings },
): void => {
  const [first = ''] = circle;
  findings.add(path(first), {
    value: circle[1] ?? first,
    kind: 'cycle',
    message: `this goes in a circle: ${shortened([...circle, first]).join(' → ')}`,
    remedy: 'Take out one link of the circle.',
  });
};

const shortened = (ids: readonly string[]): readonly string[] =>
  ids.length <= 12 ? ids : [...ids.slice(0, 6), '…', ...ids.slice(-5)];

const checkEnds = (
  data: PlainMap,
  id: string,
  { fastener, findings }: { readonly fastener: PlainMap; readonly findings: Findings },
): void => {
  const ends = textsOf(fastener.between);
  if (ends.length === 2 && ends[0] === ends[1])
    findings.add(['fasteners', id, 'between', 1], {
      value: ends[1],
      message: 'a fastener joins two different things',
      remedy: 'Name two parts, or a part and "chassis".',
    });
  if (fastener.absent === true) return;
  for (const [index, end] of ends.entries())
    if (itemOf(data.parts, end)?.absent === true)
      findings.add(['fasteners', id, 'between', index], {
        value: end,
        message: `"${end}" is known not to exist and is fastened to nothing`,
        remedy: 'Mark the fastener absent as well, or name the part that is there.',
      });
};

const checkFallbacks = (id: string, fastener: PlainMap, findings: Findings): void => {
  const next = new Map<string, string[]>();
  const ways = itemsOf(fastener.ways);
  for (const [way, { fallback }] of ways) {
    const other = textOf(fallback);
    if (other === undefined) continue;
    const path = ['fasteners', id, 'ways', way, 'fallback'];
    if (itemOf(fastener.ways, other)) next.set(way, [other]);
    else
      findings.add(
        path,
        unknownWay(
          other,
          id,
          ways.map(([name]) => name),
        ),
      );
  }
  for (const circle of circlesOf(next))
    addCircle(circle, { path: (way) => ['fasteners', id, 'ways', way, 'fallback'], findings });
};

/** How is a way refused that its fastener does not have? */
export const unknownWay = (way: string, fastener: string, ways: readonly string[]) => ({
  value: way,
  kind: 'unknown-reference' as const,
  message: `fastener "${fastener}" has no way "${way}"`,
  remedy: unknownNameRemedy(
    way,
    ways,
    ways.length > 0 ? `Name one of: ${ways.slice(0, 8).join(', ')}.` : 'Describe the way there.',
  ),
});

/** What must be off before what? A circle of precedence could never be begun. */
const checkPrecedence = (data: PlainMap, findings: Findings): void => {
  const next = new Map<string, string[]>();
  const overridden = new Set(itemsOf(data.decisions).map(([, decision]) => textOf(decision.overrides)));
  const places = new Map<string, readonly PathSegment[]>();
  for (const collection of ['parts', 'fasteners'])
    for (const [id, item] of itemsOf(data[collection]))
      for (const [name, requirement] of itemsOf(item.requires)) {
        if (overridden.has(`${collection}/${id}/requires/${name}`)) continue;
        next.set(id, [...(next.get(id) ?? []), ...textsOf(requirement.first)]);
        places.set(id, [collection, id, 'requires', name, 'first']);
      }
  for (const circle of circlesOf(next)) addCircle(circle, { path: (id) => places.get(id) ?? [], findings });
};

const checkSubject = (path: readonly PathSegment[], item: PlainMap, findings: Findings): void => {
  const id = String(path.at(-1));
  const sets = Array.isArray(item.behind) ? item.behind : [];
  for (const [index, set] of sets.entries())
    if (textsOf(set).includes(id)) findings.add([...path, 'behind', index], behindItself(id));
  for (const [name, trial] of itemsOf(item.trials)) {
    if (textsOf(trial.off).includes(id))
      findings.add([...path, 'trials', name, 'off'], { ...behindItself(id), remedy: 'Take it out of "off".' });
    if (trial.ruling !== undefined && isPlainMap(trial) && trial.came !== 'damaged')
      findings.add([...path, 'trials', name, 'ruling'], {
        value: trial.ruling,
        message: 'only a trial that came but damaged something is ruled on',
        remedy: 'Remove the ruling, or write came: damaged.',
      });
  }
};

const behindItself = (id: string) => ({
  value: id,
  message: `"${id}" cannot be off before it comes off`,
  remedy: 'Take it out of this set.',
});
