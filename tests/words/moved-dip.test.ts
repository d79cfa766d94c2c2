import { expect, it } from "vitest";
import { movedDip } from "../../src/words/moved-dip.js";

it("A dip goes to a frequency and its range, twice the standard uncertainty, or about there where nobody stated one", () => {
  expect(movedDip({ toHz: 150.3, toUncertaintyHz: 2.4 })).toBe("150 ± 5 Hz");
  expect(movedDip({ toHz: 126.3 })).toBe("about 130 Hz");
});
