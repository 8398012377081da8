import { describe, expect, it } from 'vitest';
import type { DutyRoute } from '#schemes/duties/duty-subject';
import { bookOf, type Changes, fullRecord, judged, routeOf } from './full-record.ts';

const finding = (row: string, what: Parameters<typeof judged>[1] = {}, category = 'smartphone') => {
  const found = judged(fullRecord(category), { ...what, rows: [row] }).get(row);
  if (!found) throw new RangeError(row);
  return found;
};
const stateOf = (row: string, changes: Changes, category?: string) => finding(row, { changes }, category).state;

describe('figures with a spread', () => {
  const capacity = (is: unknown): Changes => ({ 'product/figures/capacity-after-500-cycles/is': is });

  it.each([
    ['83 %', 'met'],
    ['83.0 ± 0.5 %', 'not-shown'],
    ['83.5 ± 0.5 %', 'met'],
    ['82.9 %', 'not-met'],
    ['82 ± 0.9 %', 'not-met'],
    ['83 mm', 'not-shown'],
  ])('a capacity of %s against 83 %% is %s', (is, state) => {
    expect(stateOf('ed-battery-route-ii', capacity(is))).toBe(state);
  });

  it('a cradle between 0.3 W and 0.6 W is not shown, since the law tells cases apart', () => {
    const cradle = (is: number) =>
      stateOf('ed-cordless-standby', { 'product/figures/standby-cradle/is': is }, 'cordless-phone');
    expect([cradle(0.3), cradle(0.31), cradle(0.6), cradle(0.61)]).toEqual([
      'met',
      'not-shown',
      'not-shown',
      'not-met',
    ]);
  });

  it('an ingress digit that was not tested leaves it not shown', () => {
    expect(stateOf('ed-ingress', { 'product/ingress/code': 'IPX8' })).toBe('not-shown');
    expect(stateOf('ed-ingress', { 'product/ingress/code': 'IPX3' })).toBe('not-met');
  });

  it('charging with 15 W, 5 V and 3 A needs no common protocol; a little more does', () => {
    const charging = (power: number): Changes => ({
      'product/figures/charging-power/is': power,
      'product/figures/charging-voltage/is': 5,
      'product/figures/charging-current/is': 3,
    });
    expect(stateOf('cc-power-delivery', charging(15))).toBe('does-not-apply');
    expect(stateOf('cc-power-delivery', charging(15.1))).toBe('met');
  });
});

describe('delivery', () => {
  const delivered = (spare: object): Changes => ({
    'spares/spare-battery': { name: 'Pack', replaces: ['battery'], standing: 'established', ...spare },
  });

  it('5 working days meet it, 6 do not, in the first five years; then 10 do and 11 do not', () => {
    const inDays = (days: number, date: string) =>
      stateOf('ed-delivery', delivered({ deliveryWorkingDays: days, date }));
    expect([inDays(5, '2032-02-29'), inDays(6, '2032-02-29')]).toEqual(['met', 'not-met']);
    expect([inDays(10, '2032-03-01'), inDays(11, '2032-03-01')]).toEqual(['met', 'not-met']);
  });

  it('5 days hold no more than 5 working days; of 7 days nobody knows', () => {
    expect(stateOf('ed-delivery', delivered({ delivery: '5 d', date: '2027-06-01' }))).toBe('met');
    expect(stateOf('ed-delivery', delivered({ delivery: '7 d', date: '2027-06-01' }))).toBe('not-shown');
  });
});

describe('parts sold one by one', () => {
  it('a microphone with the speaker may come together, and with the display once endurance is met', () => {
    expect(stateOf('ed-no-bundling', { 'spares/spare-microphone/includes': ['speaker'] })).toBe('met');
    expect(stateOf('ed-no-bundling', { 'spares/spare-microphone/includes': ['display'] })).toBe('met');
    expect(
      stateOf('ed-no-bundling', { 'spares/spare-microphone/includes': ['display'], 'product/ingress/code': 'IP66' }),
    ).toBe('not-met');
    expect(stateOf('ed-no-bundling', { 'spares/spare-microphone/includes': ['display', 'battery'] })).toBe('not-met');
  });

  it('the endurance of a tablet is another: 20 000, 10 000 and 3 000', () => {
    const tablet = (presses: number): Changes => ({
      'spares/spare-microphone/includes': ['display'],
      'product/figures/power-button-presses/is': presses,
      'product/figures/volume-button-presses/is': 10_000,
      'product/figures/port-cycles/is': 3000,
    });
    expect([
      stateOf('ed-no-bundling', tablet(20_000), 'slate-tablet'),
      stateOf('ed-no-bundling', tablet(19_999), 'slate-tablet'),
    ]).toEqual(['met', 'not-met']);
  });
});

