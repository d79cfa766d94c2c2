import { describe, expect, it } from "vitest";
import { independentPlaces, placesOf } from "../../../src/comparison/positions/places.js";
import { knownMeasurement } from "../known-measurement.js";

type Point = [number, number, number];

describe("places in a room", () => {
  const head = (["mix", "near", "near"] as const).map((kind, n) => ({
    id: `p${n}`,
    kind,
    xyzM: [2.4, 2.3 + 0.15 * n, 1.2] as Point,
  }));

  it("are independent from half a wavelength apart on", () => {
    // 343 / 2f: 0.15 m at 1143 Hz, 0.3 m at 572 Hz.
    expect(independentPlaces(head, 100)).toBe(1);
    expect(independentPlaces(head, 571)).toBe(1);
    expect(independentPlaces(head, 573)).toBe(2);
    expect(independentPlaces(head, 1142)).toBe(2);
    expect(independentPlaces(head, 1145)).toBe(3);
  });

  it("whose distance nobody stated are one within a head's reach, and each its own across the room", () => {
    const unknown = [
      { id: "mix", kind: "mix" as const },
      { id: "left", kind: "near" as const },
      { id: "sofa", kind: "room" as const },
      { id: "door", kind: "room" as const },
    ];
    expect(independentPlaces(unknown, 50)).toBe(3);
    expect(independentPlaces(unknown, 8000)).toBe(3);
    expect(independentPlaces(unknown.slice(0, 2), 8000)).toBe(1);
  });

  it("count only where every channel of a monitor was measured", () => {
    const own = (["L@p0", "R@p0", "L@p1", "L@p2", "R@p2"] as const).map((id) =>
      knownMeasurement({ id, channel: id[0] as "L" | "R", position: id.slice(2) }),
    );
    const places = placesOf(own, head);
    expect(places.map(({ position, channels }) => [position.id, channels.length])).toEqual([
      ["p0", 2],
      ["p2", 2],
    ]);
    expect(placesOf([], head)).toEqual([]);
  });
});
