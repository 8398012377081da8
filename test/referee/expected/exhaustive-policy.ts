import {
  after,
  atStart,
  isStranded,
  possibleNow,
  type Standing,
  servingNow,
  timeOf,
  type UncertainWork,
} from './uncertain-work.ts';

/** What a best policy comes to: expected time with losses [ms] and chance of damage. */
export interface BestWorth {
  readonly time: number;
  readonly damage: number;
}

/** How is a best policy judged? By time, then damage, or the reverse; over all tries that serve the target, or over all. */
export interface Judgement {
  readonly first: 'time' | 'damage';
  readonly among: 'serving' | 'possible';
}

/** What is the best policy worth, found by trying every choice in every standing the work can come to? */
export const exhaustivePolicy = (work: UncertainWork, judgement: Judgement): BestWorth => {
  const memo = new Map<string, BestWorth>();
  const worth = (at: Standing): BestWorth => {
    if (at.facts.has(work.target)) return { time: 0, damage: 0 };
    if (isStranded(work, at)) return { time: work.strandedLoss, damage: 0 };
    const key = JSON.stringify([[...at.facts].sort(), at.held, [...at.exhausted].sort()]);
    const known = memo.get(key);
    if (known) return known;
    const tries = judgement.among === 'serving' ? servingNow(work, at) : possibleNow(work, at);
    const worths = tries.map((one): BestWorth => {
      const { time, held } = timeOf(work, one, at.held);
      const success = worth(after(at, one, { held, isSuccess: true }));
      const failing = 1 - one.success - one.damage;
      const failure = failing > 1e-12 ? worth(after(at, one, { held, isSuccess: false })) : { time: 0, damage: 0 };
      return {
        time: time + one.damage * work.damageLoss + one.success * success.time + failing * failure.time,
        damage: one.damage + one.success * success.damage + failing * failure.damage,
      };
    });
    const best = worths.reduce((a, b) => (isBetter(b, a, judgement.first) ? b : a));
    memo.set(key, best);
    return best;
  };
  return worth(atStart);
};

const isBetter = (a: BestWorth, b: BestWorth, first: 'time' | 'damage'): boolean => {
  const second = first === 'time' ? 'damage' : 'time';
  const width = (figure: number): number => 1e-12 * Math.max(1, Math.abs(figure));
  if (Math.abs(a[first] - b[first]) > width(a[first])) return a[first] < b[first];
  return a[second] < b[second] - width(a[second]);
};
