import type { ArrivalGrid } from "./arrival-grid.js";
import { mirrorImages } from "./mirror-images.js";
import type { Point, RoomPath } from "./room-path.js";

/** Images weaker than this beside the direct sound, 120 dB under it, are left out band by band. */
const FAINTEST = 1e-6;
/** What the air leaves is looked up in steps of this path: 0.005 dB where it takes most. */
const AIR_STEP_M = 0.1;

/**
 * Puts the direct sound, all its mirror images and the extra paths of a room on a grid of arrivals.
 *
 * @param path - the room, the source, the receiver
 * @param octaves - the octaves' indices for which the grid has a band
 * @param sampleRate - Hz
 * @param length - samples; what arrives later is left out
 * @param grid - is added to
 */
export function collectImages(
  { room, source, receiverM, extraPaths = [] }: RoomPath,
  octaves: readonly number[],
  sampleRate: number,
  length: number,
  grid: ArrivalGrid,
): void {
  const reachM = ((length - 1) / sampleRate) * room.soundSpeedMPerS;
  const samplesPerM = sampleRate / room.soundSpeedMPerS;
  const walls = room.absorption;
  const axes = (
    [
      ["front", "rear"],
      ["left", "right"],
      ["floor", "ceiling"],
    ] as const
  ).map(([near, far], axis) =>
    mirrorImages(
      room.sizeM[axis]!,
      source.xyzM[axis]!,
      receiverM[axis]!,
      octaves.map((octave) => Math.sqrt(1 - walls[near][octave]!)),
      octaves.map((octave) => Math.sqrt(1 - walls[far][octave]!)),
      reachM,
    ),
  );
  const [x, y, z] = axes as [(typeof axes)[0], (typeof axes)[0], (typeof axes)[0]];
  const bands = octaves.length;
  const aim = unitVector(source.xyzM, source.aimM ?? receiverM);
  const beam = octaves.map((octave) => (source.aimM ? (source.directivity?.[octave] ?? 0) : 0));
  const air = airTable(
    octaves.map((octave) => room.airDbPerM?.[octave] ?? 0),
    reachM,
  );
  const plain = beam.every((k) => k === 0);
  const directM = Math.hypot(...([0, 1, 2] as const).map((axis) => source.xyzM[axis] - receiverM[axis]));
  const faintest = FAINTEST / directM;
  const plane = new Float64Array(bands);
  const strengths = new Float64Array(bands);
  // No image from here on, along the axis, is stronger: where even that is too faint, the rest is passed over.
  const [strongestY, strongestZ] = [y, z].map((axis) => strongestFrom(axis.strengths, bands)) as [
    Float64Array,
    Float64Array,
  ];

  for (let i = 0; i < x.offsetM.length; i++) {
    const dx = x.offsetM[i]!;
    let strongestX = 0;
    for (let band = 0; band < bands; band++) strongestX = Math.max(strongestX, x.strengths[i * bands + band]!);
    for (let j = 0; j < y.offsetM.length; j++) {
      const dy = y.offsetM[j]!;
      const planeM2 = dx * dx + dy * dy;
      if (planeM2 > reachM * reachM) break;
      if (strongestX * strongestY[j]! * strongestZ[0]! < faintest * Math.sqrt(planeM2)) break;
      let strongest = 0;
      for (let band = 0; band < bands; band++) {
        plane[band] = x.strengths[i * bands + band]! * y.strengths[j * bands + band]!;
        strongest = Math.max(strongest, plane[band]!);
      }
      if (strongest * strongestZ[0]! < faintest * Math.sqrt(planeM2)) continue;
      for (let k = 0; k < z.offsetM.length; k++) {
        const dz = z.offsetM[k]!;
        const distanceM = Math.sqrt(planeM2 + dz * dz);
        if (distanceM > reachM || strongest * strongestZ[k]! < faintest * distanceM) break;
        // The image sees the receiver at minus the offset; a reversed image's own axis is reversed as well.
        const cosine = plain
          ? 1
          : -(aim[0] * dx * x.facing[i]! + aim[1] * dy * y.facing[j]! + aim[2] * dz * z.facing[k]!) / distanceM;
        const perM = 1 / distanceM;
        const airRow = Math.round(distanceM / AIR_STEP_M) * bands;
        let heard = false;
        for (let band = 0; band < bands; band++) {
          const strength = plane[band]! * z.strengths[k * bands + band]! * perM * air[airRow + band]!;
          strengths[band] = strength < faintest ? 0 : strength * (1 - beam[band]! * (1 - cosine));
          heard ||= strength >= faintest;
        }
        if (heard) grid.add(distanceM * samplesPerM, strengths);
      }
    }
  }
  for (const extra of extraPaths) {
    const atSample = directM * samplesPerM + extra.delayS * sampleRate;
    if (atSample > length - 1) continue;
    grid.add(atSample, strengths.fill((extra.polarity * 10 ** (extra.levelDb / 20)) / directM));
  }
}

/** For each image of an axis the greatest strength, in any band, of it and all images after it. */
function strongestFrom(strengths: Float64Array, bands: number): Float64Array {
  const strongest = new Float64Array(strengths.length / bands);
  let most = 0;
  for (let n = strengths.length - 1; n >= 0; n--) {
    most = Math.max(most, strengths[n]!);
    if (n % bands === 0) strongest[n / bands] = most;
  }
  return strongest;
}

/** Pressure that the air leaves after every step of the path, `bands` numbers for each. */
function airTable(dbPerM: readonly number[], reachM: number): Float64Array {
  const steps = Math.round(reachM / AIR_STEP_M) + 1;
  const table = new Float64Array(steps * dbPerM.length);
  for (let n = 0; n < table.length; n++) {
    const distanceM = Math.floor(n / dbPerM.length) * AIR_STEP_M;
    table[n] = 10 ** ((-dbPerM[n % dbPerM.length]! * distanceM) / 20);
  }
  return table;
}

function unitVector(from: Point, to: Point): Point {
  const difference = [to[0] - from[0], to[1] - from[1], to[2] - from[2]] as const;
  const length = Math.hypot(...difference);
  return [difference[0] / length, difference[1] / length, difference[2] / length];
}
