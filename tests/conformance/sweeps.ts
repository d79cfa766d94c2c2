import { harmonicAdvanceS } from "../../src/impulse/harmonics.js";
import { makeSweepRecipe } from "../../src/sweep/recipe.js";
import { type Check, equal, equalTable } from "./check.js";

const NOVAK = "Novak et al. 2015, from memory (computed)";
const FARINA = "Farina 2000, from memory (computed)";

const ten = makeSweepRecipe({ durationS: 10 });
const five = makeSweepRecipe({ durationS: 5 });

/** Growth constant of 10 s from 20 Hz to 20 kHz, not rounded to whole cycles. */
const UNROUNDED_S = 10 / Math.log(1000);

/** Order and advance of harmonics, s. */
const advances: readonly [number, number][] = [
  [2, 1.00343],
  [3, 1.5904],
  [4, 2.00687],
  [5, 2.3299],
];

export const sweepChecks: readonly Check[] = [
  equal("growth constant, 10 s, 20 Hz to 20 kHz", NOVAK, 1.45, 2, ten.growthS, "s"),
  equal("length made for 10 s", NOVAK, 10.016245, 6, ten.lengthS, "s"),
  equal("growth constant, 5 s", NOVAK, 0.7, 2, five.growthS, "s"),
  equal("length made for 5 s", NOVAK, 4.835429, 6, five.lengthS, "s"),
  equalTable(
    "advance of harmonics, growth constant 1.447648 s",
    FARINA,
    advances.map(([order, advanceS]) => [`order ${order}`, advanceS, harmonicAdvanceS(order, UNROUNDED_S)]),
    5,
    "s",
  ),
];
