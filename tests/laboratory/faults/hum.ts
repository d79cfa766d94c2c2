import { type Fault, inFirstRecording, type Strength } from "../fault.js";

/** Levels of the lines re the first: a ground loop has odd ones most. */
const LINES_DB: readonly number[] = [0, -12, -6, -18, -12];

function hum(mainsHz: number, dbfs: number): Strength["inject"] {
  return inFirstRecording((samples, sampleRate) => {
    const total = LINES_DB.reduce((sum, db) => sum + 10 ** (db / 10), 0);
    return samples.map((value, n) =>
      LINES_DB.reduce((sum, db, order) => {
        const peak = Math.SQRT2 * 10 ** (dbfs / 20) * Math.sqrt(10 ** (db / 10) / total);
        return sum + peak * Math.sin((2 * Math.PI * (order + 1) * mainsHz * n) / sampleRate + order);
      }, value),
    );
  });
}

export const humFault: Fault = {
  what: "the mains hummed (sweep: −20 dBFS RMS)",
  code: "hum",
  severity: "warning",
  strengths: [
    { strength: "50 Hz, −80 dBFS", verdict: "harmless", isSlow: true, inject: hum(49.97, -80) },
    { strength: "60 Hz, −72 dBFS", verdict: "harmless", isSlow: true, inject: hum(60.02, -72) },
    { strength: "50 Hz, −60 dBFS", verdict: "harmful", inject: hum(50.03, -60) },
    { strength: "60 Hz, −45 dBFS", verdict: "harmful", isSlow: true, inject: hum(59.96, -45) },
  ],
};
