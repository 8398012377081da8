import { counted } from '#quantity/counts';
import { actionWords, difference } from '#report/words/action-words';
import { chanceText, clockText, durationText } from '#report/words/durations';
import { performedWords, routeTimeWords } from '#report/words/terms';
import type { FrontPoint, PartVerdict, RouteVerdict } from '#verdict/verdict';
import { LedgerTable } from '../look/ledger-table.tsx';
import styles from './routes-screen.module.css';
import { StepsLedger } from './steps-ledger.tsx';

interface PartRouteProps {
  readonly part: PartVerdict;
  readonly nameOf: (key: string) => string;
}

/** How one part is reached: its best route step by step, the routes beside it, and whether it goes back. */
export const PartRoute = ({ part, nameOf }: PartRouteProps) => {
  const { best, observed, declared, name, depth, reversible } = part;
  return (
    <section aria-label={`Route to ${name}`}>
      <h2 id="route">{name}</h2>
      {best ? (
        <>
          <p>
            Best found: {counted(best.steps, 'step')}, {best.proved ? 'proved the fewest that is shown' : 'not proved'};{' '}
            {performedWords(best)}. Time {routeTimeWords(best)}.
          </p>
          <StepsLedger route={best} caption={`${name}: best route found`} />
        </>
      ) : (
        <p>
          No route is shown{depth.why === undefined ? '' : `: ${depth.why}`}.
          {depth.atLeast !== undefined && ` Nothing on record allows fewer than ${counted(depth.atLeast, 'step')}.`}
        </p>
      )}
      <Facts part={part} nameOf={nameOf} />
      <p>
        {reversible.shown ? 'Reversible: shown' : 'Reversible: not shown'}; {reversible.why}.
      </p>
      <Front part={part} nameOf={nameOf} />
      <Further words="Observed at the bench" route={observed} name={name} />
      <Further words="Declared in the maker's procedure" route={declared} name={name} />
    </section>
  );
};

const Facts = ({ part: { expected, leastTime, blocking, missing }, nameOf }: PartRouteProps) => (
  <>
    {expected && (
      <p>
        Expected time {durationText(expected.seconds)} with failures counted in
        {expected.exact ? '' : ', a bound and not exact'}; chance of damage {chanceText(expected.damage)}, of being
        stranded {chanceText(expected.stranded)}.{expected.note !== undefined && ` ${expected.note}.`}
      </p>
    )}
    {leastTime && (
      <p>
        Least time {durationText(leastTime.seconds)}, {leastTime.proved ? 'proved' : 'not proved'}.
      </p>
    )}
    {blocking && blocking.length > 0 && <p>Comes off only to give access: {blocking.map(nameOf).join(', ')}.</p>}
    {missing.map(({ address, what, remedy }) => (
      <p key={`${address} ${what}`}>
        <strong className={styles.needs}>Open:</strong> {what}. To settle it: {remedy}
      </p>
    ))}
  </>
);

/** The routes of which none is better in steps, time and damage at once, beside each other. */
const Front = ({ part: { front, best, name }, nameOf }: PartRouteProps) => {
  if (front === undefined || front.length === 0) return null;
  return (
    <>
      <h3>
        {front.length === 1
          ? 'No route is better than this in any of the three'
          : 'Of these none is better in all three'}
      </h3>
      <LedgerTable
        caption={`${name}: steps, expected time and chance of damage`}
        rows={front}
        rowKey={({ actions }) => actions.join()}
        columns={[
          { name: 'how', cell: ({ actions }: FrontPoint) => howWords(actions, best, nameOf) },
          { name: 'steps', figure: true, cell: ({ steps }) => steps },
          { name: 'expected, min:s', figure: true, cell: ({ expectedSeconds }) => clockText(expectedSeconds) },
          { name: 'damage', figure: true, cell: ({ chanceOfDamage }) => chanceText(chanceOfDamage) },
        ]}
      />
    </>
  );
};

const howWords = (
  actions: readonly string[],
  best: RouteVerdict | undefined,
  nameOf: (key: string) => string,
): string => {
  const { added, left } = difference(actions, best?.actions ?? []);
  if (added.length + left.length === 0) return 'the actions of the ledger, in this or another order';
  const words = (list: readonly string[]) => list.map((action) => actionWords(action, nameOf)).join(', ');
  const [withWords, without] = [words(added), words(left)];
  return `as the ledger${withWords && `, with ${withWords}`}${without && `, without ${without}`}`;
};

interface FurtherProps {
  readonly words: string;
  readonly route: RouteVerdict | undefined;
  readonly name: string;
}

const Further = ({ words, route, name }: FurtherProps) =>
  route === undefined ? null : (
    <details className={styles.further}>
      <summary>
        {words}: {counted(route.steps, 'step')}
      </summary>
      <StepsLedger route={route} caption={`${name}: ${words.toLowerCase()}`} />
    </details>
  );
