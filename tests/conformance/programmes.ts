import { kWeighting } from "../../src/standards/bs1770.js";
import { loudnessOf, PEAKS_3341, PROGRAMMES_3341, truePeakOf } from "../translation/published-programmes.js";
import { type Check, equalTable, inside } from "./check.js";

const ITU = "ITU-R BS.1770-4, Annex 1";
const EBU = "EBU Tech 3341, Table 1";

/** Stage, coefficient, printed value. */
const coefficients: readonly (readonly [stage: 0 | 1, name: "b" | "a", place: 0 | 1 | 2, value: number])[] = [
  [0, "b", 0, 1.53512485958697],
  [0, "b", 1, -2.69169618940638],
  [0, "b", 2, 1.19839281085285],
  [0, "a", 0, -1.69065929318241],
  [0, "a", 1, 0.73248077421585],
  [1, "b", 0, 1],
  [1, "b", 1, -2],
  [1, "b", 2, 1],
  [1, "a", 0, -1.99004745483398],
  [1, "a", 1, 0.99007225036621],
];

const stages = kWeighting(48_000);

export const programmeChecks: readonly Check[] = [
  equalTable(
    "K-weighting at 48 kHz, coefficients",
    `${ITU}, Tables 1 and 2 (from memory)`,
    coefficients.map(([stage, name, place, value]) => [
      `stage ${stage + 1}, ${name}${name === "a" ? place + 1 : place}`,
      value,
      (stages[stage][name] as readonly number[])[place]!,
    ]),
    12,
    "",
  ),
  inside(
    "997 Hz at 0 dBFS in one channel (-3.01)",
    `${ITU} (restatement), within 0.1`,
    [44_100, 48_000, 96_000, 192_000].map((rate) => ({
      name: `${rate} Hz`,
      least: -3.11,
      most: -2.91,
      computed: loudnessOf([[[0], 5]], 997, rate).integrated!,
    })),
    3,
    "LUFS",
  ),
  inside(
    "programme loudness, cases 1 to 6 (-23, case 2 -33)",
    `${EBU} (results: restatements; signals of cases 3 to 6 from memory), within 0.1`,
    PROGRAMMES_3341.flatMap(({ name, passages, integrated, steady }) => {
      const found = loudnessOf(passages, 1000);
      const limits = { least: integrated - 0.1, most: integrated + 0.1 };
      const place = (what: string, computed: number | null): { name: string; computed: number } & typeof limits => ({
        name: `${name}, ${what}`,
        ...limits,
        computed: computed ?? Infinity,
      });
      return [
        place("integrated", found.integrated),
        ...(steady ? [place("momentary", found.mostMomentary), place("short-term", found.mostShortTerm)] : []),
      ];
    }),
    3,
    "LUFS",
  ),
  inside(
    "true peak, cases 15 to 19 (-6, case 19 +3)",
    `${EBU} (from memory), +0.2/-0.4`,
    PEAKS_3341.map((peak) => ({
      name: peak.name,
      least: peak.dbtp - 0.4,
      most: peak.dbtp + 0.2,
      computed: truePeakOf(peak),
    })),
    3,
    "dBTP",
  ),
];
