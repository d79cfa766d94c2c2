import type { Finding } from "../../model.js";

/** Which picture shows what a finding says, by its code; a name that ends in "-" goes on with the monitor's. */
const pictures: Readonly<Record<string, string>> = {
  "low-end-trust": "plot-response",
  "ends-early": "plot-response",
  "believable-range": "plot-target",
  peak: "plot-target",
  dip: "plot-target",
  "polarity-inverted": "plot-left-right-",
  "left-right-level": "plot-left-right-",
  "left-right-arrival": "plot-left-right-",
  "left-right-bands": "plot-left-right-",
  "phantom-dip": "plot-left-right-",
  "early-reflection": "plot-energy-time-",
  "one-sided-reflection": "plot-energy-time-",
  "close-reflection": "plot-energy-time-",
  flutter: "plot-energy-time-",
  "double-slope": "plot-decay",
  "boundary-dip": "plot-response",
  rings: "plot-decay",
  "mode-rings": "plot-ring-map",
  "too-live": "plot-decay",
  dry: "plot-decay",
  "moves-with-head": "plot-positions",
  distortion: "plot-distortion-",
  "background-noise": "plot-background",
};

/** @returns the id of a figure; null where no picture belongs to the finding */
export function findingPicture({ code, monitors, channels }: Finding): string | null {
  const picture = pictures[code];
  if (picture === undefined) return null;
  // Of one monitor against another there is no picture of two sides.
  if (code === "polarity-inverted" && channels.length === 0) return null;
  if (!picture.endsWith("-")) return picture;
  return monitors[0] === undefined ? null : `${picture}${monitors[0]}`;
}