describe('routes', () => {
  const row = 'ed-battery-route-i';
  const worse = routeOf('removable', 'basic');

  it('one shown route that fits is enough, declared or best found, or any other that is shown', () => {
    const declared: DutyRoute = { ...routeOf(), basis: 'declared' };
    expect(finding(row, { routes: bookOf([worse, declared]) }).observed).toContain('the declared route fits');
    expect(finding(row, { routes: bookOf([worse], 'shown') }).state).toBe('met');
  });

  it('a route that does not fit is no breach while another way is not excluded', () => {
    const open = finding(row, { routes: bookOf([worse], 'possible') });
    expect([open.state, open.missing[0]?.what]).toEqual(['not-shown', 'whether another way to the battery fits']);
  });

  it('says what stands in the way, with its evidence', () => {
    const against = finding(row, { routes: bookOf([routeOf('removable', 'commercial')]) });
    expect(against.observed).toContain('best found: screws (removable) and driver (commercial)');
    expect(against.evidence).toEqual(['photo-screws', 'photo-driver']);
  });

  it('a tool that comes with the part and is on sale besides is admitted where either is', () => {
    const [tool] = routeOf().tools;
    const two = {
      ...tool,
      worst: 'with-spare',
      best: 'with-spare',
      other: { worst: 'commercial', best: 'commercial' },
    };
    const routes = bookOf([{ ...routeOf(), tools: [two] } as DutyRoute]);
    expect([finding('br-removable', { routes }).state, finding(row, { routes }).state]).toEqual(['met', 'met']);
  });

  it('heat or solvent on the way breaks Art. 11(1) and leaves route ii alone', () => {
    const routes = bookOf([routeOf('removable', 'commercial', { solvent: ['solvent at the strip'] })]);
    expect(finding('br-removable', { routes }).observed).toContain('solvent at the strip');
    expect(finding('br-removable', { routes }).state).toBe('not-met');
    expect(finding('ed-battery-route-ii', { routes }).state).toBe('met');
  });

  it('a battery of more than 5 kg is no portable one', () => {
    expect(stateOf('br-removable', { 'parts/battery/mass': '5 kg' })).toBe('met');
    expect(stateOf('br-removable', { 'parts/battery/mass': '5.01 kg' })).toBe('does-not-apply');
  });

  it('the back cover is asked for only where it comes off for the battery', () => {
    const refused: Changes = { 'supply/parts/back-cover/endUsers/how': 'refused' };
    const routes = bookOf([{ ...routeOf(), off: [] }]);
    expect(finding('ed-parts-end-users', { changes: refused, routes }).state).toBe('met');
    expect(finding('ed-parts-end-users', { changes: refused }).state).toBe('not-met');
  });
});

describe('what is absent or unknown', () => {
  it('a part known to be absent is not asked for; a role not on record leaves it not shown', () => {
    const gone: Changes = {
      'parts/audio-connector/absent': true,
      'supply/parts/audio-connector': undefined,
      'spares/spare-audio-connector': undefined,
    };
    expect(stateOf('ed-parts-professionals', gone)).toBe('met');
    const unknown = finding('ed-parts-professionals', { changes: { ...gone, 'parts/audio-connector': undefined } });
    expect([unknown.state, unknown.missing[0]?.what]).toEqual([
      'not-shown',
      'whether the product has this part: audio connector',
    ]);
  });

  it('a category not on record is not shown in rows about some categories', () => {
    const none = judged(fullRecord(), { changes: { 'product/category': undefined } });
    expect([none.get('ed-endurance')?.state, none.get('or-prevent')?.state]).toEqual(['not-shown', 'met']);
  });

  it('a vacuum is looked at by the Batteries Regulation and not by ecodesign of phones', () => {
    expect([stateOf('br-instructions', {}, 'cordless-vacuum'), stateOf('ed-endurance', {}, 'cordless-vacuum')]).toEqual(
      ['met', 'does-not-apply'],
    );
  });

  it('less than five years of updates is not shown, since the text says "if they provide"', () => {
    expect(stateOf('ed-updates', { 'supply/software/security/years': 5 })).toBe('met');
    expect(stateOf('ed-updates', { 'supply/software/security/years': 4.9 })).toBe('not-shown');
    expect(stateOf('ed-updates', { 'product/facts/updates-provided/is': false })).toBe('does-not-apply');
  });
});

describe('rows from memory', () => {
  const aside = (id: string): Changes => ({
    [`product/dutyDefaults/${id}`]: { asked: false, reason: 'no text of it at hand' },
  });

  it('can be set aside with a reason, which is said; kept, they are judged', () => {
    const set = finding('cc-accessible', { changes: aside('cc-accessible') });
    expect([set.state, set.observed]).toEqual(['does-not-apply', 'set aside here: no text of it at hand']);
    const kept: Changes = { 'product/dutyDefaults/cc-accessible': { asked: true, reason: 'checked with the office' } };
    expect(stateOf('cc-accessible', kept)).toBe('met');
  });

  it('are the only ones: a row that was read, or taken from a text about the law, stays', () => {
    expect(['ed-endurance', 'cc-receptacle', 'or-means'].map((id) => stateOf(id, aside(id)))).toEqual([
      'met',
      'met',
      'met',
    ]);
  });
});
