import { unlikenessDb } from "../../impulse/unlikeness.js";
import type { Finding, Session } from "../../model.js";
import * as findings from "../findings.js";
import { filesOf, type Sides } from "./sides.js";

/**
 * Two places in a room agree less than this. Measured: -11 dB between two ears in front of a loudspeaker of a standard listening
 * room; simulated with loudspeakers 5 mm off their plan: -17 to -37 dB. Two sweeps by the same loudspeakers: -61 dB with white
 * noise 45 dB under the sweep, -47 dB with 30.
 */
const SAME_DB = -43;
/** Such a device may have one loudspeaker only, which plays both channels. */
const SINGLE_BOXES: readonly Session["monitors"][number]["role"][] = ["check", "phone", "other"];

/** Pairs of which left and right are the same sound: both loudspeakers played at once, or one played twice. */
export function bothSpeakers(session: Session, pairs: readonly Sides[]): Finding[] {
  return session.monitors.flatMap(({ id, role }) => {
    const same = pairs.flatMap((pair) => {
      if (pair.monitor !== id) return [];
      const differenceDb = unlikenessDb(pair.left.impulse, pair.right.impulse);
      return differenceDb !== null && differenceDb < SAME_DB ? [{ ...pair, differenceDb }] : [];
    });
    if (same.length === 0) return [];
    const leastLike = Math.max(...same.map(({ differenceDb }) => differenceDb));
    const files = filesOf(same.flatMap(({ left, right }) => [left, right]));
    const severity = SINGLE_BOXES.includes(role) ? "info" : "warning";
    return [findings.bothSpeakers(severity, id, leastLike, SAME_DB, files)];
  });
}
