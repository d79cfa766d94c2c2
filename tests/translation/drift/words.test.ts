import { describe, expect, it } from "vitest";

import { REGIONS } from "../../../src/standards/regions.js";
import type { DriftRegion } from "../../../src/translation/drift/drift-result.js";
import { driftWords } from "../../../src/translation/drift/words.js";

/** Regions that drift by so much, 0.5 dB to either side; all others stay. */
function regions(driftDb: Readonly<Record<string, number>>): DriftRegion[] {
  return REGIONS.map(({ name }) => {
    const value = driftDb[name] ?? 0;
    return {
      ...{
        region: name,
        driftDb: value,
        rangeDb: [value - 0.5, value + 0.5],
        controlled: true,
        reason: null,
        size: null,
      },
      ...{ roomShareDb: value, roomShareRangeDb: null, systemShareDb: 0, systemShareRangeDb: null },
    };
  });
}

const said = (driftDb: Readonly<Record<string, number>>): string | null =>
  driftWords("nears", { id: "mains", kind: "monitor" }, regions(driftDb), null);

describe("A drift in words", () => {
  it("tells the three strongest stretches, from low to high", () => {
    expect(said({ sub: 5, bass: -2, body: 4, bite: -3, air: 6 })).toBe(
      "If you correct by ear, mixes balanced on nears come out 5 to 6 dB heavy from 28 Hz to 56 Hz, " +
        "4 to 5 dB forward from 355 Hz to 710 Hz and 6 to 7 dB bright above 9 kHz on mains.",
    );
    expect(said({ sub: 4, body: -4, air: 4 })!.match(/ dB /g)).toHaveLength(3);
  });

  it("tells neighbours as one that differ by 2 dB at most, and by their joint range", () => {
    expect(said({ sub: 3, "kick weight": 4.9 })).toMatch(/come out 3 to 5 dB heavy from 28 Hz to 90 Hz on mains\.$/);
    expect(said({ sub: 3, "kick weight": 5.1 })).toMatch(
      / heavy from 28 Hz to 56 Hz and .* heavy from 56 Hz to 90 Hz on mains\.$/,
    );
  });

  it("never joins neighbours that drift to opposite sides", () => {
    expect(said({ sub: 1.6, "kick weight": -1.6 })).toMatch(
      / heavy from 28 Hz to 56 Hz and .* thin from 56 Hz to 90 Hz on mains\.$/,
    );
  });

  it("says nothing of less than 1.5 dB, nor where the range has both signs", () => {
    expect(said({ sub: 1.4 })).toBeNull();
    const open = regions({ sub: 3 }).map((one): DriftRegion => ({ ...one, rangeDb: [-1, 4] }));
    expect(driftWords("nears", { id: "mains", kind: "monitor" }, open, null)).toBeNull();
  });
});
