import type { PriorityRole } from '#schemes/eu-2023-1669/input';
import type { Basis, RouteVerdict } from '#verdict/verdict';
import { durationText } from './durations.ts';

/** How are the three bases called on the page? */
export const basisWords: Readonly<Record<Basis, string>> = {
  declared: 'declared',
  observed: 'observed',
  best: 'best found',
};

/** What does each basis rest on? One clause that follows its name. */
export const basisMeaning: Readonly<Record<Basis, string>> = {
  declared: "the maker's own procedures or public sheet",
  observed: "the reference specimen's own actions in their order",
  best: 'the shortest route found that the record shows',
};

/** What is said of single parts where only scores are known? */
export const NO_PARTS = 'Of single parts nothing is on record: a public sheet gives scores alone.';

/** How are the priority parts of Annex IV point 5 called on the page? */
export const roleWords: Readonly<Record<PriorityRole, string>> = {
  battery: 'Battery',
  display: 'Display',
  'back-cover': 'Back cover',
  'front-camera': 'Front camera',
  'rear-camera': 'Rear camera',
  'charging-port': 'Charging port',
  button: 'Mechanical button',
  microphone: 'Main microphone',
  speaker: 'Speaker',
  hinge: 'Hinge',
};

/** How are the six scores of the index called on the page? */
export const scoreWords = {
  SDD: 'Disassembly depth',
  SF: 'Fasteners',
  ST: 'Tools',
  SSP: 'Spare parts',
  SSU: 'Software updates',
  SRI: 'Repair information',
} as const;

/** Was a route done in one go, put together, or taken from a document? */
export function performedWords(route: RouteVerdict): string {
  if (route.performed === 'document') return "as the maker's document gives it, not performed here";
  if (route.performed === 'put-together')
    return 'put together from several pieces of work; never performed from end to end';
  return route.session === undefined
    ? 'performed from end to end'
    : `performed from end to end in session ${route.session}`;
}

/** Which class of Annex I (17) to (19) do fastener points stand for, in words? */
export function fastenerPointsWords(points: number | null): string {
  if (points === null) return 'no points: open or below the scale';
  const names: Readonly<Record<number, string>> = { 5: 'reusable', 3: 'resupplied', 1: 'removable' };
  return `${points} of 5 points${names[points] ? ` (the worst class is ${names[points]})` : ''}`;
}

/** Which tool class of Annex IV point 5 do tool points stand for, in words? */
export function toolPointsWords(points: number | null): string {
  if (points === null) return 'no points: open or below the scale';
  const names: Readonly<Record<number, string>> = {
    5: 'no tool',
    4: 'basic',
    3: 'supplied with the spare part',
    2: 'supplied with the product',
    1: 'commercially available',
  };
  return `${points} of 5 points${names[points] ? ` (the worst class is ${names[points]})` : ''}`;
}

/** How long does a route take, as far as it was measured? A sum that lacks some times says so; no time at all is not 0. */
export function routeTimeWords({ seconds, missingDurations }: RouteVerdict): string {
  if (seconds === undefined || (seconds === 0 && missingDurations.length > 0)) return 'not measured';
  return missingDurations.length > 0 ? `over ${durationText(seconds)}` : durationText(seconds);
}
