import { diffuseAbsorption } from "../../src/standards/absorbers/layer-absorption.js";
import { delanyBazley } from "../../src/standards/absorbers/porous-material.js";
import { along, bestFit, READ_CURVE } from "../standards/absorbers/read-curve.js";
import { type Check, equal, inside } from "./check.js";

/** The thickness of a drawn line, in hundredths of the axis. */
const READING = 1;

const computed = along(delanyBazley, bestFit(delanyBazley).resistivity);

export const absorberChecks: readonly Check[] = [
  inside(
    "absorption of 25 mm of fibre, Delany and Bazley's model",
    "curve read off a picture by Y. Lim, Calibrate flow resistivity, within 1 %; resistivity fitted",
    READ_CURVE.map(([hz, read], n) => ({
      name: `${hz} Hz`,
      least: Number((100 * read - READING).toFixed(2)),
      most: Number((100 * read + READING).toFixed(2)),
      computed: 100 * computed[n]!,
    })),
    2,
    "%",
  ),
  equal(
    "most of the sound from all sides that a surface takes",
    "T. E. Vigran, Building Acoustics (2008), below 3.81 (read): at 1.6 of the air's impedance",
    0.95,
    2,
    diffuseAbsorption({ re: 1.6, im: 0 }),
    "",
  ),
];
