import { type NamedReflection, nameReflections } from "../comparison/surfaces/name-reflections.js";
import { detourDoubt, statedPlaces } from "../comparison/surfaces/placement-doubt.js";
import { cuts, type MirrorPath, mirrorPaths } from "../geometry/mirror-paths.js";
import { passesBy } from "../geometry/passes-by.js";
import { difference, type Point, unit } from "../geometry/point.js";
import { faces, panelSurface, type Surface } from "../geometry/surfaces.js";
import type { Measurement, MeasurementSurfaces, Session, Surfaces } from "../model.js";
import { roomVolumeM3 } from "../schema/room-volume.js";
import { surfaceDips } from "./surface-dips.js";

/** A tape measure, and where in a box the sound comes from: of each coordinate. A choice of ours. */
const PLACEMENT_M = 0.02;

/**
 * Says of all early reflections which surfaces they come from, and what the surfaces do to the bass.
 *
 * @param measurements - of the whole session
 */
export function roomSurfaces(
  session: Session,
  measurements: readonly Measurement[],
  soundSpeedMPerS: number,
): Surfaces {
  const surfaces = [...faces(session.room ?? {}), ...(session.panels ?? []).map(panelSurface)];
  return {
    placementUncertaintyM: PLACEMENT_M,
    measurements: measurements.map((measurement) => {
      const places = placesOf(session, measurement);
      if (typeof places === "string") {
        return { id: measurement.id, reason: places, paths: [], directBlockedBy: [], origins: [], dips: null };
      }
      const paths = mirrorPaths(places.sourceM, places.receiverM, surfaces);
      const isMix = session.positions.some(({ id, kind }) => id === measurement.position && kind === "mix");
      return {
        id: measurement.id,
        reason: null,
        paths: paths.flatMap((path) => firstReflection(path, places, soundSpeedMPerS)),
        directBlockedBy: surfaces
          .filter((one) => one.kind === "panel" && cuts(one, places.sourceM, places.receiverM))
          .map(({ id }) => id),
        origins: originsOf(measurement, paths, session, soundSpeedMPerS),
        dips: isMix
          ? surfaceDips(measurement, otherSideOf(measurement, measurements), paths, places, {
              all: surfaces,
              soundSpeedMPerS,
              placementM: PLACEMENT_M,
            })
          : null,
      };
    }),
    panels: panelsOf(session, surfaces),
  };
}

interface Places {
  readonly sourceM: Point;
  readonly receiverM: Point;
}

/** Where loudspeaker and microphone stood, or why that is not known. */
function placesOf(session: Session, { monitor, channel, position, derived }: Measurement): Places | string {
  if (derived || channel === "both") return "two-loudspeakers";
  const sourceM = session.monitors.find(({ id }) => id === monitor)?.placement?.[channel];
  const receiverM = session.positions.find(({ id }) => id === position)?.xyzM;
  if (!sourceM) return "no-placement";
  return receiverM ? { sourceM, receiverM } : "no-position";
}

function otherSideOf({ monitor, channel, position }: Measurement, all: readonly Measurement[]): Measurement | null {
  const side = channel === "L" ? "R" : "L";
  const isOther = (one: Measurement): boolean =>
    one.monitor === monitor && one.position === position && one.channel === side && !one.derived;
  return all.find(isOther) ?? null;
}

function firstReflection(
  path: MirrorPath,
  { receiverM }: Places,
  soundSpeedMPerS: number,
): MeasurementSurfaces["paths"] {
  const { surfaces, detourM, pointsM, imageM, insideM, blockedBy } = path;
  if (surfaces.length !== 1 || insideM < 0) return [];
  const from = unit(difference(imageM, receiverM));
  return [
    {
      surface: surfaces[0]!.id,
      detourM,
      delayS: detourM / soundSpeedMPerS,
      detourUncertaintyM: detourDoubt(statedPlaces(PLACEMENT_M), path).uncertaintyM,
      pointM: [...pointsM[0]!],
      azimuthDeg: (180 / Math.PI) * Math.atan2(from[1], -from[0]),
      elevationDeg: (180 / Math.PI) * Math.asin(Math.min(1, Math.max(-1, from[2]))),
      blockedBy: [...blockedBy],
    },
  ];
}

function originsOf(
  { reflections }: Measurement,
  paths: readonly MirrorPath[],
  session: Session,
  soundSpeedMPerS: number,
): MeasurementSurfaces["origins"] {
  const expected = paths.map((path) => ({ ...path, surfaces: path.surfaces.map(({ id }) => id) }));
  const doubts = { placementM: PLACEMENT_M, volumeM3: roomVolumeM3(session.room), soundSpeedMPerS };
  const told = (one: NamedReflection): MeasurementSurfaces["origins"] =>
    one.origins.map(({ path, confidence, offM }) => ({
      ...{ reflection: one.reflection, surfaces: expected[path]!.surfaces, confidence, offM },
    }));
  return nameReflections(reflections, expected, doubts).flatMap(told);
}

function panelsOf(session: Session, surfaces: readonly Surface[]): Surfaces["panels"] {
  const listenerM = session.positions.find(({ kind }) => kind === "mix")?.xyzM;
  if (!listenerM) return [];
  return surfaces
    .filter(({ kind }) => kind === "panel")
    .flatMap((panel) =>
      session.monitors.flatMap(({ id: monitor, placement }) =>
        (["L", "R"] as const).flatMap((channel) => {
          const sourceM = placement?.[channel];
          if (!sourceM) return [];
          const [path] = mirrorPaths(sourceM, listenerM, [panel]);
          const by = passesBy(sourceM, listenerM, panel);
          return [
            {
              ...{ id: panel.id, monitor, channel, reaches: path !== undefined && path.insideM >= 0 },
              ...{ aboveM: by?.aboveM ?? null, asideM: by?.asideM ?? null },
            },
          ];
        }),
      ),
    );
}
