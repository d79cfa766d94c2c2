import { describe, expect, it } from "vitest";
import { findArrival } from "../../../src/impulse/arrival.js";
import { arrivalEnvelope } from "../../../src/metrics/reflections/energy-time.js";
import { findReflections } from "../../../src/metrics/reflections/find-reflections.js";
import type { Measurement, Session } from "../../../src/model.js";
import { roomSurfaces } from "../../../src/pipeline/room-surfaces.js";
import { measureResponse } from "../../../src/metrics/response/response.js";
import { sessionSchema } from "../../../src/schema/session.js";
import { demoStudio } from "../../../src/simulate/demo-studio.js";
import { deskReflection } from "../../../src/simulate/room/desk-reflection.js";
import { roomImpulse } from "../../../src/simulate/room.js";
import { describeSession } from "../../../src/simulate/session/describe-session.js";

const RATE = 48_000;
const BEFORE = 0.8 * RATE;
const [mains, nears] = demoStudio.pairs as [(typeof demoStudio.pairs)[0], (typeof demoStudio.pairs)[0]];
const mix = demoStudio.positions[0]!.xyzM;
const { room } = demoStudio;
const stated = sessionSchema.parse({
  ...describeSession(demoStudio, []),
  recordings: [{ file: "one.wav", monitor: "mains", position: "mix" }],
});

function measured(pair: typeof mains): Measurement {
  const xyzM = pair.placement.L;
  const extraPaths = pair.desk ? [deskReflection(xyzM, mix, room, pair.desk)] : [];
  const source = { xyzM, aimM: mix, directivity: pair.directivity };
  const answer = roomImpulse({ room, source, receiverM: mix, extraPaths }, RATE, 0.3);
  const samples = Float64Array.from([...new Float64Array(BEFORE), ...answer]);
  const arrival = findArrival(samples, RATE, [BEFORE, BEFORE + 0.03 * RATE])!;
  const impulse = {
    ...{ samples, sampleRate: RATE, arrivalSample: arrival.lagSamples, polarity: 1 as const },
    ...{ sweptHz: [20, 20_000] as const, noise: null },
  };
  return {
    ...{ id: `${pair.id}-L@mix`, monitor: pair.id, channel: "L", position: "mix", derived: false },
    response: measureResponse(impulse, 0, null).response,
    reflections: findReflections(arrivalEnvelope(impulse), room.soundSpeedMPerS),
  } as Measurement;
}

/** What is named with the greater part of the certainty: surface, detour as heard. */
function named(session: Session, measurement: Measurement): Map<string, number> {
  const [own] = roomSurfaces(session, [measurement], room.soundSpeedMPerS).measurements;
  const sure = own!.origins.filter(({ confidence, surfaces }) => confidence > 0.5 && surfaces.length === 1);
  return new Map(
    sure.map(({ surfaces, reflection }) => [surfaces[0]!, measurement.reflections[reflection]!.pathDifferenceM]),
  );
}

/** By mirrors, written out: the loudspeaker and its image in a plane across an axis. */
function detour(from: readonly number[], axis: number, at: number): number {
  const image = from.map((value, n) => (n === axis ? 2 * at - value : value));
  const way = (a: readonly number[]): number => Math.hypot(...a.map((value, n) => value - mix[n]!));
  return way(image) - way(from);
}

const planes = [
  ["front", 0, 0],
  ["rear", 0, room.sizeM[0]],
  ["left", 1, 0],
  ["right", 1, room.sizeM[1]],
  ["floor", 2, 0],
  ["ceiling", 2, room.sizeM[2]],
] as const;

describe("The demo's studio", () => {
  it.each([
    ["nearfields", nears, [...planes, ["desk", 2, 0.74] as const]],
    ["mains", mains, planes],
  ] as const)(
    "has each surface's reflection of its left %s named, at the detour by which it was simulated",
    (_, pair, all) => {
      const names = named(stated, measured(pair));
      expect([...names.keys()].sort()).toEqual(all.map(([name]) => name).sort());
      for (const [name, axis, at] of all) {
        // Peaks among others are read to some 30 us.
        expect(Math.abs(names.get(name)! - detour(pair.placement.L, axis, at)), name).toBeLessThan(0.015);
      }
    },
  );

  it("without dimensions still has desk and floor named, and nothing that is not known", () => {
    const rest = { ...stated, room: undefined };
    // Front and left wall, 29 dB down, could as well be one of the images that are not listed then.
    expect([...named(rest, measured(nears)).keys()].sort()).toEqual(["desk", "floor"]);
  });

  it("says why nothing is named where no places are stated", () => {
    const bare = { ...stated, monitors: stated.monitors.map(({ id, role }) => ({ id, role })) };
    const [own] = roomSurfaces(bare, [measured(nears)], room.soundSpeedMPerS).measurements;
    expect(own).toEqual({
      id: "nears-L@mix",
      reason: "no-placement",
      paths: [],
      directBlockedBy: [],
      origins: [],
      dips: null,
    });
  });

  it("sends the nearfields' sound by the desk to the seat, and the mains' not", () => {
    const { panels } = roomSurfaces(stated, [], room.soundSpeedMPerS);
    expect(panels.map(({ monitor, channel, reaches }) => `${monitor} ${channel} ${reaches}`)).toEqual([
      ...["mains L false", "mains R false", "nears L true", "nears R true"],
    ]);
  });

  it("has its direct sound blocked by a screen put midway to the seat, and by none beside the way", () => {
    const from = mains.placement.L;
    const middle = from.map((value, axis) => (value + mix[axis]!) / 2) as [number, number, number];
    const blocked = (aside: number): string[] => {
      const centreM: [number, number, number] = [middle[0], middle[1] + aside, middle[2]];
      const panels = [
        { id: "screen", centreM, normal: [1, 0, 0] as [number, number, number], widthM: 0.6, heightM: 0.5 },
      ];
      return roomSurfaces({ ...stated, panels }, [measured(mains)], 343).measurements[0]!.directBlockedBy;
    };
    expect(blocked(0)).toEqual(["screen"]);
    // Past its half breadth of 30 cm.
    expect(blocked(0.4)).toEqual([]);
  });
});
