import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { deviceOf } from '#record/device/device';
import { replayFindings } from '#record/log/replay';
import { readAssessment } from '#record/read/read-assessment';
import { type Assessment, assessment } from '#record/schema/assessment';
import { PRIORITY_ROLES } from '#schemes/eu-2023-1669/input';

const folder = (name: string): URL => new URL(`../../examples/${name}/`, import.meta.url);
const load = (name: string): Assessment =>
  assessment.parse(parse(readFileSync(new URL('assessment.yaml', folder(name)), 'utf8'), { maxAliasCount: 0 }));
const NAMES = ['tarn-5', 'tarn-4', 'beck-11', 'gust-2', 'quick-log'] as const;

const entriesOf = (record: Assessment) =>
  Object.values(record.sessions ?? {}).flatMap((session) => Object.values(session.entries));
const standingsIn = (value: unknown, found = new Set<unknown>()): Set<unknown> => {
  if (typeof value !== 'object' || value === null) return found;
  for (const [key, inner] of Object.entries(value)) {
    if (key === 'standing') found.add(inner);
    else standingsIn(inner, found);
  }
  return found;
};

describe('every example', () => {
  it.each(NAMES)('%s is marked as invented and keeps to the scenario', (name) => {
    const record = load(name);
    expect(record.invented).toBe(true);
    expect(record.laboratory).toBe('Quayside Bench');
    expect(record.product.maker).toBe('Fellside');
  });

  it.each(NAMES)('%s is read without a problem, warnings included', (name) => {
    const bytes = readFileSync(new URL('assessment.yaml', folder(name)));
    expect(readAssessment({ fileName: `${name}/assessment.yaml`, bytes }).problems).toEqual([]);
  });

  it.each(NAMES)('%s has a log that holds together when replayed', (name) => {
    const record = load(name);
    expect(replayFindings(record, deviceOf(record))).toEqual([]);
  });

  it.each(NAMES)('%s has every evidence file with the SHA-256 it states', (name) => {
    for (const [id, item] of Object.entries(load(name).evidence ?? {})) {
      if (item.file === undefined) continue;
      const bytes = readFileSync(new URL(`evidence/${item.file}`, folder(name)));
      expect(createHash('sha256').update(bytes).digest('hex'), id).toBe(item.sha256);
    }
  });

  it.each(NAMES)('%s names operators by initials only', (name) => {
    for (const session of Object.values(load(name).sessions ?? {}))
      expect(session.operator).toMatch(/^[A-Z]\. [A-Z]\.$/);
  });
});

describe('tarn-5 as a structure', () => {
  const record = load('tarn-5');
  const parts = Object.values(record.parts ?? {});
  const fasteners = Object.values(record.fasteners ?? {});

  it('has forty parts or more, with all nine priority roles of a non-foldable and two speakers', () => {
    expect(parts.length).toBeGreaterThanOrEqual(40);
    const roles = parts.map((part) => part.role);
    for (const role of PRIORITY_ROLES) if (role !== 'hinge') expect(roles).toContain(role);
    expect(roles.filter((role) => role === 'speaker')).toHaveLength(2);
  });

  it('has sixty fasteners or more, twelve or more of them with several ways', () => {
    expect(fasteners.length).toBeGreaterThanOrEqual(60);
    const several = fasteners.filter((fastener) => Object.keys(fastener.ways ?? {}).length >= 2);
    expect(several.length).toBeGreaterThanOrEqual(12);
  });

  it('has trials that came, did not come, and came but damaged something, and parts seen to be free or behind sets', () => {
    const trials = parts.flatMap((part) => Object.values(part.trials ?? {}));
    expect(new Set(trials.map((trial) => trial.came))).toEqual(new Set(['yes', 'no', 'damaged']));
    expect(trials.some((trial) => trial.off.length > 1)).toBe(true);
    expect(parts.some((part) => part.behind?.length === 0)).toBe(true);
    expect(parts.some((part) => (part.behind?.[0]?.length ?? 0) > 1)).toBe(true);
    expect(record.parts?.battery?.behind).toBeUndefined();
  });

  it('has a procedure of the maker for every priority part', () => {
    const described = new Set(Object.values(record.procedures ?? {}).map((procedure) => procedure.for));
    for (const [id, part] of Object.entries(record.parts ?? {}))
      if ((PRIORITY_ROLES as readonly (string | undefined)[]).includes(part.role)) expect(described, id).toContain(id);
  });

  it('has supply facts of every standing', () => {
    expect(standingsIn(record.supply)).toEqual(new Set(['established', 'announced', 'expected', 'unknown']));
  });
});

