import type { ChangedQuantity, Said } from "../../schema/changes.js";
import { hertz, listed } from "../../words/numbers.js";
import type { MonitorChanges } from "./tell.js";

const GRADES = ["blind", "care", "believe"] as const;
const COUNTS = ["no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten"] as const;

/** What the trust map gains and loses, and that it is the same elsewhere. */
export function tellTrust({ subject, monitor, own }: MonitorChanges): Said[] {
  const bands = own.filter(({ quantity }) => quantity === "trust");
  const said = (["better", "worse"] as const).flatMap((topic): Said[] => {
    const turned = bands.filter(({ verdict }) => verdict === topic);
    if (turned.length === 0) return [];
    const what = topic === "better" ? "gains" : "loses";
    const message = `${subject}: the trust map ${what} ${bandCount(turned.length)}: ${listed(turned.map(turnWords))}`;
    return [{ topic, monitor, message, remedy: null, figures: null, size: null, quantity: "trust" }];
  });
  const same = bands.filter(({ change }) => change === "none").length;
  if (bands.length === 0 || same === 0) return said;
  const where =
    same === bands.length ? `all ${String(same)} bands` : `${String(same)} of ${String(bands.length)} bands`;
  const message = `${subject}: the trust map is the same in ${where}`;
  return [...said, { topic: "same", monitor, message, remedy: null, figures: null, size: null, quantity: "trust" }];
}

function bandCount(count: number): string {
  const number = COUNTS[count] ?? String(count);
  return count === 1 ? "one band" : `${number} bands`;
}

function turnWords({ bandHz, before, after }: ChangedQuantity): string {
  return `${hertz(bandHz)} (${GRADES[before!]!} to ${GRADES[after!]!})`;
}
