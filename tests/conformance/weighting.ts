import { weightingA, weightingC } from "../../src/standards/iec61672.js";
import { type Check, equalTable } from "./check.js";

/** Step n of 1000 * 10^(n/10) Hz, A and C of Table 3, dB. */
const table: readonly [number, number, number][] = [
  [-20, -70.4, -14.3],
  [-17, -50.5, -6.2],
  [-15, -39.4, -3],
  [-12, -26.2, -0.8],
  [-9, -16.1, -0.2],
  [-6, -8.6, 0],
  [-3, -3.2, 0],
  [0, 0, 0],
  [3, 1.2, -0.2],
  [6, 1, -0.8],
  [9, -1.1, -3],
  [12, -6.6, -8.5],
  [13, -9.3, -11.2],
];

function rows(
  column: 1 | 2,
  weighting: (frequencyHz: number) => number,
): (readonly [name: string, published: number, computed: number])[] {
  return table.map((row) => {
    const frequencyHz = 1000 * 10 ** (row[0] / 10);
    return [`${frequencyHz.toFixed(0)} Hz`, row[column], weighting(frequencyHz)];
  });
}

const SOURCE = "IEC 61672-1:2013, Table 3 (transcription)";

export const weightingChecks: readonly Check[] = [
  equalTable("A-weighting", SOURCE, rows(1, weightingA), 1, "dB"),
  equalTable("C-weighting", SOURCE, rows(2, weightingC), 1, "dB"),
];