describe('tarn-5 as a log', () => {
  const record = load('tarn-5');
  const sessions = Object.values(record.sessions ?? {});
  const entries = entriesOf(record);

  it('has every kind of session on two specimens by two operators', () => {
    expect(new Set(sessions.map((session) => session.kind))).toEqual(
      new Set(['exploration', 'measured', 'retake', 'swap', 'reassembly']),
    );
    expect(new Set(sessions.map((session) => session.specimen)).size).toBe(2);
    expect(new Set(sessions.map((session) => session.operator)).size).toBe(2);
  });

  it('has measured runs from complete on both specimens', () => {
    const measured = sessions.filter((session) => session.kind === 'measured' && session.startsAs === 'complete');
    expect(new Set(measured.map((session) => session.specimen))).toEqual(new Set(['a', 'b']));
    expect(measured.length).toBeGreaterThanOrEqual(2);
  });

  it('has 150 entries or more, reached from the front and from the back', () => {
    expect(entries.length).toBeGreaterThanOrEqual(150);
    const faces = new Set(entries.map((entry) => record.parts?.[entry.target ?? '']?.face));
    expect(faces).toContain('front');
    expect(faces).toContain('back');
  });

  it('has holds, caught-up entries, overlapping soaks, partial and failed outcomes, corrections', () => {
    expect(sessions.some((session) => Object.keys(session.holds ?? {}).length > 0)).toBe(true);
    const shared = entries.filter((entry) => entry.interval !== undefined);
    expect(shared.length).toBeGreaterThanOrEqual(2);
    expect(new Set(entries.map((entry) => entry.outcome))).toEqual(new Set([undefined, 'partial', 'failed']));
    expect(entries.some((entry) => entry.corrects !== undefined)).toBe(true);
    expect(new Set(entries.map((entry) => entry.naming))).toEqual(new Set([undefined, 'by-hand', 'suggested']));
    expect(entries.some((entry) => entry.named === 'later' && entry.reviewed === true)).toBe(true);
    expect(sessions.some((session) => soakOverlaps(Object.values(session.entries)))).toBe(true);
  });

  it('has a strip whose tab tears and which solvent then frees', () => {
    const explore = Object.values(record.sessions?.['explore-a']?.entries ?? {});
    const tore = explore.findIndex((entry) => entry.because === 'tore');
    const target = explore[tore]?.target;
    const after = explore.slice(tore + 1).filter((entry) => entry.target === target && entry.way === 'dissolve');
    expect(after.map((entry) => entry.do)).toEqual(['dissolve', 'pry', 'clean']);
    expect(after[0]?.reach).toBe('4 mL');
  });

  it('has damage found later than it can have happened', () => {
    const later = Object.values(record.damage ?? {}).filter(
      (damage) => damage.after !== damage.found && damage.before === damage.found,
    );
    expect(later.length).toBeGreaterThanOrEqual(1);
  });
});

const soakOverlaps = (entries: readonly { readonly at: number; readonly began?: number | undefined }[]): boolean =>
  entries.some(
    (soak) =>
      soak.began !== undefined &&
      entries.some((other) => other !== soak && other.at > (soak.began ?? 0) && other.at < soak.at),
  );

describe('the others', () => {
  it('tarn-4 has one measured session and no open standing', () => {
    const record = load('tarn-4');
    expect(Object.values(record.sessions ?? {}).map((session) => session.kind)).toEqual(['measured']);
    expect(standingsIn(record)).toEqual(new Set(['established']));
  });

  it('beck-11 declares R and six sub-scores and no sheet of steps', () => {
    const { product, procedures } = load('beck-11');
    expect(product.publicSheet).toMatchObject({ R: '3.69', SDD: '4.45' });
    expect(product.scoreSheet).toBeUndefined();
    expect(procedures).toBeUndefined();
  });

  it('gust-2 is a category outside the index', () => {
    expect(load('gust-2').product.category).toBe('cordless-vacuum');
  });

  it('quick-log has sessions and goals and describes neither parts nor fasteners', () => {
    const record = load('quick-log');
    expect([record.parts, record.fasteners, record.supply, record.tools]).toEqual([
      undefined,
      undefined,
      undefined,
      undefined,
    ]);
    expect(entriesOf(record).some((entry) => entry.goal !== undefined)).toBe(true);
  });
});
