import { describe, expect, it } from "vitest";
import {
  BS1116_RESPONSE,
  CHANNEL_DELAY,
  EARLY_REFLECTIONS,
  LEFT_RIGHT_MATCH,
  nominalMeanTime,
  BACKGROUND_RATING,
  RESPONSE_REFERENCE_HZ,
  REVERBERATION,
  reverberationMask,
} from "../../src/standards/bs1116.js";
import { EBU3276_RESPONSE } from "../../src/standards/ebu3276.js";
import { limitsAt, type MaskSegment } from "../../src/standards/limit-mask.js";
import { isAdvisory, type LimitOrigin } from "../../src/standards/limit-origin.js";
import { referenceTable } from "./reference-table.js";

const table = referenceTable("bs1116-masks");
const rowsOf = (quantity: string): Record<string, string>[] => table!.filter((row) => row.quantity === quantity);
const letters: Record<string, LimitOrigin["confidence"]> = { h: "high", m: "medium", l: "low" };

describe.skipIf(!table)("The room standards' limits (not run where the reference table is absent)", () => {
  /** Origin and confidence as the table marks them. */
  function sameOrigin(limit: LimitOrigin, row: Record<string, string>): void {
    // Notes hold commas inside quotes, but origin and confidence stand in front of them.
    expect([limit.origin, limit.confidence]).toEqual([row.origin!.toLowerCase(), letters[row.confidence!]]);
  }
  const segment = (mask: readonly MaskSegment[], row: Record<string, string>): MaskSegment =>
    mask.find(({ fromHz, toHz }) => fromHz === Number(row.f_low_hz) && toHz === Number(row.f_high_hz))!;

  it("mask the response in the middle, at the corners and at the top as the table says", () => {
    const rows = rowsOf("room_response_re_Lm");
    expect(rows).toHaveLength(3);
    for (const mask of [BS1116_RESPONSE, EBU3276_RESPONSE]) {
      expect(mask).toHaveLength(3);
      for (const row of rows) {
        const own = segment(mask, row);
        sameOrigin(own, row);
        expect(own.upper).toEqual([Number(row.upper), Number(row.upper)]);
        expect(isAdvisory(own)).toBe(true);
      }
    }
    const [middle, top, bottom] = rows as [Record<string, string>, Record<string, string>, Record<string, string>];
    expect(segment(BS1116_RESPONSE, middle).lower).toEqual([Number(middle.lower), Number(middle.lower)]);
    expect(segment(EBU3276_RESPONSE, middle)).toBe(segment(BS1116_RESPONSE, middle));
    const [, atStart, ebu, itu] =
      /^"?(-[\d.]+) at 2 kHz widening to about (-[\d.]+) \(EBU\) \.\.\. (-[\d.]+) \(ITU\)/.exec(top.lower!)!;
    expect(segment(EBU3276_RESPONSE, top).lower).toEqual([Number(atStart), Number(ebu)]);
    expect(segment(BS1116_RESPONSE, top).lower).toEqual([Number(atStart), Number(itu)]);
    expect(bottom.lower).toMatch(/EBU -3; ITU lower limit relaxes/);
    expect(segment(EBU3276_RESPONSE, bottom).lower).toEqual([-3, -3]);
    expect(segment(BS1116_RESPONSE, bottom).lower).toBeNull();
  });

  it("take the mean over the quoted range, and call it disputed as the table does", () => {
    const [row] = rowsOf("room_response_reference_Lm");
    expect([Number(row!.f_low_hz), Number(row!.f_high_hz)]).toEqual([...RESPONSE_REFERENCE_HZ]);
  });

  it("mask the reverberation time around Tm", () => {
    const [middle, top] = rowsOf("T_minus_Tm") as [Record<string, string>, Record<string, string>];
    for (const row of [middle, top]) {
      const own = segment(REVERBERATION, row);
      sameOrigin(own, row);
      expect([own.lower, own.upper]).toEqual([
        [Number(row.lower), Number(row.lower)],
        [Number(row.upper), Number(row.upper)],
      ]);
    }
    // Found, but around which mean it lies could not be read.
    expect(isAdvisory(segment(REVERBERATION, middle))).toBe(true);
    const [bottom] = rowsOf("T_minus_Tm_at_63Hz_sloping_to_200Hz");
    const own = segment(REVERBERATION, bottom!);
    expect(own.lower).toEqual([Number(bottom!.lower), Number(bottom!.lower)]);
    const [, at63] = /\+([\d.]+) at 63 Hz/.exec(bottom!.upper!)!;
    expect(own.upper).toEqual([Number(at63), 0.05]);
  });

  it("limit reflections, left against right, delay and noise as the table says", () => {
    const [reflections] = rowsOf("early_reflection_level_re_direct");
    expect(EARLY_REFLECTIONS.mostDb).toBe(Number(reflections!.upper));
    expect(EARLY_REFLECTIONS.rangeHz).toEqual([Number(reflections!.f_low_hz), Number(reflections!.f_high_hz)]);
    expect(Object.values(reflections!).join(",")).toContain(`${1000 * EARLY_REFLECTIONS.untilS} ms after the direct`);
    const [match] = rowsOf("LR_difference_room_response");
    expect(LEFT_RIGHT_MATCH.mostDb).toBe(Number(match!.upper));
    expect(LEFT_RIGHT_MATCH.rangeHz).toEqual([Number(match!.f_low_hz), Number(match!.f_high_hz)]);
    const [delay] = rowsOf("inter_channel_delay_difference");
    expect(1e6 * CHANNEL_DELAY.mostS).toBeCloseTo(Number(delay!.upper), 9);
    const [noise] = rowsOf("background_noise");
    expect(noise!.upper).toBe(`NR${BACKGROUND_RATING.aim} (not above NR${BACKGROUND_RATING.most})`);
    sameOrigin(EARLY_REFLECTIONS, reflections!);
    sameOrigin(LEFT_RIGHT_MATCH, match!);
    sameOrigin(CHANNEL_DELAY, delay!);
    sameOrigin(BACKGROUND_RATING, noise!);
  });
});

