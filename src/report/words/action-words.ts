/**
 * How does an action id of a route read? `release/ID/WAY` and `lift/ID` by the names of the record, an entry of a session by
 * its id, anything else as it stands.
 */
export function actionWords(action: string, nameOf: (id: string) => string): string {
  const [verb = '', subject, detail, ...rest] = action.split('/');
  if (subject === undefined) return action;
  if (verb === 'sessions') return entryWords([action]).join(', ');
  const way = [detail, ...rest].filter((piece) => piece !== undefined).join(' ');
  const words = `${verb.replaceAll('-', ' ')} ${nameOf(subject)}`;
  return way === '' ? words : `${words} (${way.replaceAll('-', ' ')})`;
}

/** How do addresses of log entries read? Each session once with its entries: `m1 e4 e5`; other ids as they stand. */
export function entryWords(addresses: readonly string[]): readonly string[] {
  return entriesOfSessions(addresses).map(({ id, entries }) => [id, ...entries].join(' '));
}

/** Which entries of which sessions are these addresses, each session once? An id of anything else stands without entries. */
export function entriesOfSessions(
  addresses: readonly string[],
): readonly { readonly id: string; readonly entries: readonly string[] }[] {
  const groups = new Map<string, { readonly id: string; readonly entries: string[] }>();
  for (const address of addresses) {
    const [, session, entry] = entryAddress.exec(address) ?? [];
    const key = session ?? `/${address}`;
    const group = groups.get(key) ?? { id: session ?? address, entries: [] };
    if (entry !== undefined) group.entries.push(entry);
    groups.set(key, group);
  }
  return [...groups.values()];
}

const entryAddress = /^sessions\/([^/]+)\/entries\/([^/]+)$/;

/** What does one list of actions have that another has not, and the other way round? Order aside. */
export function difference(
  actions: readonly string[],
  other: readonly string[],
): { readonly added: readonly string[]; readonly left: readonly string[] } {
  const [here, there] = [new Set(actions), new Set(other)];
  return { added: actions.filter((action) => !there.has(action)), left: other.filter((action) => !here.has(action)) };
}
