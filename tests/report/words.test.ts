import { describe, expect, it } from "vitest";

import { plotText } from "../../src/report/figures/plot-text.js";
import { decibelRange, differenceRange, positiveRange } from "../../src/report/figures/range.js";
import { spread } from "../../src/report/figures/spread.js";
import { limitQuantity, quantity } from "../../src/words/quantity.js";
import { thirdOctaves, valueAt } from "../../src/report/words/curves.js";
import { fixed, held, hertz, significant, signed, withUncertainty } from "../../src/words/numbers.js";

describe("numbers for people", () => {
  it("round half a unit of the last place and never show a negative zero", () => {
    expect([fixed(-6.14, 1), fixed(-0.04, 1), signed(0.04, 1), signed(0.06, 1)]).toEqual([
      "−6.1",
      "0.0",
      "0.0",
      "+0.1",
    ]);
  });

  it("say frequencies as the trade does", () => {
    expect([22.4, 31.5, 999, 1000, 17_800].map(hertz)).toEqual(["22.4 Hz", "31.5 Hz", "999 Hz", "1 kHz", "17.8 kHz"]);
  });

  it("say that a value is not known instead of giving one", () => {
    expect([fixed(null, 1), signed(null, 1), hertz(null), withUncertainty(null, 0.1, 1)]).toEqual(
      Array.from({ length: 4 }, () => "not known"),
    );
  });

  it("give twice the standard uncertainty beside the value", () => {
    expect(withUncertainty(12, 1.5, 0)).toBe("12 ± 3");
    expect(withUncertainty(6.4, 0.0001, 1)).toBe("6.4 ± under 0.1");
  });

  it("keep two figures of a small percentage", () => {
    expect([significant(0.0876, 2), significant(1.29, 2), significant(12.3, 2), significant(0, 2)]).toEqual([
      "0.088",
      "1.3",
      "12",
      "0",
    ]);
  });

  it("stay on one line with their units", () => {
    expect(held("up to 500 Hz, 81.4 m³, 15 ± 2 µs, 3 takes")).toBe(
      "up to 500\u00a0Hz, 81.4\u00a0m³, 15\u00a0±\u00a02\u00a0µs, 3 takes",
    );
  });
});

describe("reading a curve", () => {
  it("finds third-octave midbands on their exact base-ten frequencies", () => {
    expect(thirdOctaves.map(({ nominalHz, exactHz }) => Math.abs(Math.log2(exactHz / nominalHz)) < 0.02)).not.toContain(
      false,
    );
    expect(thirdOctaves.find(({ nominalHz }) => nominalHz === 1000)!.exactHz).toBe(1000);
  });

  it("takes the nearest point and nothing where the curve has none near", () => {
    expect(valueAt([99, 100.5, 200], [1, 2, 3], 100)).toBe(2);
    expect(valueAt([50, 200], [1, 3], 100)).toBeNull();
  });
});

describe("axes", () => {
  it("hold the highest level and cut off only what lies deep", () => {
    expect(decibelRange([-12, -18, -150])).toEqual({ range: [-70, -10], step: 10 });
    expect(decibelRange([null])).toEqual({ range: [-30, 0], step: 10 });
  });

  it("put zero in the middle of a difference and at the foot of a duration", () => {
    expect(differenceRange([-6.2, 3])).toEqual({ range: [-10, 10], step: 5 });
    expect(positiveRange([0.41, 0.2])).toEqual({ range: [0, 0.6], step: 0.2 });
  });
});

describe("names beside lines", () => {
  it("move apart until they can be read, in order and inside the plot", () => {
    expect(spread([5, 5, 5], 2, [0, 10])).toEqual([5, 7, 9]);
    expect(spread([9.5, 10], 2, [0, 10])).toEqual([8, 10]);
  });

  it("cannot bring markup or a template of the plot library with them", () => {
    expect(plotText("<b>A & B</b> $x$ %{x}")).toBe("&lt;b&gt;A &amp; B&lt;/b&gt; &#36;x&#36; %\u200b{x}");
  });
});

describe("figures of findings", () => {
  it("are said in the size that people use, value and uncertainty alike", () => {
    expect([
      quantity(0.0009, 0.0001, "s", 0.0009),
      quantity(0.62, 0.06, "s", 0.62),
      quantity(-22e-6, 2e-6, "s", -22e-6),
      quantity(-9.4, 0.01, "dB", -9.4),
      quantity(27.9, null, "Hz", 27.9),
      quantity(1.234, null, "%", 1.234),
    ]).toEqual(["0.9 ± 0.1 ms", "0.62 ± 0.06 s", "−22 ± 2 µs", "−9.4 ± under 0.1 dB", "27.9 Hz", "1.2 %"]);
  });

  it("state a limit without decimals that nobody gave it", () => {
    expect([limitQuantity(-10, "dB", -9.4), limitQuantity(0.75, "dB", 2), limitQuantity(0.015, "s", 0.004)]).toEqual([
      "−10 dB",
      "0.75 dB",
      "15 ms",
    ]);
  });
});
