import type { Finding, Measurement, MonitorResult, Reflection, Results } from "../../model.js";
import { overLimit } from "../../standards/real-difference.js";
import { EARLY_REFLECTION, ONE_SIDED_REFLECTION, REFLECTION_HEARD } from "../limits.js";
import { aroundMix, atMix } from "../places.js";
import { originWords } from "../../words/surface-name.js";
import type { FactsOf } from "../catalogue.js";
import { stated } from "../stated.js";

/** Left and right see one surface when their reflections come within this of each other. */
const SAME_DELAY_S = 0.0003;
/** A loudspeaker's own ringing keeps its delay from place to place; what moves by more than its uncertainty is a path. */
const MOVES_S = 30e-6;
/** At other places the same reflection is looked for within this. */
const SAME_PATH_S = 0.0004;
const DESK_UNTIL_S = 0.0015;

type OneSided = NonNullable<MonitorResult["leftRight"]>["oneSided"][number];

/** A strong early reflection at the mix position, with the sides that have it. */
interface Strong {
  readonly reflection: Reflection;
  readonly channels: Measurement["channel"][];
}

/** Early reflections that break the recommended limit, and strong ones that only one side has. */
export function reflections(results: Results): Finding[] {
  return results.monitors.flatMap((monitor) => {
    const strong = merged(atMix(results, monitor.id));
    const early = strong.map((one) => earlyReflection(results, monitor, one));
    return [...early, ...oneSided(results, monitor, strong)];
  });
}

function merged(measurements: readonly Measurement[]): Strong[] {
  const found: Strong[] = [];
  for (const { channel, reflections: all } of measurements) {
    for (const reflection of all.filter(isStrong)) {
      const same = found.find(
        (one) => !one.channels.includes(channel) && Math.abs(one.reflection.delayS - reflection.delayS) <= SAME_DELAY_S,
      );
      if (!same) found.push({ reflection, channels: [channel] });
      else {
        same.channels.push(channel);
        if (reflection.levelDb > same.reflection.levelDb) found[found.indexOf(same)] = { ...same, reflection };
      }
    }
  }
  return found;
}

function isStrong({ delayS, levelDb, levelUncertaintyDb }: Reflection): boolean {
  const { value, untilS } = EARLY_REFLECTION;
  return delayS <= untilS && overLimit(levelDb, value, levelUncertaintyDb) === "over";
}

function earlyReflection(results: Results, { id, role }: MonitorResult, { reflection, channels }: Strong): Finding {
  const { delayS, levelDb, levelUncertaintyDb, pathDifferenceM, close } = reflection;
  const uncertaintyDb = 2 * levelUncertaintyDb;
  const facts = { monitor: id, channels, delayS, valueDb: levelDb, uncertaintyDb };
  const parts = {
    value: levelDb,
    uncertainty: uncertaintyDb,
    unit: "dB",
    limit: EARLY_REFLECTION.value,
    source: EARLY_REFLECTION.source,
    audibility: 10 ** ((levelDb - REFLECTION_HEARD.value) / 20),
    atS: delayS,
    monitors: [id],
    channels,
  } satisfies Partial<Finding>;
  if (close && !isPath(results, id, reflection)) {
    return stated("close-reflection", facts, { severity: "info", topic: "unknown", ...parts });
  }
  const desk = delayS <= DESK_UNTIL_S && role === "nearfield";
  return stated(
    "early-reflection",
    { ...facts, pathM: pathDifferenceM, desk, from: whereFrom(results, reflection) },
    { severity: "warning", topic: "mend", ...parts },
  );
}

/** By way of what it comes, if the places stated say so with certainty. */
function whereFrom(results: Results, reflection: Reflection): FactsOf<"early-reflection">["from"] {
  const measurement = results.measurements.find(({ reflections: all }) => all.includes(reflection));
  const own = results.surfaces?.measurements.find(({ id }) => id === measurement?.id);
  const index = measurement?.reflections.indexOf(reflection);
  const origins = own?.origins.filter((origin) => origin.reflection === index) ?? [];
  const { text, isSure } = originWords(origins);
  if (!isSure) return null;
  const [first] = origins;
  const single = origins.length === 1 && first?.surfaces.length === 1 ? first.surfaces[0] : null;
  return { text, at: own?.paths.find(({ surface }) => surface === single)?.pointM ?? null };
}

/** Whether the delay changes from place to place, as that of a reflection in the room does. */
function isPath(results: Results, monitor: string, { delayS }: Reflection): boolean {
  const delays = aroundMix(results, monitor).flatMap((measurement) => {
    const near = measurement.reflections.filter((other) => Math.abs(other.delayS - delayS) <= SAME_PATH_S);
    return near.length === 0 ? [] : [near.reduce((a, b) => (b.levelDb > a.levelDb ? b : a)).delayS];
  });
  return delays.length > 1 && Math.max(...delays) - Math.min(...delays) > MOVES_S;
}

function oneSided(results: Results, monitor: MonitorResult, told: readonly Strong[]): Finding[] {
  return (monitor.leftRight?.oneSided ?? []).flatMap((one) => {
    const { channel, delayS, levelDb, levelUncertaintyDb } = one;
    if (delayS > EARLY_REFLECTION.untilS) return [];
    if (overLimit(levelDb, ONE_SIDED_REFLECTION.value, levelUncertaintyDb) !== "over") return [];
    if (hasLike(results, monitor.id, one)) return [];
    if (told.some(({ reflection }) => Math.abs(reflection.delayS - delayS) <= SAME_DELAY_S)) return [];
    const full = atMix(results, monitor.id)
      .find((measurement) => measurement.channel === channel)
      ?.reflections.find((reflection) => reflection.delayS === delayS);
    const uncertaintyDb = 2 * levelUncertaintyDb;
    const facts = { monitor: monitor.id, channel, delayS, valueDb: levelDb, uncertaintyDb };
    return [
      stated(
        "one-sided-reflection",
        { ...facts, pathM: full?.pathDifferenceM ?? delayS * 343 },
        {
          severity: "warning",
          topic: "mend",
          value: levelDb,
          uncertainty: uncertaintyDb,
          unit: "dB",
          limit: ONE_SIDED_REFLECTION.value,
          source: ONE_SIDED_REFLECTION.source,
          audibility: 10 ** ((levelDb - REFLECTION_HEARD.value) / 20),
          atS: delayS,
          monitors: [monitor.id],
          channels: [channel],
        },
      ),
    ];
  });
}

/** Off the middle, a surface's reflection comes at another time from each side: so far apart they may lie, and so alike they are. */
const LIKE_WITHIN_S = 0.005;
const LIKE_WITHIN_DB = 4;

/** Whether the other side has a reflection of about this strength that this side does not have at its time. */
function hasLike(results: Results, monitor: string, one: OneSided): boolean {
  const measured = atMix(results, monitor);
  const own = measured.filter(({ channel }) => channel === one.channel).flatMap(({ reflections: all }) => all);
  const other = measured.filter(({ channel }) => channel !== one.channel).flatMap(({ reflections: all }) => all);
  return other.some(
    ({ delayS, levelDb }) =>
      Math.abs(delayS - one.delayS) <= LIKE_WITHIN_S &&
      Math.abs(levelDb - one.levelDb) <= LIKE_WITHIN_DB &&
      !own.some(
        (mine) => Math.abs(mine.delayS - delayS) <= SAME_PATH_S && Math.abs(mine.levelDb - levelDb) <= LIKE_WITHIN_DB,
      ),
  );
}
