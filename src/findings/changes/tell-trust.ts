import type { ChangedQuantity, Said } from "../../schema/changes.js";
import { listed } from "../../words/numbers.js";
import { joined, spanWords } from "./runs.js";
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
    const message = `${subject}: the trust map ${what} ${bandCount(turned.length)}: ${turnsWords(turned)}`;
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

/** "1 kHz to 2 kHz and 4 kHz (care to believe); 63 Hz (blind to care)". */
function turnsWords(turned: readonly ChangedQuantity[]): string {
  const ways = new Map<string, number[]>();
  for (const { bandHz, before, after } of turned) {
    const way = `${GRADES[before!]!} to ${GRADES[after!]!}`;
    ways.set(way, [...(ways.get(way) ?? []), bandHz!]);
  }
  return [...ways].map(([way, bands]) => `${listed(joined(bands, 3).map(spanWords))} (${way})`).join("; ");
}
