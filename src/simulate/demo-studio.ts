import type { Monitor } from "./monitor.js";
import type { Scenario } from "./scenario.js";

/** A trouble that a scenario has because it was put in. */
export interface BuiltInTrouble {
  /** Of the finding that tells it. */
  readonly code: string;
  readonly monitors: readonly string[];
  readonly channels?: readonly ("L" | "R")[];
  /** Midbands of the third octaves concerned. */
  readonly rangeHz?: readonly [number, number];
  readonly delayS?: number;
}

const SPEED_M_PER_S = 343.2 * Math.sqrt((273.15 + 21) / 293.15);
const WIDTH_M = 6.06;
const CENTRE_M = WIDTH_M / 2;
const EAR_M = 1.25;
const LISTENER_M = 3.81;
const DESK_M = 0.74;

/** Panels in front of hard walls: what they leave at 63 Hz goes to and fro between them. */
const side = [0.114, 0.66, 0.63, 0.54, 0.9, 0.9, 0.85, 0.85] as const;

const mains: Monitor = {
  lowRollOff: { frequencyHz: 30.9, order: 6, quality: 2.3 },
  highRollOff: { frequencyHz: 22_000, order: 2 },
  crossoversHz: [420, 2600],
  // Tuned to this room: the bass is held down where it rings.
  shapes: [
    { kind: "lowShelf", frequencyHz: 270, gainDb: -1.9 },
    { kind: "peak", frequencyHz: 58.9, gainDb: -5.9, quality: 2 },
    { kind: "peak", frequencyHz: 380, gainDb: -1.4, quality: 1.6 },
    { kind: "peak", frequencyHz: 830, gainDb: 2.3, quality: 1.4 },
    { kind: "highShelf", frequencyHz: 5000, gainDb: 0.4 },
  ],
  distortion: { second: 0.015, third: 0.04 },
};

const nears: Monitor = {
  lowRollOff: { frequencyHz: 78.1, order: 4, quality: 1.63 },
  highRollOff: { frequencyHz: 20_000, order: 2 },
  crossoversHz: [2200],
  // Made to stand over a desk: lifted where its reflection takes.
  shapes: [
    { kind: "peak", frequencyHz: 165.4, gainDb: -1.5, quality: 2 },
    { kind: "peak", frequencyHz: 360, gainDb: 1.6, quality: 1.6 },
    { kind: "peak", frequencyHz: 487, gainDb: 3.5, quality: 2.5 },
    { kind: "peak", frequencyHz: 910, gainDb: -1.1, quality: 2 },
    { kind: "highShelf", frequencyHz: 5000, gainDb: 1.5 },
  ],
  gainDb: -8,
  distortion: { second: 0.012, third: 0.03 },
};

/**
 * The studio of the demo. Everything in it is invented: names, room, loudspeakers and people.
 *
 * A control room with parallel walls and decent treatment, large mains and small nearfields. Four troubles are built in
 * (`builtInTroubles`); the walls' shares and the loudspeakers' tuning were chosen so that nothing else breaks a limit. What stands
 * on a wall or on the floor counts as part of it; the floor's share at high frequencies is that of a thick carpet with a
 * console on it. The mains do not see the desk: they shine over it.
 */
