import type { DevicePart } from '#record/device/device';
import { type ExpectedTime, expectedTime } from '#routes/expected/expected-time';
import { timeOfOrder } from '#routes/expected/time-of-order';
import { front } from '#routes/front/front';
import { leastTime } from '#routes/least-time/least-time';
import type { RouteAction } from '#routes/problem/route-problem';
import { pointsFor } from '#schemes/eu-2023-1669/bases/best-search';
import { countingRulesFor } from '#schemes/eu-2023-1669/readings';
import type { FrontPoint, PartVerdict } from '../verdict.ts';
import { keptByProblem } from './kept-by-problem.ts';
import type { TimedContext } from './parts-context.ts';

/** Labels that the search for the front of one part may enter. */
const FRONT_LABELS = 4000;

/** The quickest route, the expected time and the front of one priority part. */
export const timedRoutes = (
  part: DevicePart,
  context: TimedContext,
): Pick<PartVerdict, 'leastTime' | 'expected' | 'front'> => {
  const { usable, losses, nodeLimit } = context;
  const target = `free/${part.id}` as const;
  const problem = context.groundwork.problems.pessimistic;
  const key = JSON.stringify([target, losses, nodeLimit]);
  const quickest = keptByProblem(problem, `least ${key}`, () => leastTime(usable, [target], { nodeLimit }));
  const expected = keptByProblem(problem, `expected ${key}`, () =>
    expectedTime(usable, target, { losses, limits: { states: nodeLimit } }),
  );
  const note = notesOf(expected, context);
  return {
    ...(quickest.milliseconds === undefined
      ? {}
      : { leastTime: { seconds: quickest.milliseconds / 1000, actions: quickest.actions, proved: quickest.proved } }),
    expected: {
      seconds: expected.workMilliseconds / 1000,
      stranded: expected.chances.stranded,
      damage: expected.chances.damaged,
      likeliest: expected.likeliest.tries.map((attempt) =>
        attempt.came === 'success' ? attempt.action : `${attempt.action}: ${attempt.came}`,
      ),
      ...(note === '' ? {} : { note }),
      exact: expected.isProved,
    },
    front: frontOf(part, context),
  };
};

const notesOf = ({ order, withoutTime }: ExpectedTime, { usable, names }: TimedContext): string => {
  const wayOf = (id: string): string => {
    const action = usable.actions.find((candidate) => candidate.id === id);
    return action ? actionName(action, names.any) : id;
  };
  const undecided = order.undecided.map(({ fact, actions }) => {
    const ways = actions.map(wayOf).join(' or ');
    return fact === undefined
      ? `order not decidable, what to try first of all: ${ways}`
      : `order not decidable between ${ways}`;
  });
  return [
    ...(undecided.length > 0 ? [`${undecided.join('; ')}: too few tries`] : []),
    ...(withoutTime.length > 0 ? [`no time known for ${withoutTime.map(wayOf).join(', ')}`] : []),
  ].join('; ');
};

const actionName = (action: RouteAction, name: (id: string) => string): string => {
  if (action.kind === 'release') return action.way ? `${name(action.subject)} by ${action.way}` : name(action.subject);
  return `${action.kind} ${name(action.subject)}`;
};

/** The front of steps, expected time and chance of damage: a route's time and damage as its own order of actions comes to. */
const frontOf = (part: DevicePart, { usable, readings, groundwork, losses }: TimedContext): readonly FrontPoint[] => {
  const target = `free/${part.id}` as const;
  const judging = { source: groundwork.source, readings, part: part.id };
  const found = front(usable, target, {
    rules: countingRulesFor(readings),
    points: pointsFor(judging, 'worst'),
    mostLabels: FRONT_LABELS,
    evaluate: (route) => {
      const order = route.map((action) => action.id);
      const { workMilliseconds, chances } = timeOfOrder(usable, target, { order, losses });
      return { expectedMilliseconds: workMilliseconds, damage: chances.damaged };
    },
  });
  if (found.kind === 'unreachable') return [];
  return found.routes.map(({ steps, expectedMilliseconds, damage, route }) => ({
    steps,
    expectedSeconds: expectedMilliseconds / 1000,
    chanceOfDamage: damage,
    actions: route,
  }));
};
