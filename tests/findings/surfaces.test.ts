import { describe, expect, it } from "vitest";
import { findFindings } from "../../src/findings/find-findings.js";
import type { DoubleSlopeResult, FlutterResult, Results, SurfaceDips } from "../../src/model.js";
import { codes, quietResults } from "./quiet-results.js";

const train: FlutterResult = {
  ...{ measurement: "mains-L@mix", periodS: 0.0268, distanceM: 4.6, distanceUncertaintyM: 0.02, levelDb: -24 },
  ...{ between: ["side walls"], aboveDb: 15, t60S: 0.7, roundTripDb: 2.3, echoes: 20 },
};
const slope = (nominalHz: number): DoubleSlopeResult => ({
  ...{ nominalHz, measurements: 6, earlyS: 0.3, earlyUncertaintyS: 0.01, lateS: 1, lateUncertaintyS: 0.02 },
  ...{ apartDb: 15, turnS: 0.107, turnDb: -21.4 },
});
const told = (change: Partial<Results>) => findFindings({ ...quietResults(), ...change });

describe("Of the room's surfaces", () => {
  it("nothing is said where nothing was found, nor of results that hold nothing of it", () => {
    expect(codes(told({}), "mend")).toEqual([]);
    expect(codes(told({ flutter: [], doubleSlopes: [] }), "mend")).toEqual([]);
  });

  it("a flutter is told once, whatever many places heard it, with its walls and what to do", () => {
    const found = told({ flutter: [train, { ...train, measurement: "nears-R@mix", levelDb: -30 }] });
    expect(codes(found, "mend")).toEqual(["flutter"]);
    expect(found.find(({ code }) => code === "flutter")).toMatchObject({
      severity: "warning",
      monitors: ["mains", "nears"],
    });
    const { message, remedy } = found.find(({ code }) => code === "flutter")!;
    expect(message).toMatch(/between side walls, 4\.60 ± 0\.04 m apart: one every 26\.8 ms, 24 dB under/);
    expect(remedy).toMatch(/one of the two is enough/);
  });

  it("two trains between other walls are told apart", () => {
    const other = { ...train, distanceM: 2.9, between: ["floor and ceiling" as const] };
    expect(codes(told({ flutter: [train, other] }), "mend")).toEqual(["flutter", "flutter"]);
  });

  it("two slopes are told in words, with an opening as the usual cause", () => {
    const found = told({ doubleSlopes: [slope(1000), slope(2000)] }).find(({ code }) => code === "double-slope")!;
    expect(found.message).toMatch(
      /from 1 kHz to 2 kHz: 0\.30 ± 0\.02 s for 60 dB, and from 21 dB down on 1\.00 ± 0\.04 s/,
    );
    expect(found.remedy).toMatch(/usual cause is an opening to another room, such as an open door/);
    expect(found.rangeHz).toEqual([1000, 2000]);
  });
});

describe("A dip near a predicted one", () => {
  const withDip = (depthDb: number, byChance: number): Results => {
    const results = quietResults();
    const dips: SurfaceDips = {
      rangeHz: [30, 500],
      predicted: [{ surface: "left", order: 1, frequencyHz: 118, frequencyUncertaintyHz: 2, mostDb: 16 }],
      measured: [
        {
          ...{ frequencyHz: 116, depthDb, otherSide: true, fitting: [0], byChance },
          moves: [{ surface: "left", awayM: -0.25, upM: 0, toHz: 150, toUncertaintyHz: 2.4 }],
        },
      ],
    };
    const measurements = [{ id: "mains-L@mix", reason: null, paths: [], directBlockedBy: [], origins: [], dips }];
    return { ...results, surfaces: { placementUncertaintyM: 0.02, measurements, panels: [] } };
  };

  it("is told as a hint, with what moving the loudspeaker would do", () => {
    const found = findFindings(withDip(8, 0.2)).find(({ code }) => code === "boundary-dip")!;
    expect(found.severity).toBe("info");
    expect(found.message).toMatch(
      /Mains \(left\) has a dip of 8 dB at 116 Hz, .* by the left wall .* 118 ± 4 Hz\. .* 20 in 100 dips/,
    );
    expect(found.remedy).toMatch(/25 cm towards that surface \(the dip goes to 150 ± 5 Hz\)/);
  });

  it("is not told when it is shallow, or when any dip would fit", () => {
    expect(codes(findFindings(withDip(5.9, 0.2)), "mend")).toEqual([]);
    expect(codes(findFindings(withDip(8, 0.31)), "mend")).toEqual([]);
  });

  it("is told of both sides, to be moved by the same, where the other shows its mirror image, however sure that is", () => {
    const results = withDip(8, 0.2);
    const other = structuredClone(results.surfaces!.measurements[0]!.dips!);
    other.predicted = [
      { surface: "floor", order: 1, frequencyHz: 115, frequencyUncertaintyHz: 2, mostDb: 12 },
      { surface: "right", order: 1, frequencyHz: 119, frequencyUncertaintyHz: 2, mostDb: 16 },
    ];
    Object.assign(other.measured[0]!, { depthDb: 5, frequencyHz: 117, fitting: [0, 1], byChance: 0.305 });
    const withOther = (dips: SurfaceDips): Results => ({
      ...results,
      surfaces: {
        ...results.surfaces!,
        measurements: [
          ...results.surfaces!.measurements,
          { id: "mains-R@mix", reason: null, paths: [], directBlockedBy: [], origins: [], dips },
        ],
      },
    });
    const pair = findFindings(withOther(other)).filter(({ code }) => code === "boundary-dip");
    expect(pair).toHaveLength(1);
    expect(pair[0]!.channels).toEqual(["L", "R"]);
    expect(pair[0]!.message).toMatch(/left and right.* by the left wall and by the right wall would/);
    expect(pair[0]!.remedy).toMatch(/^move both loudspeakers by the same, each 25 cm towards its surface/);
    expect(pair[0]!.remedy).not.toMatch(/symmetry/);
    // The floor is its own mirror image, and not the left wall's.
    const single = findFindings(withOther({ ...other, measured: [{ ...other.measured[0]!, fitting: [0] }] })).find(
      ({ code }) => code === "boundary-dip",
    )!;
    expect(single.channels).toEqual(["L"]);
    expect(single.remedy).toMatch(/moving one side alone breaks the pair's symmetry/);
  });
});