export const demoStudio: Scenario = {
  about: {
    title: "Demo: the control room of Heron Yard",
    date: "2026-05-14",
    engineer: "Ida Fennimore",
    notes: "Simulated. The room, the loudspeakers and the people do not exist.",
  },
  roomName: "Heron Yard, control room",
  room: {
    sizeM: [7.17, WIDTH_M, 2.93],
    absorption: {
      // Panels beside a window.
      front: [0.57, 0.47, 0.43, 0.77, 0.5, 0.5, 0.56, 0.56],
      // A deep absorber behind slats.
      rear: [0.47, 0.66, 0.72, 0.36, 0.5, 0.5, 0.45, 0.45],
      left: side,
      right: side,
      floor: [0.39, 0.17, 0.6, 0.41, 0.9, 0.9, 0.9, 0.9],
      // A hung cloud of mineral wool over the whole room.
      ceiling: [0.9, 0.42, 0.56, 0.69, 0.93, 0.93, 0.93, 0.93],
    },
    // 20 degrees, 50 % relative humidity: ISO 9613-1:1993, computed at the exact midbands.
    airDbPerM: [0.0001228, 0.0004453, 0.001318, 0.002733, 0.004665, 0.009855, 0.02942, 0.1039],
    // 343.2 m/s at 20 degrees, times the root of the ratio of absolute temperatures.
    soundSpeedMPerS: SPEED_M_PER_S,
    leakHz: 5,
  },
  // Just under 2^16 samples with the walls' ringing; the slowest mode has fallen by 50 dB.
  responseS: 1.3,
  temperatureC: 21,
  relativeHumidityPercent: 45,
  pairs: [
    {
      id: "mains",
      role: "main",
      name: "Large three-way mains",
      placement: { L: [0.15, 1.16, 1.25], R: [0.15, WIDTH_M - 1.16, 1.25] },
      monitors: {
        L: mains,
        R: {
          ...mains,
          shapes: [...(mains.shapes ?? []), { kind: "lowShelf", order: 2, frequencyHz: 120, gainDb: -5.2 }],
        },
      },
      // Large baffle, horn: holds its beam from the low mids up.
      directivity: [0, 0.05, 0.15, 0.3, 0.42, 0.48, 0.5, 0.5],
    },
    {
      id: "nears",
      role: "nearfield",
      name: "Small two-way nearfields",
      // Nobody places a loudspeaker to the millimetre: a mirror image would be one and the same sound.
      placement: { L: [LISTENER_M - 1.02, CENTRE_M - 0.75, EAR_M], R: [LISTENER_M - 1.017, CENTRE_M + 0.754, EAR_M] },
      monitors: { L: nears, R: nears },
      directivity: [0, 0, 0.05, 0.15, 0.25, 0.35, 0.42, 0.45],
      desk: { heightM: DESK_M, lossDb: 2.6 },
    },
  ],
  // The part of the desk's top that lies bare between nearfields and listener; its edges are not simulated.
  panels: [
    {
      id: "desk",
      centreM: [LISTENER_M - 0.51, CENTRE_M, DESK_M],
      normal: [0, 0, 1],
      widthM: 1.9,
      heightM: 0.45,
    },
  ],
  positions: [
    { id: "mix", kind: "mix", xyzM: [LISTENER_M, CENTRE_M, EAR_M], takes: 2 },
    { id: "left", kind: "near", xyzM: [LISTENER_M, CENTRE_M - 0.15, EAR_M] },
    { id: "right", kind: "near", xyzM: [LISTENER_M, CENTRE_M + 0.15, EAR_M] },
    { id: "forward", kind: "near", xyzM: [LISTENER_M - 0.15, CENTRE_M, EAR_M] },
    { id: "back", kind: "near", xyzM: [LISTENER_M + 0.15, CENTRE_M, EAR_M] },
  ],
  recorder: {
    gainDb: 6,
    // One interface plays and records, on one clock.
    clockDriftPpm: 0,
    noise: { pinkDbRms: -90, whiteDbRms: -106, hum: { frequencyHz: 50, dbRms: -100 } },
    leadsS: [0.41, 0.22, 0.57, 0.34, 0.49],
    tailS: 0.3,
    calibrator: { soundPressureLevelDb: 94, peakDbfs: -6, durationS: 3 },
  },
  seed: 20_260_514,
};

/** What is wrong in the studio of the demo, and nothing else is. */
export const builtInTroubles: readonly BuiltInTrouble[] = [
  // By way of the desk's top, 0.36 m longer than the direct one of 1.27 m.
  { code: "early-reflection", monitors: ["nears"], channels: ["L", "R"], delayS: 0.00105 },
  // The right one's low shelf. The channel is the weak one.
  { code: "left-right-bands", monitors: ["mains"], channels: ["R"], rangeHz: [31.5, 100] },
  // Two waves between the side walls: 343.8 m/s / 6.06 m = 56.7 Hz, on the edge of two third octaves.
  { code: "mode-rings", monitors: ["mains", "nears"], rangeHz: [50, 63] },
  { code: "ends-early", monitors: ["nears"], rangeHz: [55, 62] },
];
