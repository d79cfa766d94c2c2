import { expect, it } from "vitest";
import { quantity } from "../../src/words/quantity.js";

it("A frequency and its uncertainty have the same decimals, those of two figures of the uncertainty", () => {
  expect(quantity(11.04, 0.268, "Hz", 11.04)).toBe("11.04 ± 0.27 Hz");
  expect(quantity(0.0475, 0.386, "Hz", 0.386)).toBe("0.05 ± 0.39 Hz");
  expect(quantity(30.3, 12.4, "Hz", 30.3)).toBe("30 ± 12 Hz");
  expect(quantity(7.28, null, "Hz", 11)).toBe("7.28 Hz");
});
