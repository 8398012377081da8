import fc from 'fast-check';
import {
  type FastenerClass,
  type Finding,
  INFORMATION_ITEMS,
  type IndexInput,
  type InformationAccess,
  type PartFinding,
  PRIORITY_ROLES,
  type PriorityRole,
  type ToolClass,
} from '#schemes/eu-2023-1669/input';
import { DEFAULT_INTERPRETATIONS, type Interpretations } from '#schemes/eu-2023-1669/interpretations';
import { known, open } from './index-inputs.ts';

/** One figure with a settled value, and how it stands in the record: known, open, or open with that value as its bounds. */
export interface Draw<T> {
  readonly value: T;
  readonly state: 'known' | 'open' | 'bounded';
}

const fasteners = ['reusable', 'resupplied', 'removable', 'below-scale'] as const satisfies readonly FastenerClass[];
const tools = [
  'none',
  'basic',
  'with-spare',
  'with-product',
  'commercial',
  'below-scale',
] as const satisfies readonly ToolClass[];
const terms = [
  'free',
  'reasonable-fee',
  'deterring-fee',
  'not-offered',
] as const satisfies readonly InformationAccess[];

const draw = <T>(values: fc.Arbitrary<T>): fc.Arbitrary<Draw<T>> =>
  fc.record({
    value: values,
    state: fc.oneof(
      { weight: 5, arbitrary: fc.constant('known' as const) },
      { weight: 1, arbitrary: fc.constantFrom('open' as const, 'bounded' as const) },
    ),
  });

/** Mostly the upper end, so that products below the scale do not swamp the rest. */
const mostly = <T>(usual: readonly T[], seldom: readonly T[]): fc.Arbitrary<T> =>
  fc.oneof({ weight: 30, arbitrary: fc.constantFrom(...usual) }, { weight: 1, arbitrary: fc.constantFrom(...seldom) });

const part = fc.record({
  steps: draw(fc.integer({ min: 1, max: 20 })),
  fastener: draw(mostly(fasteners.slice(0, 3), fasteners)),
  tool: draw(mostly(tools.slice(0, 5), tools)),
});
type PartDraw = typeof part extends fc.Arbitrary<infer T> ? T : never;

const roleDraw = fc.record({
  absent: draw(mostly([false], [true])),
  instances: fc.array(part, { minLength: 1, maxLength: 3 }),
});

/** A drawn product: the truth and what of it is known. */
export const productDraw = fc.record({
  foldable: draw(fc.boolean()),
  roles: fc.tuple(...PRIORITY_ROLES.map(() => roleDraw)),
  spares: fc.tuple(
    ...PRIORITY_ROLES.map(() =>
      fc.record({ endUsers: draw(fc.boolean()), professionals: draw(mostly([true], [true, false])) }),
    ),
  ),
  years: fc.tuple(...[0, 1, 2].map(() => draw(mostly([5, 5.5, 6, 6.5, 7, 8], [4, 0])))),
  information: fc.tuple(
    ...INFORMATION_ITEMS.map(() =>
      fc.record({
        endUsers: draw(mostly(['free' as InformationAccess], terms)),
        professionals: draw(mostly(['free', 'reasonable-fee'] as InformationAccess[], terms)),
      }),
    ),
  ),
});
type ProductDraw = typeof productDraw extends fc.Arbitrary<infer T> ? T : never;

/** Readings that decide inside the index arithmetic. */
export const readingsDraw: fc.Arbitrary<Interpretations> = fc
  .record({
    'duplicated-part': fc.constantFrom('lowest-per-parameter' as const, 'lowest-instance' as const),
    'part-years': fc.constantFrom('down' as const, 'as-stated' as const),
  })
  .map((chosen) => ({ ...DEFAULT_INTERPRETATIONS, ...chosen }));

type Settle = <T>(address: string, drawn: Draw<T>) => Finding<T>;

/** Everything as it truly is. */
const truth: Settle = (_address, drawn) => known(drawn.value);

/** Only what is known; open figures without bounds, or bounded by their own value and the better end. */
const seen: Settle = (address, drawn) => {
  if (drawn.state === 'known') return known(drawn.value);
  const nothing = open<never>(address);
  return drawn.state === 'open' || nothing.state !== 'open' ? nothing : { ...nothing, worst: drawn.value };
};

const partOf = (role: PriorityRole, drawn: PartDraw, at: { settle: Settle; id: string }): PartFinding => ({
  role,
  part: at.id,
  name: at.id,
  pairingSteps: known(0),
  steps: at.settle(`${at.id}/steps`, drawn.steps),
  fastener: at.settle(`${at.id}/fastener`, drawn.fastener),
  tool: at.settle(`${at.id}/tool`, drawn.tool),
});

const inputOf = (drawn: ProductDraw, settle: Settle): IndexInput => {
  const parts = PRIORITY_ROLES.map((role, index) => {
    const of = drawn.roles[index] as ProductDraw['roles'][number];
    const instances = of.instances.map((each, at) => partOf(role, each, { settle, id: `${role}-${at + 1}` }));
    return [role, { absent: settle(`${role}/absent`, of.absent), instances }];
  });
  const spares = PRIORITY_ROLES.map((role, index) => {
    const of = drawn.spares[index] as ProductDraw['spares'][number];
    const professionals: Draw<boolean> = { ...of.professionals, value: of.professionals.value || of.endUsers.value };
    return [
      role,
      { endUsers: settle(`spares/${role}`, of.endUsers), professionals: settle(`pro/${role}`, professionals) },
    ];
  });
  const information = INFORMATION_ITEMS.map((item, index) => {
    const of = drawn.information[index] as ProductDraw['information'][number];
    const better = terms.indexOf(of.endUsers.value) < terms.indexOf(of.professionals.value);
    const professionals = { ...of.professionals, value: better ? of.endUsers.value : of.professionals.value };
    return [
      item,
      { endUsers: settle(`${item}/public`, of.endUsers), professionals: settle(`${item}/pro`, professionals) },
    ];
  });
  const [security, corrective, functionality] = drawn.years.map((years, at) => settle(`years/${at}`, years));
  return {
    foldable: settle('foldable', drawn.foldable),
    parts: Object.fromEntries(parts),
    spares: Object.fromEntries(spares),
    updates: { security, corrective, functionality } as IndexInput['updates'],
    information: Object.fromEntries(information),
  };
};

/** The product as it truly is: nothing open. */
export const trueInput = (drawn: ProductDraw): IndexInput => inputOf(drawn, truth);

/** The product as far as it is known. */
export const seenInput = (drawn: ProductDraw): IndexInput => inputOf(drawn, seen);
