import type { MeasurementSurfaces, Results } from "../../../model.js";
import { fixed, unknownMark, withUncertainty } from "../../../words/numbers.js";
import { directionWords, namedWays, surfaceName, wayName } from "../../../words/surface-name.js";
import { channelName, shortMonitorName } from "../../words/names.js";
import { type Block, figures, number, table, words } from "../section.js";
import { atMix } from "./at-mix.js";
import { blockedNotes, panelNotes } from "./path-notes.js";

/** Where early reflections should come from, and what is heard of them. */
export function pathTables(results: Results): Block[] {
  const own = atMix(results);
  const rows = own.flatMap(({ surfaces, measurement }) =>
    surfaces.paths.map((path) => {
      const { origin, others } = heardBy(surfaces.origins, path.surface);
      const heard = origin && measurement.reflections[origin.reflection];
      return [
        words(shortMonitorName(results, measurement.monitor)),
        words(channelName(measurement.channel, measurement.derived)),
        words(surfaceName(path.surface)),
        figures(withUncertainty(path.detourM, path.detourUncertaintyM, 2)),
        number(1000 * path.delayS, 2),
        words(directionWords(path.azimuthDeg, path.elevationDeg)),
        figures(path.pointM.map((metres) => fixed(metres, 2)).join(", ")),
        heard
          ? figures([`${fixed(heard.levelDb, 1)} dB`, ...others.map((name) => `or by ${name}`)].join(", "))
          : words(
              path.blockedBy.length > 0 ? `behind ${path.blockedBy.map(surfaceName).join(", ")}` : "does not stand out",
            ),
        figures(origin ? fixed(100 * origin.confidence, 0) : unknownMark),
      ];
    }),
  );
  if (rows.length === 0) {
    return [
      {
        kind: "prose",
        text: "Where early reflections come from cannot be said: the places of loudspeakers and microphone are not stated (“placement” of the monitors and “xyzM” of the positions in session.json).",
      },
    ];
  }
  return [
    table(
      {
        caption: "Where early reflections should come from, and what is heard of them",
        folded: true,
        columns: [
          ...["Monitor", "Side", "Surface"].map(words),
          ...["Detour, m", "Delay, ms"].map(figures),
          words("From"),
          figures("Meets it at, m"),
          figures("Heard"),
          figures("Certainty, %"),
        ],
        rows,
        notes: [
          `By the places stated, of which each coordinate is taken to be known within ${fixed(200 * (results.surfaces?.placementUncertaintyM ?? 0), 0)} cm. From: as one sees it who looks at the front wall. Meets it at: metres from the front wall, from the left wall and up.`,
          "Certainty: by how well delay and level fit, against all other ways by one or two surfaces and things that nobody described. Where two ways fit about as well they share it, and each is named beside the other.",
          ...blockedNotes(results),
          ...panelNotes(results),
        ],
      },
      "nothing heard fits.",
    ),
  ];
}

/** Less likely ones are not put beside a surface as its own, unless others that fit as well are named with it. */
const LEAST = 0.5;

/** The reflection that a surface sends, and what else may have sent it. */
function heardBy(
  origins: MeasurementSurfaces["origins"],
  surface: string,
): { origin: MeasurementSurfaces["origins"][number] | undefined; others: string[] } {
  for (const origin of origins.filter((one) => one.surfaces.length === 1 && one.surfaces[0] === surface)) {
    const { ways, isSure } = namedWays(origins.filter(({ reflection }) => reflection === origin.reflection));
    const isShared = isSure && ways.includes(origin);
    if (!isShared && origin.confidence < LEAST) continue;
    const others = ways.filter((way) => way !== origin).map(({ surfaces }) => wayName(surfaces));
    return { origin, others };
  }
  return { origin: undefined, others: [] };
}
