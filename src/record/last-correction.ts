/** Something of the record with its id. */
type Named<Item> = readonly [id: string, item: Item];

/** Which stands at the end of a chain of corrections? What nobody corrected stands itself; a chain that goes in a circle ends where it would close. */
export const lastCorrection = <Item>(
  first: Named<Item>,
  corrections: ReadonlyMap<string, Named<Item>>,
): Named<Item> => {
  const seen = new Set([first[0]]);
  let current = first;
  for (let next = corrections.get(first[0]); next && !seen.has(next[0]); next = corrections.get(next[0])) {
    seen.add(next[0]);
    current = next;
  }
  return current;
};
