import { expect, it } from "vitest";
import type { Said } from "../../src/schema/changes.js";
import { countedOnce } from "../../src/schema/counted-once.js";

const said = (quantity: string, monitor: string | null, topic: Said["topic"] = "better"): Said => ({
  ...{ topic, monitor, message: "", remedy: null, figures: null, size: null, quantity },
});

it("A gain of the trust map counts once with the change of tone or decay that it is made of, and by itself where none is told", () => {
  const all = [
    said("trust", "mains"),
    said("targetDb", "mains"),
    said("trust", "nears"),
    said("targetDb", "nears", "worse"),
  ];
  expect(countedOnce(all, "better")).toEqual([all[1], all[2]]);
  expect(countedOnce(all, "worse")).toEqual([all[3]]);
  // A mode is told of all monitors at once.
  expect(countedOnce([said("trust", "mains"), said("modeT60S", null)], "better")).toHaveLength(1);
});
