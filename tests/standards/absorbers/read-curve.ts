import { layerImpedance, normalAbsorption } from "../../../src/standards/absorbers/layer-absorption.js";
import type { PorousMaterial } from "../../../src/standards/absorbers/porous-material.js";

/**
 * Absorption at normal incidence of 25 mm of a fibrous material, read off a picture by Youngbin Lim, "Calibrate flow
 * resistivity from absorption coefficient" (Test_Data.txt of that public repository, in steps of 1/520; the picture's own
 * origin is not stated there).
 */
export const READ_CURVE: readonly (readonly [frequencyHz: number, absorption: number])[] = [
  ...([
    [341.7, 0.0865],
    [380.4, 0.1019],
    [425.6, 0.1192],
    [483.2, 0.1385],
    [554.0, 0.1615],
    [647.6, 0.1904],
  ] as const),
  ...([
    [746.1, 0.2269],
    [863.8, 0.2673],
    [1009.8, 0.3077],
    [1140.9, 0.3462],
    [1308.0, 0.3904],
  ] as const),
  ...([
    [1463.4, 0.4346],
    [1685.9, 0.4885],
    [1932.8, 0.5404],
    [2131.0, 0.5846],
    [2443.1, 0.6462],
  ] as const),
  ...([
    [2828.4, 0.7],
    [3355.4, 0.7538],
    [4000, 0.7923],
    [4768.5, 0.8058],
    [5629.3, 0.8038],
  ] as const),
  ...([
    [6391.1, 0.7942],
    [6978.0, 0.7865],
    [7693.6, 0.7942],
  ] as const),
];

type Model = (frequencyHz: number, resistivity: number) => PorousMaterial;

/** What a model gives at the curve's frequencies. */
export function along(model: Model, resistivity: number): number[] {
  return READ_CURVE.map(([hz]) => normalAbsorption(layerImpedance(model(hz, resistivity), hz, 0.025)));
}

/** The largest miss of a model from the curve as read, with the flow resistivity that suits it best: the only free figure. */
export function bestFit(model: Model): { resistivity: number; miss: number } {
  const missAt = (resistivity: number): number =>
    Math.max(...along(model, resistivity).map((computed, n) => Math.abs(computed - READ_CURVE[n]![1])));
  const tried = Array.from({ length: 900 }, (_, n) => 1000 + 10 * n).map((resistivity) => ({
    resistivity,
    miss: missAt(resistivity),
  }));
  return tried.reduce((a, b) => (b.miss < a.miss ? b : a));
}
