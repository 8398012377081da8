import { hasBit, listBits } from './bit-set.ts';
import type { ReducedState } from './reduced-state.ts';
import type { SearchSpace } from './search-space.ts';

/** Growable-by-construction packed lists that are filled anew for every state. */
class Lists {
  readonly from: Int32Array;
  readonly items: Int32Array;

  constructor(rows: number, items: number) {
    this.from = new Int32Array(rows + 1);
    this.items = new Int32Array(items);
  }

  /** Turns counts a row, standing in `from[row + 1]`, into starts. */
  start(rows: number): void {
    for (let row = 0; row < rows; row++)
      this.from[row + 1] = (this.from[row + 1] as number) + (this.from[row] as number);
  }

  /** After filling with `from[row]++`, moves the starts back to where they were. */
  finish(rows: number): void {
    for (let row = rows; row > 0; row--) this.from[row] = this.from[row - 1] as number;
    this.from[0] = 0;
  }
}

/**
 * What is still open in a state, numbered anew without gaps: facts missing, actions of use, and who needs and gives what
 * among them. Bounds run many times faster on it than on the whole problem.
 */
export class OpenWork {
  readonly #space: SearchSpace;
  /** Facts and actions of the problem by their number here. */
  readonly factOf: Int32Array;
  readonly actionOf: Int32Array;
  factCount = 0;
  actionCount = 0;
  hand = 0;
  readonly startTool: Int32Array;
  readonly endTool: Int32Array;
  readonly needs: Lists;
  readonly gives: Lists;
  readonly needers: Lists;
  readonly givers: Lists;
  /** Actions that start with a tool; actions that end with another than they started with, by that. */
  readonly users: Lists;
  readonly bringers: Lists;
  readonly target: Int32Array;
  targetCount = 0;
  readonly isTarget: Uint8Array;
  readonly #here: Int32Array;

  constructor(space: SearchSpace) {
    const { factCount, actionCount, toolCount, needs, gives } = space;
    this.#space = space;
    this.factOf = new Int32Array(space.factWords * 32);
    this.actionOf = new Int32Array(space.actionWords * 32);
    this.startTool = new Int32Array(actionCount);
    this.endTool = new Int32Array(actionCount);
    this.needs = new Lists(actionCount, needs.items.length);
    this.gives = new Lists(actionCount, gives.items.length);
    this.needers = new Lists(factCount, needs.items.length);
    this.givers = new Lists(factCount, gives.items.length);
    this.users = new Lists(toolCount + 1, actionCount);
    this.bringers = new Lists(toolCount + 1, actionCount);
    this.target = new Int32Array(space.target.length);
    this.isTarget = new Uint8Array(factCount);
    this.#here = new Int32Array(factCount);
  }

  /** Numbers what is open in a simplified state. */
  load(state: ReducedState): void {
    this.hand = state.hand;
    this.factCount = listBits(state.missing, this.factOf);
    this.actionCount = listBits(state.useful, this.actionOf);
    for (let fact = 0; fact < this.factCount; fact++) {
      this.#here[this.factOf[fact] as number] = fact;
      this.isTarget[fact] = 0;
    }
    this.targetCount = 0;
    for (const fact of this.#space.target) {
      if (!hasBit(state.missing, fact)) continue;
      const here = this.#here[fact] as number;
      this.target[this.targetCount++] = here;
      this.isTarget[here] = 1;
    }
    this.#pack(this.#space.needs, this.needs, state);
    this.#pack(this.#space.gives, this.gives, state);
    this.#invert(this.needs, this.needers);
    this.#invert(this.gives, this.givers);
    this.#sortByTool();
  }

  #pack(all: { from: Int32Array; items: Int32Array }, open: Lists, state: ReducedState): void {
    let length = 0;
    for (let action = 0; action < this.actionCount; action++) {
      const original = this.actionOf[action] as number;
      open.from[action] = length;
      for (let at = all.from[original] as number; at < (all.from[original + 1] as number); at++) {
        const fact = all.items[at] as number;
        if (hasBit(state.missing, fact)) open.items[length++] = this.#here[fact] as number;
      }
    }
    open.from[this.actionCount] = length;
  }

  #invert(lists: Lists, inverse: Lists): void {
    const length = lists.from[this.actionCount] as number;
    inverse.from.fill(0, 0, this.factCount + 1);
    for (let at = 0; at < length; at++) {
      const row = (lists.items[at] as number) + 1;
      inverse.from[row] = (inverse.from[row] as number) + 1;
    }
    inverse.start(this.factCount);
    for (let action = 0; action < this.actionCount; action++)
      for (let at = lists.from[action] as number; at < (lists.from[action + 1] as number); at++) {
        const row = lists.items[at] as number;
        const slot = inverse.from[row] as number;
        inverse.items[slot] = action;
        inverse.from[row] = slot + 1;
      }
    inverse.finish(this.factCount);
  }

  #sortByTool(): void {
    const { startTool, endTool, toolCount } = this.#space;
    let users = 0;
    let bringers = 0;
    for (let action = 0; action < this.actionCount; action++) {
      this.startTool[action] = startTool[this.actionOf[action] as number] as number;
      this.endTool[action] = endTool[this.actionOf[action] as number] as number;
    }
    for (let tool = 0; tool <= toolCount; tool++) {
      this.users.from[tool] = users;
      this.bringers.from[tool] = bringers;
      if (tool === 0) continue;
      for (let action = 0; action < this.actionCount; action++) {
        if (this.startTool[action] === tool) this.users.items[users++] = action;
        if (this.endTool[action] === tool && this.startTool[action] !== tool) this.bringers.items[bringers++] = action;
      }
    }
    this.users.from[toolCount + 1] = users;
    this.bringers.from[toolCount + 1] = bringers;
  }
}
