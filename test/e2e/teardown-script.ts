import type { Entry } from '#record/schema/assessment';

/** One action as it truly happened, and how whoever reviews the film writes it down. */
export interface ScriptedAction {
  /** When it ended [s of the script]; the pedal is pressed then, unless it was forgotten. */
  readonly atSeconds: number;
  readonly do: NonNullable<Entry['do']>;
  readonly target?: string;
  readonly outcome?: 'partial' | 'failed';
  readonly because?: NonNullable<Entry['because']>;
  readonly did?: number;
  /** A word the note must hold: the line takes one ending, and the reason of a part of a set goes to the note. */
  readonly noted?: string;
  /** How long it ran, where it ran beside other work. */
  readonly took?: string;
  readonly came?: 'free' | 'aside';
  /** Nobody pressed the pedal. */
  readonly forgotten?: true;
  /** Done once more, for the camera or because the first try did not do. */
  readonly retake?: true;
  /** As written in the entry line. */
  readonly line: string;
}

/** The specimen whose teardown is scripted: one of the examples. */
export const SCRIPTED_PRODUCT = 'tarn-5';

/**
 * What happens in a teardown of the invented Tarn 5 in thirty minutes: a warm-up and a soak run beside other work, a stripped
 * screw, a lift that is blocked, a tab that tears and gives way to solvent, a camera seated and taken out again for a second
 * take, three actions nobody marked. Invented, with the order and the durations of the example's first session.
 */
