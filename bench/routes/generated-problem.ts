import { seededNumbers } from '#quantity/seeded-numbers';
import type { NeutralAction, NeutralProblem } from '#routes/neutral/neutral-problem';

/** A seeded source of random choices. */
interface Chance {
  readonly next: () => number;
  readonly int: (low: number, high: number) => number;
  readonly pick: <T>(list: readonly T[]) => T;
}

const chanceOf = (seed: number, count: number): Chance => {
  const next = seededNumbers(seed * 7919 + count);
  return {
    next,
    int: (low, high) => low + Math.floor(next() * (high - low + 1)),
    pick: (list) => list[Math.floor(next() * list.length)] as never,
  };
};

type Draft = Omit<NeutralAction, 'id' | 'gives'> & { gives: string[] };

class Generator {
  readonly #chance: Chance;
  readonly #count: number;
  readonly #cyclic: boolean;
  readonly #tools: readonly { readonly id: string; readonly pickupSeconds: number }[];
  readonly #drafts: Draft[] = [];
  readonly #parts: string[] = [];

  constructor(seed: number, count: number) {
    this.#chance = chanceOf(seed, count);
    this.#count = count;
    this.#cyclic = seed % 2 === 0;
    const { int } = this.#chance;
    this.#tools = Array.from({ length: int(4, 7) }, (_, index) => ({ id: `t${index}`, pickupSeconds: int(3, 12) }));
  }

  build(): NeutralProblem {
    while (this.#drafts.length < this.#count - 1) this.#addPart();
    const { int, pick } = this.#chance;
    const last = this.#parts.slice(-Math.min(3, this.#parts.length));
    const tool = pick(this.#tools).id;
    const seconds = int(5, 20);
    this.#drafts.push({ tool, seconds, needs: [...new Set([pick(last), pick(last)])], gives: ['target'] });
    const actions = this.#drafts.map((draft, index) => {
      const needs = draft.needs.filter((fact) => !draft.gives.includes(fact));
      return { id: `o${index}`, ...draft, needs };
    });
    return { format: 'unfasten/route-problem', version: 1, tools: this.#tools, actions, target: ['target'] };
  }

  #addPart(): void {
    const { next, int, pick } = this.#chance;
    const k = this.#parts.length;
    const off = `p${k}`;
    const blockers = new Set<string>();
    if (k > 0)
      for (let b = int(1, 2); b > 0; b--)
        blockers.add(this.#parts[Math.max(0, k - 1 - Math.floor(next() * next() * 6))] as string);
    const needs = [...blockers, ...this.#addFasteners(k, blockers)];
    const tool = next() < 0.6 ? null : pick(this.#tools).id;
    this.#drafts.push({ tool, seconds: int(2, 30), needs, gives: [off] });
    if (next() < 0.35 && this.#drafts.length < this.#count - 1) {
      const other = pick(this.#tools).id;
      const seconds = int(40, 160);
      this.#drafts.push({ tool: other, seconds, needs: needs.filter(() => next() < 0.5), gives: [off] });
    }
    if (next() < 0.15 && k > 1) this.#drafts.at(-1)?.gives.push(pick(this.#parts));
    if (this.#cyclic && k > 0 && next() < 0.5 && this.#drafts.length < this.#count - 2) {
      const before = this.#parts[k - 1] as string;
      this.#drafts.push({ tool: pick(this.#tools).id, seconds: int(3, 15), needs: [before], gives: [off] });
      this.#drafts.push({ tool: pick(this.#tools).id, seconds: int(3, 15), needs: [off], gives: [before] });
    }
    this.#parts.push(off);
  }

  #addFasteners(k: number, blockers: ReadonlySet<string>): string[] {
    const { next, int, pick } = this.#chance;
    const held: string[] = [];
    for (let f = int(1, 4); f > 0 && this.#drafts.length < this.#count - 3; f--) {
      const released = `f${k}_${f}`;
      const ways = next() < 0.55 ? 1 : next() < 0.7 ? 2 : 3;
      const reach = [...blockers].filter(() => next() < 0.7);
      let added = 0;
      for (; added < ways && this.#drafts.length < this.#count - 2; added++) {
        const tool = next() < 0.15 ? null : pick(this.#tools).id;
        const needs = added === 0 ? reach : reach.slice(0, Math.max(0, reach.length - 1));
        this.#drafts.push({ tool, seconds: int(4, 60) + 15 * added, needs, gives: [released] });
      }
      if (added > 0) held.push(released);
    }
    return held;
  }
}

/**
 * A seeded route problem of this many actions: several ways a fact, either-way cycles on even seeds, tool pick-ups; free
 * the target at least cost. Same seed and count, same problem.
 */
export const generatedProblem = (seed: number, count: number): NeutralProblem => new Generator(seed, count).build();
