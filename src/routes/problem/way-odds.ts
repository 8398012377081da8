import type { WayExperience } from '#record/log/experience';
import type { Way } from '#record/schema/assessment';
import { oddsFromTries } from './odds-from-tries.ts';
import type { WayOdds } from './route-problem.ts';

/** How likely is a way to work or to damage, a try? As counted in measured sessions where it was tried there; else as the record states. */
export const wayOdds = (way: Way, experience: WayExperience | undefined): WayOdds | undefined => {
  if (experience && experience.tries > 0) return oddsFromTries(experience);
  const stated = way.odds;
  if (!stated) return undefined;
  const exact = (value: number) => ({ low: value, mean: value, high: value });
  return {
    success: exact(stated.success),
    damage: exact(stated.damage ?? 0),
    tries: stated.tries ?? 0,
    source: stated.source ?? 'stated in the record',
  };
};
