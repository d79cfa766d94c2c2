import type { Scenario } from "./scenario.js";

const directivity = {
  /** Large baffle, horn-like tweeter: holds its beam from the low mids up. */
  large: [0, 0.05, 0.12, 0.2, 0.28, 0.34, 0.38, 0.42],
  small: [0, 0, 0.05, 0.1, 0.18, 0.26, 0.34, 0.4],
} as const;

/**
 * The studio of the demo. Everything in it is invented: names, room, loudspeakers and people.
 *
 * The mains reach down to about 30 Hz, the right one a little louder and duller than the left; the nearfields end near
 * 60 Hz and stand behind a desk that reflects. The walls are parallel, the bass rings longer than the rest.
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
    sizeM: [6.1, 4.6, 2.9],
    absorption: {
      // A wall with a wide window.
      front: [0.2, 0.22, 0.2, 0.18, 0.18, 0.18, 0.18, 0.18],
      // Deep porous absorber.
      rear: [0.45, 0.52, 0.55, 0.58, 0.58, 0.58, 0.56, 0.55],
      // Panels on half of the plasterboard, a door on the left.
      left: [0.24, 0.26, 0.27, 0.28, 0.28, 0.28, 0.28, 0.28],
      right: [0.26, 0.28, 0.29, 0.3, 0.3, 0.3, 0.3, 0.3],
      // Boards with a rug.
      floor: [0.14, 0.14, 0.15, 0.16, 0.18, 0.2, 0.22, 0.24],
      // A hung cloud of mineral wool.
      ceiling: [0.3, 0.36, 0.42, 0.46, 0.48, 0.48, 0.46, 0.45],
    },
    // 20 degrees, 50 % relative humidity: ISO 9613-1:1993, computed at the exact midbands.
    airDbPerM: [0.0001228, 0.0004453, 0.001318, 0.002733, 0.004665, 0.009855, 0.02942, 0.1039],
    // 343.2 m/s at 20 degrees, times the root of the ratio of absolute temperatures.
    soundSpeedMPerS: 343.2 * Math.sqrt((273.15 + 21) / 293.15),
    leakHz: 5,
  },
  responseS: 0.6,
  temperatureC: 21,
  relativeHumidityPercent: 45,
  pairs: [
    {
      id: "mains",
      role: "main",
      name: "Large three-way mains",
      placement: { L: [0.52, 0.93, 1.46], R: [0.5, 3.74, 1.46] },
      monitors: {
        L: {
          lowRollOff: { frequencyHz: 34, order: 4 },
          highRollOff: { frequencyHz: 22_000, order: 2 },
          crossoversHz: [420, 2600],
          shapes: [
            { kind: "lowShelf", frequencyHz: 120, gainDb: -3 },
            { kind: "peak", frequencyHz: 3100, gainDb: -1.2, quality: 1.4 },
          ],
          distortion: { second: 0.04, third: 0.1 },
        },
        R: {
          lowRollOff: { frequencyHz: 35, order: 4 },
          highRollOff: { frequencyHz: 22_000, order: 2 },
          crossoversHz: [420, 2600],
          shapes: [
            { kind: "lowShelf", frequencyHz: 120, gainDb: -3 },
            { kind: "peak", frequencyHz: 3100, gainDb: -1.2, quality: 1.4 },
            { kind: "highShelf", frequencyHz: 7000, gainDb: -1.5 },
          ],
          gainDb: 0.7,
          distortion: { second: 0.04, third: 0.1 },
        },
      },
      directivity: directivity.large,
    },
    {
      id: "nears",
      role: "nearfield",
      name: "Small two-way nearfields",
      placement: { L: [1.5, 1.66, 1.21], R: [1.52, 2.92, 1.21] },
      monitors: {
        L: {
          lowRollOff: { frequencyHz: 58, order: 4, quality: 1.5 },
          highRollOff: { frequencyHz: 20_000, order: 2 },
          crossoversHz: [2200],
          shapes: [{ kind: "peak", frequencyHz: 1300, gainDb: 1.6, quality: 1.8 }],
          gainDb: -5,
          distortion: { second: 0.06, third: 0.2 },
        },
        R: {
          lowRollOff: { frequencyHz: 58, order: 4, quality: 1.5 },
          highRollOff: { frequencyHz: 20_000, order: 2 },
          crossoversHz: [2200],
          shapes: [{ kind: "peak", frequencyHz: 1300, gainDb: 1.6, quality: 1.8 }],
          gainDb: -5,
          distortion: { second: 0.06, third: 0.2 },
        },
      },
      directivity: directivity.small,
      desk: { heightM: 0.76, lossDb: 2.5 },
    },
  ],
  positions: [
    { id: "mix", kind: "mix", xyzM: [2.42, 2.28, 1.21] },
    { id: "head_left", kind: "near", xyzM: [2.42, 2.14, 1.21] },
  ],
  recorder: {
    gainDb: 0,
    clockDriftPpm: 6.4,
    noise: { pinkDbRms: -76, whiteDbRms: -102, hum: { frequencyHz: 50, dbRms: -92 } },
    leadsS: [0.81, 0.62, 1.07, 0.74],
    tailS: 0.6,
  },
  seed: 20_260_514,
};
