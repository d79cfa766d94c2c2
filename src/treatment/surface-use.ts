import type { Results } from "../model.js";

/** What else a surface is for decides what can be put on it. */
export type SurfaceUse = "floor" | "top" | "plain";

/** A panel is level when its normal is within 25 degrees of upright: a choice of ours. */
const LEVEL = Math.cos((25 * Math.PI) / 180);
/** Ears of one who sits, where no mix position is stated: common practice, no source. */
const EARS_M = 1.2;

/** A floor is walked on, and a level panel under the ears is a top that somebody works at. */
export function surfaceUse(surface: string, { session }: Results): SurfaceUse {
  if (surface === "floor") return "floor";
  const panel = session.panels?.find(({ id }) => id === surface);
  if (!panel) return "plain";
  const earsM = session.positions.find(({ kind }) => kind === "mix")?.xyzM?.[2] ?? EARS_M;
  const upright = Math.abs(panel.normal[2]) / Math.hypot(...panel.normal);
  return upright >= LEVEL && panel.centreM[2] < earsM ? "top" : "plain";
}
