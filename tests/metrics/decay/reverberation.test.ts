import { expect, it } from "vitest";
import { bandMetrics, type DecayMetrics } from "../../../src/metrics/decay/band-metrics.js";
import { reverberation } from "../../../src/metrics/decay/reverberation.js";
import { bandsWithin } from "../../../src/standards/iec61260.js";
import { impulseOf } from "./reference-responses.js";

const silent = bandMetrics(impulseOf(new Float64Array(100), 48_000), bandsWithin(20, 20_000));

/** Bands whose decay time is what the function says; null where it says so. */
function bandsOf(timesOf: (band: DecayMetrics) => Partial<DecayMetrics>): DecayMetrics[] {
  return silent.map((band) => ({ ...band, ...timesOf(band) }));
}

it("T mid is the mean of the 500 Hz and 1 kHz octaves, Tm of the third octaves from 200 Hz to 4 kHz", () => {
  const found = reverberation(
    bandsOf(({ fraction, nominalHz }) => {
      if (fraction === 1) return { t30S: nominalHz === 500 ? 0.2 : nominalHz === 1000 ? 0.3 : 9 };
      return { t30S: nominalHz < 200 || nominalHz > 4000 ? 9 : nominalHz <= 800 ? 0.2 : 0.4 };
    }),
  );
  // Seven third octaves each at 0.2 and 0.4 s; a few roundings of eps.
  expect(found.tMidS).toBeCloseTo(0.25, 12);
  expect(found.tmS).toBeCloseTo(0.3, 12);
  expect(found.method).toContain("T30");
});

it("T20 stands in where T30 is not to be had, and the method says so", () => {
  const found = reverberation(
    bandsOf(({ nominalHz }) => (nominalHz === 500 ? { t20S: 0.2 } : { t20S: 0.9, t30S: 0.4 })),
  );
  expect(found.tMidS).toBeCloseTo(0.3, 12);
  expect(found.method).toContain("T20 in 1 band");
});

it("the late decay stands in where the direct sound makes a cliff, and nothing does where there is none", () => {
  const cliff = { t30S: 0.1, flags: ["direct-dominated"] };
  const late = reverberation(
    bandsOf(({ nominalHz }) => (nominalHz === 1000 ? { ...cliff, lateS: 0.2 } : { t30S: 0.4 })),
  );
  expect(late.tMidS).toBeCloseTo(0.3, 12);
  expect(late.method).toContain("late decay in 1 band");
  expect(reverberation(bandsOf(({ nominalHz }) => (nominalHz === 1000 ? cliff : { t30S: 0.4 }))).tMidS).toBeNull();
});

it("a band without a decay time leaves the mean unknown, and is named", () => {
  const found = reverberation(
    bandsOf(({ nominalHz }) => (nominalHz === 250 || nominalHz === 1000 ? {} : { t30S: 0.4 })),
  );
  expect(found.tMidS).toBeNull();
  expect(found.tmS).toBeNull();
  expect(found.method).toContain("null, no decay time at 250, 1000 Hz");
});

it("bands that were not swept leave the mean unknown", () => {
  const found = reverberation(bandsOf(() => ({ t30S: 0.4 })).filter(({ nominalHz }) => nominalHz < 1000));
  expect(found.tMidS).toBeNull();
  expect(found.tmS).toBeNull();
  expect(found.method).toContain("not every band was swept");
});
