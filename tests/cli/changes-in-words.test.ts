import { expect, it } from "vitest";
import { changesInWords } from "../../src/cli/compare.js";
import type { Changes, Said } from "../../src/schema/changes.js";

it("A difference stands on the console with its uncertainty and with what was needed to call it real", () => {
  const said: Said = {
    ...{ topic: "better", monitor: "mains", message: "mains: the decay is shorter at 125 Hz", remedy: null },
    ...{ figures: "−0.06 ± 0.02 s; 0.04 s are enough", size: 3, quantity: "t30S" },
  };
  const changes = { says: [said], unpaired: [] } as unknown as Changes;
  expect(
    changesInWords(changes, (text) => text)
      .split("\n")
      .slice(0, 3),
  ).toEqual(["Better", "  Mains: the decay is shorter at 125 Hz.", "    (−0.06 ± 0.02 s; 0.04 s are enough)"]);
});
