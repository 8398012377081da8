/**
 * How does an action id of a route read? `release/ID/WAY` and `lift/ID` by the names of the record, an entry of a session by
 * its id, anything else as it stands.
 */
export function actionWords(action: string, nameOf: (id: string) => string): string {
  const [verb = '', subject, detail, ...rest] = action.split('/');
  if (subject === undefined) return action;
  if (verb === 'sessions') return entryWords(action);
  const way = [detail, ...rest].filter((piece) => piece !== undefined).join(' ');
  const words = `${verb.replaceAll('-', ' ')} ${nameOf(subject)}`;
  return way === '' ? words : `${words} (${way.replaceAll('-', ' ')})`;
}

/** How does the address of a log entry read? `sessions/m1/entries/e4` as `m1 e4`; other ids as they stand. */
export function entryWords(address: string): string {
  const match = /^sessions\/([^/]+)\/entries\/([^/]+)$/.exec(address);
  return match === null ? address : `${match[1]} ${match[2]}`;
}

/** Is one list of actions the same work as another, order aside? */
export function sameActions(a: readonly string[], b: readonly string[]): boolean {
  const other = new Set(b);
  return a.length === b.length && a.every((action) => other.has(action));
}
