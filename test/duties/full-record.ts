import { type Assessment, assessment as schema } from '#record/schema/assessment';
import { DUTY_FACTS, DUTY_FIGURES, type DutyFact, type DutyFigure, MARKETS } from '#record/schema/duty-facts';
import type { DutyFinding } from '#schemes/duties/duty-finding';
import type { DutyRoute, RouteBook, SwapFinding } from '#schemes/duties/duty-subject';
import { DUTY_TABLES } from '#schemes/duties/duty-tables';
import { judgeDuties } from '#schemes/duties/judge-duties';
import { INFORMATION_ITEMS } from '#schemes/eu-2023-1669/input';

type Raw = Readonly<Record<string, unknown>>;

/** The day on which everything of the full record was seen. */
export const SEEN = '2027-06-01';

const LISTED = [
  'battery',
  'display',
  'back-cover',
  'front-camera',
  'rear-camera',
  'audio-connector',
  'charging-port',
  'button',
  'microphone',
  'speaker',
  'hinge',
  'foil',
  'tray',
] as const;
const NOT_SO: readonly DutyFact[] = ['foil-foldable', 'mainly-wet-use', 'needs-permanent-power'];

/** Figures that meet every threshold, most of them at equality. */
const FIGURES: Readonly<Record<DutyFigure, number | string>> = {
  'parts-offered-years': 7,
  'information-offered-years': 7,
  'instructions-offered-years': 7,
  'pairing-offered-years': 7,
  'dismantling-information-years': 15,
  'registration-working-days': 5,
  'information-access-working-days': 1,
  'pairing-access-working-days': 3,
  'capacity-after-500-cycles': 83,
  'capacity-after-1000-cycles': 80,
  'cycles-to-80-percent': 800,
  falls: 45,
  'falls-closed': 35,
  'falls-open': 15,
  'units-passing-falls': 4,
  'scratch-hardness': 4,
  'power-button-presses': 225_000,
  'volume-button-presses': 100_000,
  'port-cycles': 12_000,
  'security-update-months': 4,
  'functionality-update-months': 6,
  'standby-base': 1,
  'standby-cradle': 0.3,
  'charging-power': 20,
  'charging-voltage': 9,
  'charging-current': 3,
  'pictogram-width': 12.8,
  'pictogram-height': 9.3,
};

const stated = (is: unknown): Raw => ({ is, standing: 'established', date: SEEN, source: 'seen at the bench' });
const offer = { how: 'orderable', memberState: 'NL', standing: 'established', date: SEEN };
const access = { access: 'free', standing: 'established', date: SEEN };

const spareOf = (role: string): Raw => ({
  name: `Spare ${role}`,
  replaces: [role],
  standing: 'established',
  deliveryWorkingDays: 5,
  date: SEEN,
});

const DIAGONALS: Readonly<Record<string, string>> = { smartphone: '6.3 in', 'slate-tablet': '11 in' };

/** A record of an invented product, in which every duty of its category that a plain product has is met. */
export const fullRecord = (category = 'smartphone'): Record<string, unknown> => ({
  format: 'unfasten/assessment',
  version: 1,
  invented: true,
  product: {
    name: 'Tarn full',
    category,
    ...(DIAGONALS[category] === undefined ? {} : { diagonal: DIAGONALS[category] }),
    foldable: { foldingDisplay: false, hinge: true },
    keyboardAttached: false,
    mobileOperatingSystem: true,
    rollableMainDisplay: false,
    highSecurity: false,
    firstMade: '2027-03-01',
    lastMade: '2028-03-01',
    firstPlaced: '2027-03-01',
    endOfPlacing: '2029-03-01',
    ingress: { code: 'IP67', standing: 'established', date: SEEN },
    biometricParts: [],
    facts: Object.fromEntries(DUTY_FACTS.map((fact) => [fact, stated(!NOT_SO.includes(fact))])),
    figures: Object.fromEntries(
      Object.keys(DUTY_FIGURES).map((figure) => [figure, stated(FIGURES[figure as DutyFigure])]),
    ),
    markets: Object.fromEntries(
      MARKETS.map((market) => [
        market,
        {
          firstSold: '2027-03-01',
          repairMeans: true,
          givenToAuthorised: true,
          businessOnly: false,
          wholesalePrice: '100.00 USD',
          offeredYears: 7,
          standing: 'established',
          date: SEEN,
        },
      ]),
    ),
  },
  parts: Object.fromEntries(
    LISTED.map((role) => [role, { name: role, role, mass: '60 g', serialised: role === 'display' }]),
  ),
  spares: Object.fromEntries(LISTED.map((role) => [`spare-${role}`, spareOf(role)])),
  supply: {
    parts: Object.fromEntries(LISTED.map((role) => [role, { endUsers: offer, professionals: offer }])),
    information: Object.fromEntries(
      INFORMATION_ITEMS.map((item) => [item, { endUsers: access, professionals: access }]),
    ),
    software: Object.fromEntries(
      ['security', 'corrective', 'functionality'].map((kind) => [
        kind,
        { years: 5, standing: 'established', date: SEEN },
      ]),
    ),
  },
});

