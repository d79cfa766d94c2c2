import type { Results } from "../../model.js";
import { fixed, held, hertz, unknownMark, withUncertainty } from "../../words/numbers.js";
import { directionWords, namedWays, surfaceName, wayName } from "../../words/surface-name.js";
import { channelName, measurementName, shortMonitorName } from "../words/names.js";
import { type Block, figures, number, type Section, table, words } from "./section.js";

/** What walls, floor and panels do: early reflections, dips, flutter, and what comes back from other rooms. */
export function surfaceSection(results: Results): Section {
  const section = { id: "surfaces", heading: "What the surfaces do", pictures: [] };
  if (!results.surfaces) return { ...section, tables: [] };
  return { ...section, tables: [...pathTables(results), ...dipTables(results), ...lateBlocks(results)] };
}

/** Measurements at the mix position; without one, all. */
function atMix(results: Results): readonly { surfaces: Own; measurement: Results["measurements"][number] }[] {
  const mix = results.session.positions.find(({ kind }) => kind === "mix")?.id;
  return (results.surfaces?.measurements ?? []).flatMap((surfaces) => {
    const measurement = results.measurements.find(({ id }) => id === surfaces.id);
    const isWanted = measurement && !measurement.derived && (mix === undefined || measurement.position === mix);
    return isWanted ? [{ surfaces, measurement }] : [];
  });
}

type Own = NonNullable<Results["surfaces"]>["measurements"][number];

function pathTables(results: Results): Block[] {
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
          ? figures([`${fixed(heard.levelDb, 1)} dB`, ...others.map((name) => `or ${name}`)].join(" "))
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
  origins: Own["origins"],
  surface: string,
): { origin: Own["origins"][number] | undefined; others: string[] } {
  for (const origin of origins.filter((one) => one.surfaces.length === 1 && one.surfaces[0] === surface)) {
    const { ways, isSure } = namedWays(origins.filter(({ reflection }) => reflection === origin.reflection));
    const isShared = isSure && ways.includes(origin);
    if (!isShared && origin.confidence < LEAST) continue;
    const others = ways.filter((way) => way !== origin).map(({ surfaces }) => wayName(surfaces));
    return { origin, others };
  }
  return { origin: undefined, others: [] };
}

/** What stands before a loudspeaker weakens what all else is measured against. */
function blockedNotes(results: Results): string[] {
  return (results.surfaces?.measurements ?? []).flatMap(({ id, directBlockedBy }) => {
    const measurement = results.measurements.find((one) => one.id === id);
    if (directBlockedBy.length === 0 || !measurement) return [];
    const where = results.session.positions.find((one) => one.id === measurement.position);
    const monitor = shortMonitorName(results, measurement.monitor);
    return [
      `${directBlockedBy.map(surfaceName).join(" and ")} ${directBlockedBy.length === 1 ? "stands" : "stand"} between ${monitor} (${channelName(measurement.channel, false)}) and “${where?.id ?? measurement.position}”, by the places stated: the direct sound is blocked by it. Move it out of the way, or correct its place, size or direction in session.json.`,
    ];
  });
}

function panelNotes({ surfaces, session }: Results): string[] {
  return (session.panels ?? []).flatMap(({ id }) => {
    const own = (surfaces?.panels ?? []).filter((one) => one.id === id);
    const missing = own.filter(({ reaches }) => !reaches);
    if (missing.length === 0) return [];
    return missing.map(({ monitor, channel, aboveM }) => {
      const where =
        aboveM === null
          ? "sends nothing towards the seat"
          : Math.abs(aboveM) < BESIDE_M
            ? "sends its sound past the seat at its side"
            : `sends its sound past the seat, ${fixed(Math.abs(aboveM), 1)} m ${aboveM > 0 ? "over" : "under"} it`;
      return `${surfaceName(id)} ${where}: ${monitor}, ${channelName(channel, false)}.`;
    });
  });
}

const BESIDE_M = 0.15;

/** Shallower dips stand in surface-dips.csv. */
const TOLD_DB = 6;

