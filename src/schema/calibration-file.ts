import type { Session } from "./session.js";

type Microphone = Pick<NonNullable<Session["microphone"]>, "calibration" | "calibrations" | "orientationDeg">;

/** A stated angle picks a table within so many degrees. A choice of ours. */
const SAME_ANGLE_DEG = 5;

/** The microphone's table in use: the only one, or the one for its orientation; null where there is none for it. */
export function calibrationFile(microphone: Microphone | undefined): string | null {
  const { calibration, calibrations = [], orientationDeg } = microphone ?? {};
  if (calibration !== undefined) return calibration;
  const [first, ...others] = calibrations;
  if (first && others.length === 0 && orientationDeg === undefined) return first.file;
  const picked = calibrations.find(
    (one) => Math.abs(one.orientationDeg - (orientationDeg ?? Infinity)) <= SAME_ANGLE_DEG,
  );
  return picked?.file ?? null;
}