/** A change of a record: address with slashes, and the new value; undefined removes it. */
export type Changes = Readonly<Record<string, unknown>>;

/** The record with changes, checked by the schema. */
const changed = (record: Raw, changes: Changes): Assessment => {
  // By way of JSON, since a clone would keep shared objects shared, and a change of one would change all.
  const copy = JSON.parse(JSON.stringify(record)) as Record<string, unknown>;
  for (const [address, value] of Object.entries(changes)) {
    const path = address.split('/');
    const last = path.pop() ?? '';
    let place = copy;
    for (const step of path) {
      place[step] ??= {};
      place = place[step] as Record<string, unknown>;
    }
    if (value === undefined) delete place[last];
    else place[last] = value;
  }
  return schema.parse(copy);
};

const cls = (id: string, is: string) => ({ id, name: id, worst: is, best: is, missing: [], evidence: [`photo-${id}`] });

/** A route of one fastener and one tool, over the back cover. */
export const routeOf = (fastener = 'reusable', tool = 'basic', over: Partial<DutyRoute> = {}): DutyRoute =>
  ({
    basis: 'best found',
    fasteners: [cls('screws', fastener)],
    tools: [cls('driver', tool)],
    heat: [],
    solvent: [],
    off: ['back-cover'],
    actions: [],
    evidence: ['clip'],
    ...over,
  }) as DutyRoute;

/** Routes of the same kind to every part, and what else the record admits. */
export const bookOf = (
  routes: readonly DutyRoute[] = [routeOf()],
  admits: 'shown' | 'possible' | 'none' = 'none',
): RouteBook => ({
  routesTo: () => routes,
  admits: () => admits,
});

/** Every priority part swapped, by compatible pieces too, and nothing seen. */
export const CLEAN_SWAPS: readonly SwapFinding[] = LISTED.map((part) => ({
  part,
  effect: 'E0',
  cause: 'none',
  kinds: ['compatible', 'used-genuine'],
  on: SEEN,
  evidence: ['swap-sheet'],
}));

/** The tables with these rows only; without a list, whole. */
const tablesOf = (rows: readonly string[] | undefined) =>
  rows === undefined
    ? DUTY_TABLES
    : DUTY_TABLES.map((table) => ({ ...table, rows: table.rows.filter(({ id }) => rows.includes(id)) }));

/** What the duties come to, for a record with changes; `rows` are all that is looked at. */
export const judged = (
  record: Raw,
  {
    changes = {},
    routes = bookOf(),
    swaps = CLEAN_SWAPS,
    rows,
  }: {
    readonly changes?: Changes;
    readonly routes?: RouteBook;
    readonly swaps?: readonly SwapFinding[];
    readonly rows?: readonly string[];
  } = {},
): ReadonlyMap<string, DutyFinding> =>
  new Map(
    judgeDuties(tablesOf(rows), {
      assessment: changed(record, changes),
      readings: { available: 'orderable' },
      scope: { inScope: true },
      routes,
      swaps,
    }).map((finding) => [finding.id, finding]),
  );