export const TEARDOWN: readonly ScriptedAction[] = [
  { atSeconds: 14, do: 'turn-over', line: 'turn over' },
  { atSeconds: 40, do: 'pull', target: 'tray-catch', line: 'pull tray catch with eject' },
  { atSeconds: 48, do: 'lift', target: 'tray', came: 'free', line: 'lift tray free' },
  // The warm-up began at 12 s, and the tray came out beside it.
  { atSeconds: 132, do: 'heat', target: 'rear-adhesive', took: '2 min', line: 'heat 75c 2min back cover adhesive' },
  {
    atSeconds: 174,
    do: 'pry',
    target: 'rear-adhesive',
    outcome: 'failed',
    because: 'slipped',
    line: 'pry back cover adhesive slipped with cup pick',
  },
  { atSeconds: 205, do: 'heat', target: 'rear-adhesive', retake: true, line: 'heat 80c back cover adhesive' },
  { atSeconds: 248, do: 'pry', target: 'rear-adhesive', retake: true, line: 'pry back cover adhesive with cup pick' },
  { atSeconds: 256, do: 'lift', target: 'back-cover', came: 'free', line: 'lift back cover free' },
  { atSeconds: 281, do: 'unscrew', target: 'lower-shield-screws', line: 'unscrew 6 lower shield' },
  { atSeconds: 287, do: 'lift', target: 'lower-shield', came: 'free', line: 'lift lower shield free' },
  {
    atSeconds: 311,
    do: 'lift',
    target: 'vibration-motor',
    outcome: 'failed',
    because: 'blocked',
    line: 'lift vibration motor blocked',
  },
  {
    atSeconds: 366,
    do: 'unscrew',
    target: 'mid-shield-screws',
    outcome: 'partial',
    did: 7,
    noted: 'stripped',
    line: 'unscrew 7/8 mid shield -- the one by the tray stripped',
  },
  { atSeconds: 402, do: 'unscrew', target: 'mid-shield-screws', retake: true, line: 'unscrew mid shield with pliers' },
  { atSeconds: 409, do: 'pull', target: 'shield-springs', forgotten: true, line: 'pull shield springs' },
  { atSeconds: 421, do: 'lift', target: 'mid-shield', came: 'free', line: 'lift mid shield free' },
  { atSeconds: 438, do: 'unscrew', target: 'battery-bracket-screws', line: 'unscrew 2 battery bracket' },
  { atSeconds: 446, do: 'lift', target: 'battery-bracket', came: 'free', line: 'lift battery bracket free' },
  { atSeconds: 456, do: 'unplug', target: 'battery-connector', line: 'unplug battery connector' },
  { atSeconds: 472, do: 'unscrew', target: 'main-speaker-screws', line: 'unscrew 3 main speaker' },
  { atSeconds: 481, do: 'unplug', target: 'speaker-contact', line: 'unplug speaker contact' },
  { atSeconds: 489, do: 'pull', target: 'speaker-gasket', line: 'pull speaker gasket' },
  { atSeconds: 503, do: 'lift', target: 'main-speaker', came: 'free', line: 'lift main speaker free' },
  { atSeconds: 515, do: 'unscrew', target: 'coil-clamp-screw', line: 'unscrew coil clamp' },
  { atSeconds: 522, do: 'lift', target: 'coil-clamp', came: 'free', line: 'lift coil clamp free' },
  { atSeconds: 533, do: 'unplug', target: 'coil-contact', line: 'unplug coil contact' },
  { atSeconds: 586, do: 'pry', target: 'coil-tape', line: 'pry coil tape with pick' },
  { atSeconds: 594, do: 'lift', target: 'coil', came: 'free', line: 'lift coil free' },
  { atSeconds: 668, do: 'pry', target: 'battery-flap', line: 'pry flap with lever' },
  { atSeconds: 712, do: 'pull', target: 'strip-left', line: 'pull strip left with tweezers' },
  {
    atSeconds: 731,
    do: 'pull',
    target: 'strip-right',
    outcome: 'failed',
    because: 'tore',
    line: 'pull strip right tore',
  },
  // The soak began at 745 s; the cameras came out beside it.
  { atSeconds: 764, do: 'unscrew', target: 'camera-bracket-screws', line: 'unscrew 2 camera bracket' },
  { atSeconds: 771, do: 'lift', target: 'camera-bracket', came: 'free', line: 'lift camera bracket free' },
  { atSeconds: 782, do: 'unplug', target: 'rear-camera-connector', line: 'unplug rear camera connector' },
  { atSeconds: 790, do: 'pull', target: 'rear-camera-seat', line: 'pull rear camera seat' },
  { atSeconds: 799, do: 'lift', target: 'rear-camera', came: 'free', line: 'lift rear camera free' },
  { atSeconds: 818, do: 'seat', target: 'rear-camera', line: 'seat rear camera -- for a second take' },
  { atSeconds: 832, do: 'lift', target: 'rear-camera', came: 'free', retake: true, line: 'lift rear camera free' },
  { atSeconds: 846, do: 'unplug', target: 'front-camera-connector', line: 'unplug front camera connector' },
  { atSeconds: 853, do: 'pull', target: 'front-camera-seat', forgotten: true, line: 'pull front camera seat' },
  { atSeconds: 858, do: 'lift', target: 'front-camera', forgotten: true, line: 'lift front camera free' },
  { atSeconds: 874, do: 'unplug', target: 'flash-connector', line: 'unplug flash connector' },
  { atSeconds: 891, do: 'peel', target: 'flash-tape', line: 'peel flash tape' },
  { atSeconds: 897, do: 'lift', target: 'flash-board', came: 'free', line: 'lift flash board free' },
  { atSeconds: 1045, do: 'dissolve', target: 'strip-right', took: '5 min', line: 'ipa 4ml 5min strip right' },
  { atSeconds: 1163, do: 'pry', target: 'strip-right', line: 'pry strip right with lever' },
  { atSeconds: 1178, do: 'lift', target: 'battery', came: 'free', line: 'lift battery free' },
  { atSeconds: 1224, do: 'clean', target: 'strip-right', line: 'clean strip right with tweezers' },
  { atSeconds: 1241, do: 'unscrew', target: 'port-bracket-screws', line: 'unscrew 2 port bracket' },
  { atSeconds: 1254, do: 'unscrew', target: 'port-screws', line: 'unscrew 2 port charging' },
  { atSeconds: 1260, do: 'lift', target: 'port-bracket', came: 'free', line: 'lift port bracket free' },
  { atSeconds: 1272, do: 'unplug', target: 'port-flex', line: 'unplug port flex' },
  { atSeconds: 1301, do: 'pry', target: 'port-gasket', line: 'pry port gasket with spudger' },
  { atSeconds: 1309, do: 'lift', target: 'charging-port', came: 'free', line: 'lift charging port free' },
  { atSeconds: 1317, do: 'unplug', target: 'mic-contact', line: 'unplug mic contact' },
  { atSeconds: 1326, do: 'pull', target: 'mic-boot', line: 'pull mic boot' },
  { atSeconds: 1334, do: 'lift', target: 'microphone', came: 'free', line: 'lift main microphone free' },
  { atSeconds: 1344, do: 'unplug', target: 'motor-contact', line: 'unplug motor contact' },
  { atSeconds: 1369, do: 'pry', target: 'motor-tape', line: 'pry motor tape with lever' },
  {
    atSeconds: 1376,
    do: 'lift',
    target: 'vibration-motor',
    came: 'free',
    retake: true,
    line: 'lift vibration motor free',
  },
  { atSeconds: 1398, do: 'unscrew', target: 'display-screws', line: 'unscrew 2 frame screws from the back' },
  { atSeconds: 1404, do: 'turn-over', line: 'flip over' },
  // The second warm-up began at 1406 s and ran while the button bracket was turned out at the side.
  { atSeconds: 1427, do: 'unscrew', target: 'button-bracket-screws', line: 'unscrew 2 button bracket' },
  { atSeconds: 1435, do: 'lift', target: 'button-bracket', came: 'free', line: 'lift button bracket free' },
  { atSeconds: 1444, do: 'unplug', target: 'button-connector', line: 'unplug button connector' },
  { atSeconds: 1526, do: 'heat', target: 'front-adhesive', took: '2 min', line: 'heat 75c 2min display adhesive' },
  { atSeconds: 1612, do: 'pry', target: 'front-adhesive', line: 'pry display adhesive with cup pick' },
  { atSeconds: 1624, do: 'fold-aside', target: 'display', came: 'aside', line: 'fold display assembly aside' },
  { atSeconds: 1641, do: 'unscrew', target: 'front-shield-screws', line: 'unscrew 3 front shield' },
  { atSeconds: 1649, do: 'lift', target: 'front-shield', came: 'free', line: 'lift front shield free' },
  { atSeconds: 1659, do: 'unplug', target: 'display-connector', line: 'unplug display connector' },
  { atSeconds: 1668, do: 'lift', target: 'display', came: 'free', line: 'lift display assembly free' },
  { atSeconds: 1685, do: 'unscrew', target: 'ear-screws', line: 'unscrew 2 ear screws' },
  { atSeconds: 1692, do: 'unplug', target: 'ear-flex', line: 'unplug ear speaker contact' },
  { atSeconds: 1700, do: 'pull', target: 'ear-gasket', line: 'pull ear gasket' },
  { atSeconds: 1712, do: 'lift', target: 'ear-speaker', came: 'free', line: 'lift speaker ear free' },
  { atSeconds: 1722, do: 'unplug', target: 'sensor-connector', line: 'unplug sensor connector' },
  { atSeconds: 1782, do: 'peel', target: 'sensor-tape', line: 'peel sensor tape' },
  { atSeconds: 1795, do: 'lift', target: 'light-sensor', came: 'free', line: 'lift light sensor free' },
];
