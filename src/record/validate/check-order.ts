import type { PathSegment } from '../problem.ts';
import type { LinkContext } from './check-links.ts';
import { checkWay } from './check-session.ts';
import { circlesOf } from './cycles.ts';
import { itemOf, itemsOf, type PlainMap, textOf } from './plain.ts';

/** Do sessions follow one another as they say, and procedures and product not contradict themselves? */
export const checkOrder = (context: LinkContext): void => {
  const { data, findings } = context;
  const before = new Map<string, string[]>();
  for (const [id, session] of itemsOf(data.sessions)) {
    const left = textOf((session.startsAs as PlainMap | undefined)?.leftBy);
    if (left === undefined || !itemOf(data.sessions, left)) continue;
    before.set(id, [left]);
    checkFollows(['sessions', id, 'startsAs', 'leftBy'], { session, left }, context);
  }
  for (const [first = '', ...rest] of circlesOf(before))
    findings.add(['sessions', first, 'startsAs', 'leftBy'], {
      value: rest[0] ?? first,
      kind: 'cycle',
      message: `sessions go in a circle: ${[first, ...rest, first].slice(0, 12).join(' → ')}`,
      remedy: 'One of them started with the complete specimen.',
    });
  checkProcedures(context);
  checkProduct(context);
};

const checkFollows = (
  path: readonly PathSegment[],
  { session, left }: { readonly session: PlainMap; readonly left: string },
  { data, findings }: LinkContext,
): void => {
  const earlier = itemOf(data.sessions, left);
  if (!earlier) return;
  if (textOf(earlier.specimen) !== textOf(session.specimen))
    findings.add(path, {
      value: left,
      message: `session "${left}" left specimen "${String(earlier.specimen)}", not this one`,
      remedy: 'Name the session that worked on this specimen before.',
    });
  const [start, earlierStart] = [session.start, earlier.start].map((moment) => Date.parse(textOf(moment) ?? ''));
  if (start !== undefined && earlierStart !== undefined && start < earlierStart)
    findings.add(path, {
      value: left,
      kind: 'order',
      message: `session "${left}" starts later (${String(earlier.start)})`,
      remedy: 'Name an earlier session, or correct the start.',
    });
};

const checkProcedures = ({ data, findings }: LinkContext): void => {
  for (const [id, procedure] of itemsOf(data.procedures)) {
    const steps = Array.isArray(procedure.steps) ? procedure.steps : [];
    for (const [index, step] of steps.entries()) {
      const target = textOf((step as PlainMap | null)?.target);
      if (target === undefined) continue;
      const [part, fastener] = [itemOf(data.parts, target), itemOf(data.fasteners, target)];
      checkWay(['procedures', id, 'steps', index, 'way'], step as PlainMap, { target, part, fastener, findings });
    }
  }
};

const checkProduct = ({ data, findings }: LinkContext): void => {
  const product = itemOf(data, 'product');
  const [released, ended] = [textOf(product?.released), textOf(product?.endOfPlacing)];
  if (released !== undefined && ended !== undefined && ended < released)
    findings.add(['product', 'endOfPlacing'], {
      value: ended,
      kind: 'order',
      message: `the product was first placed on the market later (${released})`,
      remedy: 'Correct one of the two days.',
    });
};
