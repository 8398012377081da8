/** Which circles does a relation have? Each is given once, from its smallest id on. Cost: linear. */
export const circlesOf = (next: ReadonlyMap<string, readonly string[]>): readonly (readonly string[])[] => {
  const done = new Set<string>();
  const circles = new Map<string, readonly string[]>();
  for (const start of next.keys()) if (!done.has(start)) searchFrom(start, next, { done, circles });
  return [...circles.values()];
};

interface Search {
  readonly done: Set<string>;
  readonly circles: Map<string, readonly string[]>;
}

/** Depth first with a stack of its own, so that a chain of 100,000 cannot overflow the call stack. */
const searchFrom = (start: string, next: ReadonlyMap<string, readonly string[]>, { done, circles }: Search): void => {
  const trail = [start];
  const places = new Map([[start, 0]]);
  const rest = [[...(next.get(start) ?? [])]];
  while (trail.length > 0) {
    const following = rest.at(-1)?.pop();
    if (following === undefined) {
      const left = trail.pop();
      rest.pop();
      if (left !== undefined) {
        places.delete(left);
        done.add(left);
      }
      continue;
    }
    const place = places.get(following);
    if (place !== undefined) addCircle(trail.slice(place), circles);
    else if (!done.has(following) && next.has(following)) {
      places.set(following, trail.length);
      trail.push(following);
      rest.push([...(next.get(following) ?? [])]);
    }
  }
};

const addCircle = (circle: readonly string[], circles: Map<string, readonly string[]>): void => {
  const smallest = circle.reduce((least, id, index) => (id < (circle[least] ?? '') ? index : least), 0);
  const turned = [...circle.slice(smallest), ...circle.slice(0, smallest)];
  circles.set(turned.join('\n'), turned);
};