describe("The reverberation mask of a room", () => {
  it("of 100 m3 lies around 0.25 s, wide below, narrow in the middle", () => {
    const { tmS, bands } = reverberationMask(100);
    const at = (hz: number): unknown => bands.find(({ nominalHz }) => nominalHz === hz);
    expect(tmS).toBe(0.25);
    expect(bands.map(({ nominalHz }) => nominalHz)).toEqual([
      ...[63, 80, 100, 125, 160, 200, 250, 315, 400, 500, 630, 800, 1000],
      ...[1250, 1600, 2000, 2500, 3150, 4000, 5000, 6300, 8000],
    ]);
    expect(at(63)).toEqual({ nominalHz: 63, lowerS: 0.2, upperS: 0.55, advisory: true });
    expect(at(200)).toEqual({ nominalHz: 200, lowerS: 0.2, upperS: 0.3, advisory: true });
    expect(at(4000)).toEqual({ nominalHz: 4000, lowerS: 0.2, upperS: 0.3, advisory: true });
    expect(at(8000)).toEqual({ nominalHz: 8000, lowerS: 0.15, upperS: 0.35, advisory: true });
  });

  it("falls from 63 to 200 Hz in equal steps over log frequency", () => {
    const { tmS, bands } = reverberationMask(80);
    for (const { nominalHz, upperS } of bands.filter((band) => band.nominalHz < 200)) {
      const share = Math.log(nominalHz / 63) / Math.log(200 / 63);
      expect(upperS - tmS).toBeCloseTo(0.3 - 0.25 * share, 12);
    }
  });

  it("doubles its mean for eight times the volume, and moves its limits along", () => {
    const small = reverberationMask(40);
    const large = reverberationMask(320);
    // One rounding of a cube root.
    expect(large.tmS / small.tmS).toBeCloseTo(2, 12);
    small.bands.forEach(({ lowerS }, k) => {
      expect(large.bands[k]!.lowerS - lowerS).toBeCloseTo(large.tmS - small.tmS, 12);
    });
  });

  it("does not exist for a room without a volume", () => {
    for (const volumeM3 of [0, -1, Number.NaN]) expect(() => nominalMeanTime(volumeM3)).toThrow(RangeError);
  });
});

describe("A mask", () => {
  const own = { origin: "own", confidence: "high", note: "" } as const;
  const mask: MaskSegment[] = [
    { fromHz: 100, toHz: 1000, lower: null, upper: [1, 3], ...own },
    { fromHz: 1000, toHz: 10_000, lower: [-2, -4], upper: [9, 9], ...own },
  ];
  it("is straight over log frequency, belongs to its first stretch where two meet, and ends", () => {
    expect(limitsAt(mask, 100)).toEqual({ lower: null, upper: 1 });
    expect(limitsAt(mask, 1000)).toEqual({ lower: -2, upper: 3 });
    expect(limitsAt(mask, 10_000)).toEqual({ lower: -4, upper: 9 });
    expect(limitsAt(mask, Math.sqrt(1e5)).upper).toBeCloseTo(2, 12);
    expect(limitsAt(mask, 99.9)).toEqual({ lower: null, upper: null });
  });
});
