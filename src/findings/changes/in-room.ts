import type { ChangedQuantity, Said } from "../../schema/changes.js";
import { topicOf } from "./tell.js";

/** What is to be added where means over the places say the same as the mix position. */
export function alsoInRoom(own: readonly ChangedQuantity[], quantity: string, topic: Said["topic"]): string {
  const same = own.some((one) => one.quantity === quantity && one.change === "real" && topicOf(one) === topic);
  return same ? "; over all places as well" : "";
}
