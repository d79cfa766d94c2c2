import { matchDips } from "../comparison/boundaries/match-dips.js";
import { measuredDips } from "../comparison/boundaries/measured-dips.js";
import { detourDoubt, statedPlaces } from "../comparison/surfaces/placement-doubt.js";
import { boundaryDips, type DipMove, keepsToEars, moveForShift } from "../geometry/boundary-dips.js";
import { canMoveTo } from "../geometry/clearance.js";
import type { MirrorPath } from "../geometry/mirror-paths.js";
import type { Point } from "../geometry/point.js";
import { FACES, heightOver, type Surface } from "../geometry/surfaces.js";
import type { Measurement, SurfaceDips } from "../model.js";
import { MOST_OFF_EARS_DEG } from "../standards/ear-height.js";

/** Under it modes rule, above it reflections come too many to be told one by one: choices of ours. */
const RANGE_HZ = [30, 500] as const;
/** A dip that could not be this deep is nobody's trouble, and from the third on a surface's dips drown in the others': choices of ours. */
const LEAST_DB = 6;
const MOST_ORDER = 2;
/** A third of an octave takes a dip out of what it spoilt. */
const SHIFT = 2 ** (1 / 3);
/** The other side has a dip as well when it lies within a twelfth of an octave. */
const ALIKE = 2 ** (1 / 12);

interface Stated {
  /** Faces and panels that are known. */
  readonly all: readonly Surface[];
  readonly soundSpeedMPerS: number;
  readonly placementM: number;
}

/**
 * Dips that the surfaces' first reflections predict at one place, beside those measured there.
 *
 * A fit is a hint, not a cause: of 91 dips of 6 dB and more that fitted in 60 simulated rooms (walls that absorb 0.3 to 0.7), taking the
 * surface's reflections away halved 41, and so did any surface's in 4 of 10. Where one wall reflects and the others do not, all fits
 * hold. Only moving the loudspeaker and measuring again decides.
 */
export function surfaceDips(
  measurement: Measurement,
  otherSide: Measurement | null,
  paths: readonly MirrorPath[],
  places: { readonly sourceM: Point; readonly receiverM: Point },
  { all, soundSpeedMPerS, placementM }: Stated,
): SurfaceDips {
  const detourShare = (path: MirrorPath): number =>
    detourDoubt(statedPlaces(placementM), path).uncertaintyM / path.detourM;
  const predicted = paths
    // What stands in the way of a reflection weakens it by nobody knows how much: bass goes around a desk in part.
    .filter(({ surfaces, insideM, blockedBy }) => surfaces.length === 1 && insideM >= 0 && blockedBy.length === 0)
    .flatMap((path) => {
      const share = detourShare(path);
      return boundaryDips(path, soundSpeedMPerS, RANGE_HZ[1])
        .filter(
          ({ frequencyHz, mostDb, order }) => frequencyHz >= RANGE_HZ[0] && mostDb >= LEAST_DB && order <= MOST_ORDER,
        )
        .map((dip) => ({ ...dip, path, surface: path.surfaces[0]!.id, share }));
    })
    .sort((a, b) => a.frequencyHz - b.frequencyHz);
  const dips = measuredDips(measurement.response, RANGE_HZ);
  const others = otherSide && measuredDips(otherSide.response, [RANGE_HZ[0] / ALIKE, RANGE_HZ[1] * ALIKE]);
  const unknown = FACES.length - all.filter(({ kind }) => kind === "face").length;
  const mayStand = (at: Point): boolean =>
    canMoveTo(at, places.sourceM, all) && keepsToEars(places.sourceM, at, places.receiverM, MOST_OFF_EARS_DEG);
  const movesOf = (index: number | undefined): SurfaceDips["measured"][number]["moves"] => {
    const dip = index === undefined ? undefined : predicted[index];
    if (!dip) return [];
    const [surface] = dip.path.surfaces;
    const { towards, away } = moveForShift(
      places.sourceM,
      places.receiverM,
      surface!,
      dip.frequencyHz,
      SHIFT,
      mayStand,
    );
    const moves = [towards, away].filter((move): move is DipMove => move !== null);
    const upShare = surface!.normal[2] * Math.sign(heightOver(surface!, places.sourceM));
    return moves.map(({ awayM, toHz, path }) => ({
      ...{ surface: dip.surface, awayM, upM: upShare * awayM, toHz },
      toUncertaintyHz: detourShare(path) * toHz,
    }));
  };
  return {
    rangeHz: [...RANGE_HZ],
    predicted: predicted.map(({ surface, order, frequencyHz, share, mostDb }) => ({
      ...{ surface, order, frequencyHz, frequencyUncertaintyHz: share * frequencyHz, mostDb },
    })),
    measured: matchDips(dips, predicted, RANGE_HZ, MOST_ORDER * unknown).map(({ dip, fitting, byChance }) => ({
      ...dip,
      otherSide:
        others &&
        others.some(({ frequencyHz }) => Math.abs(Math.log(frequencyHz / dip.frequencyHz)) <= Math.log(ALIKE)),
      fitting: [...fitting],
      byChance,
      moves: movesOf(fitting[0]),
    })),
  };
}
