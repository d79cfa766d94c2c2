import type { Fault, Strength } from "../fault.js";

const FILE = "microphone.txt";
const THIRDS_HZ = Array.from({ length: 31 }, (_, n) => 1000 * 10 ** ((n - 17) / 10));

/** What a good small capsule deviates by: it falls below 20 Hz and rises before it falls above 10 kHz. */
const capsuleDb = (hz: number): number =>
  -10 * Math.log10(1 + (12 / hz) ** 4) + 1.5 * Math.exp(-((Math.log2(hz / 11_000) / 0.7) ** 2));

/** A table in third octaves; a place without a value is left out. */
function table(levelDb: (hz: number) => number | null, words = "Hz dB"): string {
  const rows = THIRDS_HZ.flatMap((hz) => {
    const level = levelDb(hz);
    return level === null ? [] : [`${hz.toFixed(1)}\t${level.toFixed(2)}`];
  });
  return [words, ...rows, ""].join("\n");
}

function corrected(content: string): Strength["inject"] {
  return (clean) => ({
    ...clean,
    session: { ...clean.session, microphone: { gainFixed: true, orientationDeg: 0, calibration: FILE } },
    tables: { [FILE]: content },
  });
}

const near = (hz: number, placeHz: number): boolean => Math.abs(hz / placeHz - 1) < 0.05;

export const calibrationSuspectFaults: readonly Fault[] = [
  {
    what: "the microphone's table is damaged, or one of something else",
    code: "calibration-suspect",
    severity: "warning",
    strengths: [
      { strength: "not at all", verdict: "harmless", isSlow: true, inject: corrected(table(capsuleDb)) },
      {
        strength: "a step of 5 dB from one third octave to the next, which a capsule may have",
        verdict: "harmless",
        isSlow: true,
        inject: corrected(table((hz) => capsuleDb(hz) + (hz > 17_000 ? -5 : 0))),
      },
      {
        strength: "a decimal point slipped: 9 dB in place of 0.9",
        verdict: "harmful",
        inject: corrected(table((hz) => (near(hz, 6300) ? 9 : capsuleDb(hz)))),
      },
      {
        strength: "sensitivities around −38 dB",
        verdict: "harmful",
        isSlow: true,
        inject: corrected(table((hz) => capsuleDb(hz) - 38)),
      },
      {
        strength: "rows below 100 Hz are missing",
        verdict: "harmful",
        isSlow: true,
        inject: corrected(table((hz) => (hz < 95 ? null : capsuleDb(hz)))),
      },
    ],
  },
  {
    what: "the microphone's table is for another angle",
    code: "calibration-suspect",
    severity: "warning",
    strengths: [
      {
        strength: "for 0°, used at 0°",
        verdict: "harmless",
        isSlow: true,
        inject: corrected(table(capsuleDb, "Angle of incidence: 0°")),
      },
      {
        strength: "for 90°, used at 0°",
        verdict: "harmful",
        inject: corrected(table(capsuleDb, "Angle of incidence: 90°")),
      },
    ],
  },
];
