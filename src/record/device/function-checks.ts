import type { Assessment } from '../schema/assessment.ts';

/** One function to go through after a fit: its id in the record, its words, and how it is tested. */
export interface FunctionCheck {
  readonly id: string;
  readonly name: string;
  readonly how?: string;
}

/** What is said of the usual lists wherever they are shown: nobody published them. */
export const USUAL_CHECKS_SOURCE = 'common practice, no source';

const words: Readonly<Record<string, readonly [name: string, how: string]>> = {
  starts: ['starts and restarts', 'switch off, start, restart once'],
  notice: ['no notice, no entry', 'lock screen, start screen, parts page of the settings'],
  'touch-grid': ['touch over the whole surface', 'drag across a grid, edges and corners too'],
  brightness: ['brightness over its whole range', 'lowest, middle, highest; at the highest, measured'],
  'ambient-adapt': ['brightness and tone follow the room', 'cover and light the sensor'],
  colours: ['even colours, no lines', 'white, grey, red, green, blue over the whole surface'],
  'refresh-rate': ['refresh rate', 'highest rate on a moving pattern'],
  'in-display-reader': ['reader under the display', 'enrol and unlock three times'],
  'charge-wire': ['charges by wire', 'power after five minutes, with the same charger'],
  'charge-pad': ['charges on a pad', 'power after five minutes, same pad, same place'],
  'battery-data': ['battery data shown', 'state of health and cycles in the settings'],
  gauge: ['gauge is steady', 'no jump under load from 60 % down'],
  'full-power': ['full power under load', 'load for five minutes, no throttling'],
  focus: ['sharp at all distances', 'near, one metre, far'],
  stabiliser: ['picture held steady', 'shaken by hand'],
  'all-lenses': ['every lens and zoom step', 'go through them all'],
  video: ['video with sound', 'ten seconds, played back'],
  torch: ['torch and flash', 'torch on, one flash'],
  portrait: ['depth and portrait', 'one picture each'],
  'face-unlock': ['unlocking by the camera', 'enrol and unlock three times'],
  data: ['data over the port', 'copy one file'],
  'press-feel': ['every key answers', 'each key ten times'],
  fingerprint: ['finger is known', 'enrol a finger, unlock three times'],
  'speech-in': ['speech is taken up', 'record and play back, each microphone'],
  'noise-cut': ['noise is cut in a call', 'call beside a noise'],
  'sound-out': ['sound without rattle', 'sweep, at the highest volume measured'],
  'call-sound': ['call is heard at the ear', 'one call'],
  'proximity-off': ['display goes dark at the ear', 'cover the sensor in a call'],
  'fold-angle': ['angle is known', 'open and close three times'],
  'wireless-link': ['radio links', 'mobile network, wireless network, position'],
  vibration: ['it vibrates', 'short and long'],
  'tray-read': ['card is read', 'take out and put back'],
};

const byRole: Readonly<Record<string, readonly string[]>> = {
  battery: ['charge-wire', 'charge-pad', 'battery-data', 'gauge', 'full-power'],
  display: ['touch-grid', 'brightness', 'ambient-adapt', 'colours', 'refresh-rate', 'in-display-reader'],
  'back-cover': ['charge-pad', 'wireless-link', 'torch'],
  'front-camera': ['focus', 'video', 'portrait', 'face-unlock'],
  'rear-camera': ['focus', 'stabiliser', 'all-lenses', 'video', 'torch', 'portrait'],
  'charging-port': ['charge-wire', 'data', 'speech-in'],
  button: ['press-feel', 'fingerprint'],
  microphone: ['speech-in', 'noise-cut'],
  speaker: ['sound-out', 'call-sound'],
  hinge: ['fold-angle', 'touch-grid'],
  'main-board': ['wireless-link', 'charge-wire', 'focus', 'sound-out'],
  'audio-connector': ['sound-out', 'speech-in'],
  tray: ['tray-read'],
  antenna: ['wireless-link'],
  sensor: ['ambient-adapt', 'proximity-off'],
  'vibration-motor': ['vibration'],
  'wireless-coil': ['charge-pad'],
};

/** Which functions are usually gone through for a part of a role? Start and notices always. Common practice, no source. */
export const usualChecksOf = (role: string | undefined): readonly FunctionCheck[] =>
  ['starts', ...(byRole[role ?? ''] ?? []), 'notice'].map((id) => ({
    id,
    name: words[id]?.[0] ?? id,
    how: words[id]?.[1] ?? '',
  }));

/** Which checks are known without being described in a record? */
export const usualCheckIds = (): readonly string[] => Object.keys(words);

/** Which functions are to be gone through after a fit of a part? The record's list for it, else the usual ones of its role. */
export const checksOf = (assessment: Assessment, part: string): readonly FunctionCheck[] => {
  const { parts, checks: described } = assessment.swapBench ?? {};
  const listed = parts?.[part]?.checks;
  const usual = usualChecksOf(assessment.parts?.[part]?.role);
  const ids = listed ?? usual.map(({ id }) => id);
  return ids.map((id) => {
    const own = described?.[id];
    if (own) return { id, name: own.name, ...(own.how === undefined ? {} : { how: own.how }) };
    const [name = id, how] = words[id] ?? [];
    return { id, name, ...(how === undefined ? {} : { how }) };
  });
};
