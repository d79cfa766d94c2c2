import type { ChannelName, Measure, Results } from "../../../model.js";
import { fixed, hertz, listed, withUncertainty } from "../../../words/numbers.js";
import { isFace, surfaceName } from "../../../words/surface-name.js";
import { length } from "../../words/lengths.js";
import { channelName, shortMonitorName } from "../../words/names.js";
import { moveWords } from "./move-words.js";
import { coverWords, diffusionWords, percent, porousWords, tunedWords } from "./absorber-words.js";

/** Measures in words, the physics first, then the figures; all moves of loudspeakers in one. */
export function measureWords(results: Results, measures: readonly Measure[]): string[] {
  const moves = measures.filter((one) => one.kind === "move-loudspeaker");
  const others = measures.filter((one) => one.kind !== "move-loudspeaker");
  return [...moveWords(results, moves), ...others.map((one) => oneMeasure(results, one))];
}

type OtherMeasure = Exclude<Measure, { kind: "move-loudspeaker" }>;

function oneMeasure(results: Results, measure: OtherMeasure): string {
  switch (measure.kind) {
    case "porous":
      return porousWords(measure);
    case "cover":
      return coverWords(measure);
    case "tuned":
      return tunedWords(measure);
    case "diffusion":
      return diffusionWords(measure);
    case "find-surface":
      return findSurfaceWords(measure);
    case "turn":
      return turnWords(measure);
    case "move-listener":
      return seatWords(measure);
    case "level":
      return `Level: the louder side draws the image. Turn ${side(results, measure)} down by ${withUncertainty(-measure.byDb, half(measure.uncertaintyDb), 1)} dB.`;
    case "delay":
      return `Delay: the side that comes first draws the image, and sound goes 34 cm in a millisecond. Delay ${side(results, measure)} by ${withUncertainty(1e6 * measure.byS, half(measure.uncertaintyS, 1e6), 0)} µs, or set it back ${length(measure.orM)}; first make sure that the microphone stood in the middle.`;
    case "equaliser":
      return equaliserWords(measure);
    case "area":
      return areaWords(measure);
    case "try-places":
      return `Other places: where two waves cancel they do so at one place, and about a quarter of the wavelength, ${length(measure.quarterWaveM)} at ${hertz(measure.frequencyHz)}, leads out of it. Move the seat or the loudspeakers by parts of that and measure again; what makes the dip is not known.`;
    case "close-opening":
      return "Closing: another room gives back late what went into it. Close or cover the opening, as a door to a live room; no layer in this room shortens the other's decay.";
    case "find-difference":
      return "Swapping: what differs between the sides is not known. Swap the two boxes and measure again: a difference that goes along is the loudspeaker's or its setting's, one that stays is the room's. Then make alike what stands near each side (corner, door, window, rack), and match the levels last.";
  }
}

function seatWords(move: Extract<Measure, { kind: "move-listener" }>): string {
  const level = (db: number, [least, most]: readonly [number, number]): string =>
    fixed(least, 0) === fixed(most, 0)
      ? `about ${fixed(db, 0)} dB`
      : `about ${fixed(db, 0)} dB (${fixed(least, 0)} to ${fixed(most, 0)} by where exactly it stands)`;
  const where = `${length(Math.abs(move.byM))} ${move.byM < 0 ? "nearer to the front wall" : "further back"}`;
  return `Moving the seat: between front and rear wall the pressure of this mode goes as a cosine. By the dimensions it is ${level(move.nowDb, move.nowRangeDb)} at the seat against the walls, and ${level(move.thenDb, move.thenRangeDb)} ${where}: softer there, not shorter.`;
}

function side(results: Results, { monitor, channel }: { monitor: string; channel: ChannelName }): string {
  return `the ${channelName(channel, false)} side of ${shortMonitorName(results, monitor)}`;
}

function findSurfaceWords({ surfaces }: Extract<Measure, { kind: "find-surface" }>): string {
  const names = surfaces.map(({ surface }) => surfaceName(surface));
  const shares = surfaces.map(({ confidence }) => percent(confidence));
  return `Finding out first: it comes by ${names.join(" or by ")}, and time and level fit each about as well (${listed(shares)}). Cover one where the sound meets it, with a folded blanket, and measure again: if the reflection falls, it is that one. What follows holds for the one that it is.`;
}

function turnWords({ surface, boardToo, asideM, angleDeg }: Extract<Measure, { kind: "turn" }>): string {
  const what =
    surface === null
      ? "the surface, once it is found, or a board on it"
      : isFace(surface)
        ? `a board on ${surfaceName(surface)}`
        : `${surfaceName(surface)}${boardToo ? " or a board on it" : ""}`;
  const far =
    angleDeg === null
      ? "so that its reflection passes you"
      : `by ${fixed(angleDeg, 0)}°: then its reflection passes you by ${length(asideM)}`;
  return `Turning: a mirror that is turned sends sound twice as far round. Turn ${what} ${far}. What can be taken out of the way reflects nothing.`;
}

function half(expandedUncertainty: number | null, factor = 1): number | null {
  return expandedUncertainty === null ? null : (factor * expandedUncertainty) / 2;
}

function equaliserWords({ works, boostDb, timesPower }: Extract<Measure, { kind: "equaliser" }>): string {
  if (boostDb === null || timesPower === null) {
    return "Equaliser: it lowers a peak at this seat; what rings goes on as long.";
  }
  const price = `${fixed(boostDb, 0)} dB more take ${fixed(timesPower, 0)} times the power there`;
  if (works === null) {
    return `Equaliser: it mends a dip that the loudspeaker itself has, and none that two waves make; at another place the first stays and the second moves. ${price}.`;
  }
  return `Equaliser: no cure for two waves that cancel. It raises both, ${price}, and a head's breadth away, where they cancel less, it is too loud.`;
}

function areaWords({ fromS, toS, areaM2 }: Extract<Measure, { kind: "area" }>): string {
  const law = `More absorbing surface: the more of it, the shorter the decay (Sabine): from ${fixed(fromS, 2)} s to ${fixed(toS, 2)} s`;
  if (areaM2 === null) return `${law} takes an area that hangs on the room's volume, which is not stated.`;
  return `${law} takes ${fixed(areaM2, 1)} m² that take everything, or ${fixed(areaM2 / MOST, 1)} m² that take ${percent(MOST)}, spread over walls and ceiling.`;
}

/** What a deep layer takes. */
const MOST = 0.8;
