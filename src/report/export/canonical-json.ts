import type { Verdict } from '#verdict/verdict';

/** How does a value read as JSON that never depends on the order of its making? Keys in code unit order, two spaces, a line end. */
export function canonicalJson(value: unknown): string {
  return `${JSON.stringify(value, (_, member: unknown) => (isRecord(member) ? sortedRecord(member) : member), 2)}\n`;
}

/** How does a verdict read for other programs? All of it, as canonical JSON: same verdict, same bytes. */
export function renderJson(verdict: Verdict): string {
  return canonicalJson(verdict);
}

function isRecord(value: unknown): value is Readonly<Record<string, unknown>> {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

function sortedRecord(record: Readonly<Record<string, unknown>>): unknown {
  const keys = Object.keys(record).sort((a, b) => (a < b ? -1 : 1));
  const sorted = Object.create(null) as Record<string, unknown>;
  for (const key of keys) sorted[key] = record[key];
  return sorted;
}