function dipTables(results: Results): Block[] {
  const rows = atMix(results).flatMap(({ surfaces, measurement }) =>
    (surfaces.dips?.measured ?? [])
      .filter(({ depthDb }) => depthDb >= TOLD_DB)
      .map((dip) => {
        const fitting = dip.fitting.map((index) => surfaces.dips!.predicted[index]!);
        return [
          words(shortMonitorName(results, measurement.monitor)),
          words(channelName(measurement.channel, measurement.derived)),
          figures(hertz(dip.frequencyHz)),
          number(dip.depthDb, 1),
          words(dip.otherSide === null ? unknownMark : dip.otherSide ? "yes" : "no"),
          words(fitting.length === 0 ? "none" : fitting.map(({ surface }) => surfaceName(surface)).join(", ")),
          figures(fitting[0] ? hertz(Math.round(fitting[0].frequencyHz)) : ""),
          figures(fixed(100 * dip.byChance, 0)),
          words(
            held(
              dip.moves
                .map(
                  ({ awayM, toHz }) =>
                    `${fixed(100 * Math.abs(awayM), 0)} cm ${awayM < 0 ? "nearer" : "away"}: ${hertz(Math.round(toHz))}`,
                )
                .join("; "),
            ),
          ),
        ];
      }),
  );
  if (rows.length === 0) return [];
  return [
    table({
      caption: "Dips at the mix position, and the surfaces that may make them",
      folded: true,
      columns: [
        ...["Monitor", "Side"].map(words),
        ...["Dip at", "Depth, dB"].map(figures),
        words("Other side too"),
        words("Fits"),
        figures("Predicted"),
        figures("By chance, %"),
        words("Loudspeaker moved"),
      ],
      rows,
      notes: [
        "Dips of 6 dB and more; the others stand in surface-dips.csv. Depth: under the lower of the heights beside it. Predicted: where direct sound and the first one's reflection are half a wave apart. By chance: of dips strewn anywhere from 30 to 500 Hz so many would fit as well; walls and a ceiling whose places are not stated are counted as if they stood anywhere.",
        "Of a reflection that a panel stands in the way of no dip is predicted: bass goes around the panel in part, nobody knows how much. Moved: by no more than leaves 10 cm to every wall and panel stated.",
        "A fit is a hint: in a small room all reflections together make a dip. Only moving the loudspeaker and measuring again shows which.",
      ],
    }),
  ];
}

function lateBlocks(results: Results): Block[] {
  const trains = results.flutter ?? [];
  const slopes = results.doubleSlopes ?? [];
  const quiet = [
    ...(trains.length === 0 ? ["No flutter between walls that face each other stands out."] : []),
    ...(slopes.length === 0
      ? ["No octave's decay has two slopes: nothing comes back from another room, as far as the noise lets one see."]
      : []),
  ].join(" ");
  const blocks: Block[] = quiet === "" ? [] : [{ kind: "prose", text: quiet }];
  if (trains.length > 0) {
    blocks.push(
      table({
        caption: "Echoes that go to and fro",
        folded: false,
        columns: [
          ...["Where measured", "Between"].map(words),
          ...["Apart, m", "Every, ms", "After 50 ms, dB", "Stands out, dB", "T, s", "Round trip, dB"].map(figures),
        ],
        rows: trains.map((train) => {
          const measurement = results.measurements.find(({ id }) => id === train.measurement);
          return [
            words(measurement ? measurementName(results, measurement) : train.measurement),
            words(train.between.length > 0 ? train.between.join(" or ") : "not known"),
            figures(withUncertainty(train.distanceM, train.distanceUncertaintyM, 2)),
            number(1000 * train.periodS, 2),
            number(train.levelDb, 0),
            number(train.aboveDb, 0),
            number(train.t60S, 2),
            number(train.roundTripDb, 1),
          ];
        }),
        notes: [
          "After 50 ms: of the echoes re the direct sound, 800 Hz to 6 kHz. T: time in which they fall by 60 dB.",
        ],
      }),
    );
  }
  if (slopes.length > 0) {
    blocks.push(
      table({
        caption: "Decays with two slopes, over all places",
        folded: false,
        columns: [
          "Octave",
          "Early, s",
          "Late, s",
          "Apart at the arrival, dB",
          "Turn, s",
          "Turn, dB",
          "Measurements",
        ].map(figures),
        rows: slopes.map((slope) => [
          figures(hertz(slope.nominalHz)),
          figures(withUncertainty(slope.earlyS, slope.earlyUncertaintyS, 2)),
          figures(withUncertainty(slope.lateS, slope.lateUncertaintyS, 2)),
          number(slope.apartDb, 1),
          number(slope.turnS, 2),
          number(slope.turnDb, 0),
          figures(String(slope.measurements)),
        ]),
        notes: [
          "Fitted to the energies of the decay with its noise. Turn: where the late decay takes over, on the backward-integrated curve.",
        ],
      }),
    );
  }
  return blocks;
}
