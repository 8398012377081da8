import { readPairs, type SequencingInstance } from './configuration-problem.ts';

// Source of both: public repository qwsazx852/anufacturing-algorithm-portfolio, commit 9153fb33, data module and original
// scripts, which agree on precedence, tools and directions.

/** A stapler of 18 parts. */
export const stapler: SequencingInstance = {
  precedence: readPairs(
    '(3,2)(3,1)(4,5)(4,8)(5,7)(5,6)(6,9)(7,9)(8,6)(10,12)(11,12)(13,12)(14,1)(14,4)(15,12)(16,15)(17,15)(18,10)(18,11)(18,13)',
  ),
  tools: [3, 1, 2, 3, 4, 3, 3, 3, 3, 3, 1, 1, 1, 2, 4, 2, 2, 3],
  directions: [2, -2, -2, 2, -2, -1, 1, 2, 1, -2, 2, -2, -2, -2, -2, -2, -2, -3],
};

/** A ceiling fan of 26 parts. */
export const ceilingFan: SequencingInstance = {
  precedence: readPairs(
    '(5,1)(5,2)(5,3)(5,4)(6,4)(11,7)(11,18)(12,7)(12,18)(15,7)(15,18)(16,7)(16,18)(19,22)(19,23)(19,24)(20,22)(20,23)(20,24)' +
      '(21,22)(21,23)(21,24)(26,25)(4,7)(25,17)(7,8)(7,9)(18,17)(8,10)(8,14)(9,10)(9,14)(17,14)(10,13)(14,13)',
  ),
  tools: [2, 2, 2, 1, 1, 1, 1, 1, 1, 3, 1, 1, 3, 3, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 4, 2],
  directions: [2, 3, -3, 3, 2, 2, 3, 3, 3, 3, 3, 3, -3, -3, -3, -3, -3, -3, -3, -3, -3, -3, -3, -3, -3, -3],
};
