import { expect, it } from "vitest";

import { printable, printableText } from "../../src/words/printable.js";

it("a name keeps its letters and loses what would steer a terminal", () => {
  expect(printable("mains \u00e4\u6f22.wav")).toBe("mains \u00e4\u6f22.wav");
  expect(printable("a\u001b[2Jb\u202ec\nd\u0007")).toBe("a\uFFFD[2Jb\uFFFDc\uFFFDd\uFFFD");
});

it("a text keeps its lines, and colours only where it may have them", () => {
  expect(printableText("one\n\u001b[1mtwo\u001b[22m\n", true)).toBe("one\n\u001b[1mtwo\u001b[22m\n");
  expect(printableText("\u001b[1mtwo\u001b[2J\u001b]0;x\u0007\r\n", true)).toBe(
    "\u001b[1mtwo\uFFFD[2J\uFFFD]0;x\uFFFD\uFFFD\n",
  );
  expect(printableText("\u001b[1mtwo", false)).toBe("\uFFFD[1mtwo");
});
