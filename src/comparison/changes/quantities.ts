import type { Changes } from "../../schema/changes.js";
import { clarity } from "./quantities/clarity.js";
import { decay } from "./quantities/decay.js";
import { doubleSlopes } from "./quantities/double-slopes.js";
import { extension } from "./quantities/extension.js";
import { flutter } from "./quantities/flutter.js";
import { leftRight } from "./quantities/left-right.js";
import { modes } from "./quantities/modes.js";
import { noise } from "./quantities/noise.js";
import { overallLevel } from "./quantities/overall-level.js";
import { reflections } from "./quantities/reflections.js";
import { roomMeans } from "./quantities/room-means.js";
import { targetDeviation } from "./quantities/target-deviation.js";
import { thirdOctaveLevel } from "./quantities/third-octave-level.js";
import type { MeasurementPair, MonitorPair, Quantity } from "./reading.js";

/** Everything that is compared, in the order in which it stands; a new quantity is one file and one line here. */

export const OF_MEASUREMENTS: readonly Quantity<MeasurementPair>[] = [
  thirdOctaveLevel,
  overallLevel,
  decay,
  modes,
  clarity,
  reflections,
];

export const OF_MONITORS: readonly Quantity<MonitorPair>[] = [
  targetDeviation,
  extension,
  leftRight,
  noise,
  roomMeans,
  flutter,
  doubleSlopes,
];

/** The just noticeable differences that stand behind the verdicts. */
export function justNoticeableList(): Changes["justNoticeable"] {
  return [...OF_MEASUREMENTS, ...OF_MONITORS].flatMap(({ justNoticeable }) =>
    Object.entries(justNoticeable).map(([quantity, one]) => ({ quantity, ...one })),
  );
}
