import { demoStudio } from "./demo-studio.js";
import type { Point, ShoeboxRoom } from "./room/room-path.js";
import type { Scenario } from "./scenario.js";

/** Tuned absorbers on the side walls: they take what goes to and fro between them, and little above 125 Hz. */
function treated(room: ShoeboxRoom): ShoeboxRoom {
  const side = room.absorption.left.map((share, octave) => [0.46, 0.72][octave] ?? share) as [
    ...typeof room.absorption.left,
  ];
  return { ...room, absorption: { ...room.absorption, left: side, right: side } };
}

function withoutDesk(pair: Scenario["pairs"][number]): Scenario["pairs"][number] {
  const { id, role, name, placement, monitors, directivity } = pair;
  return { id, role, name, placement, monitors, directivity };
}

/** How the microphone was put back: a few millimetres beside its marks, each time elsewhere. Invented. */
const OFF_MARK_M: readonly Point[] = [
  [0.004, -0.006, 0.003],
  [-0.005, 0.003, 0.006],
  [0.002, 0.007, -0.004],
];

/** Less than before: the three places that a verdict on tone needs. */
const PLACES = ["mix", "left", "right"] as const;

/**
 * The demo's studio five weeks later: tuned absorbers on the side walls, and no desk between nearfields and listener. The
 * loudspeakers stand and are set as before, the nearfields for a desk that is no longer there. As invented as the studio itself.
 */
export const demoStudioAfter: Scenario = {
  ...demoStudio,
  about: {
    ...demoStudio.about,
    title: "Demo: the control room of Heron Yard, treated",
    date: "2026-06-18",
    notes: "Tuned absorbers on both side walls; the desk moved out of the nearfields' way. Simulated.",
  },
  room: treated(demoStudio.room),
  pairs: demoStudio.pairs.map(withoutDesk),
  panels: [],
  positions: PLACES.flatMap((id, n) => {
    const place = demoStudio.positions.find((one) => one.id === id);
    const off = OFF_MARK_M[n]!;
    return place
      ? [{ ...place, statedM: place.xyzM, xyzM: place.xyzM.map((metres, axis) => metres + off[axis]!) as [...Point] }]
      : [];
  }),
  recorder: { ...demoStudio.recorder, leadsS: [0.36, 0.52, 0.28, 0.44] },
  seed: demoStudio.seed + 1000,
};
