import { expect, it } from "vitest";
import {
  bandFilter,
  filterFrequency,
  filterPower,
  filterResponse,
  prototypeFrequency,
} from "../../src/dsp/band-filter.js";
import { bandEdges, classOneLimits, limitBreakpoints, OCTAVES, THIRD_OCTAVES } from "../../src/standards/iec61260.js";

const attenuationDb = (band: (typeof OCTAVES)[number], ratio: number): number =>
  -10 * Math.log10(filterPower(bandFilter(band), ratio * band.exactHz));

for (const [name, bands] of [
  ["octave", OCTAVES],
  ["third-octave", THIRD_OCTAVES],
] as const) {
  it(`every ${name} filter keeps the class 1 limits at every tabled point, below and above midband`, () => {
    for (const band of bands) {
      const { passband, stopband } = limitBreakpoints(band.fraction);
      for (const ratio of [...passband, ...stopband]) {
        for (const place of [ratio, 1 / ratio]) {
          const { leastDb, mostDb } = classOneLimits(band.fraction, place);
          expect(attenuationDb(band, place)).toBeGreaterThanOrEqual(leastDb);
          expect(attenuationDb(band, place)).toBeLessThanOrEqual(mostDb);
        }
      }
    }
  });

  it(`every ${name} filter keeps the class 1 limits between the tabled points`, () => {
    for (const band of bands) {
      for (let octave = -6; octave <= 6; octave += 0.001) {
        const { leastDb, mostDb } = classOneLimits(band.fraction, 2 ** octave);
        const found = attenuationDb(band, 2 ** octave);
        if (found < leastDb || found > mostDb) expect.fail(`${band.nominalHz} Hz at ${2 ** octave}: ${found} dB`);
      }
    }
  });
}

it("the filter is 3 dB down at both band edges and passes the midband untouched", () => {
  for (const band of [...OCTAVES, ...THIRD_OCTAVES]) {
    const filter = bandFilter(band);
    expect(filterPower(filter, band.exactHz)).toBe(1);
    // A few roundings of eps, times the slope of 3 at the edge.
    for (const edge of bandEdges(band)) expect(filterPower(filter, edge)).toBeCloseTo(0.5, 12);
  }
});

it("the complex response has the stated magnitude and the phase lag of a causal filter", () => {
  const filter = bandFilter(OCTAVES[5]!);
  let before = Math.PI;
  for (let frequencyHz = 700; frequencyHz < 1500; frequencyHz += 10) {
    const { re, im } = filterResponse(filter, frequencyHz);
    // A few roundings of eps.
    expect(re * re + im * im).toBeCloseTo(filterPower(filter, frequencyHz), 14);
    let phase = Math.atan2(im, re);
    while (phase > before) phase -= 2 * Math.PI;
    expect(before - phase).toBeLessThan(Math.PI);
    before = phase;
  }
  // Three poles turn the phase by -3/4 pi from +3/4 pi at the lower edge to the upper one.
  expect(
    Math.atan2(
      filterResponse(filter, bandEdges(OCTAVES[5]!)[1]).im,
      filterResponse(filter, bandEdges(OCTAVES[5]!)[1]).re,
    ),
  ).toBeCloseTo((-3 * Math.PI) / 4, 12);
});

it("frequency and prototype frequency are each other's inverse, far below midband too", () => {
  const filter = bandFilter(THIRD_OCTAVES[0]!);
  // Relative roundings only: the small root is not a difference.
  for (const omega of [-1000, -1, 0, 1, 1000]) {
    expect(prototypeFrequency(filter, filterFrequency(filter, omega)) - omega).toBeCloseTo(0, 9);
  }
});
