import type { Finding } from "../model.js";
import type { LikelyModes } from "../words/mode-name.js";
import { type MovedDip, movedDip } from "../words/moved-dip.js";
import { capital, fixed, hertz, listed, listedOr, significant, withUncertainty } from "../words/numbers.js";
import { surfaceName } from "../words/surface-name.js";

/** What a finding says and what to do about it. */
export interface Wording {
  readonly message: string;
  readonly remedy: string | null;
}

type Range = readonly [number, number];

/** A value and its expanded uncertainty, dB. */
interface Decibels {
  readonly valueDb: number;
  /** Expanded. */
  readonly uncertaintyDb: number | null;
}

/** A sweep as it is heard. */
interface RoughSweep {
  readonly fromHz: number;
  readonly toHz: number;
  readonly lengthS: number;
}

/** What was found in place of the session's sweep. */
type WrongSweep =
  | { readonly is: "another"; readonly fits: string; readonly named: string }
  | { readonly is: "none"; readonly heard: RoughSweep; readonly own: RoughSweep }
  | { readonly is: "spaced"; readonly heardS: number; readonly ownS: number }
  | { readonly is: "several"; readonly count: number; readonly wanted: number }
  | { readonly is: "single" };

type Inverted =
  | { readonly is: "sides"; readonly monitor: string }
  | { readonly is: "monitors"; readonly monitors: readonly string[]; readonly others: readonly string[] }
  | { readonly is: "absolute"; readonly monitor: string };

interface UnknownId {
  readonly id: string;
  readonly place: string;
  readonly known: readonly string[];
  readonly nearest: string | null;
}

type CalibrationDoubt = { readonly file: string } & (
  | { readonly kind: "angle"; readonly angleDeg: number; readonly orientationDeg: number }
  | { readonly kind: "jump"; readonly fromHz: number; readonly toHz: number; readonly stepDb: number }
  | { readonly kind: "range"; readonly rangeDb: number }
  | { readonly kind: "level"; readonly meanDb: number }
  | { readonly kind: "gap"; readonly fromHz: number; readonly toHz: number }
);

const seconds = (value: number): string => `${fixed(value, value < 1 ? 2 : 1)} s`;
/** Minutes and seconds, as a player shows them. */
const clock = (value: number): string =>
  value < 60 ? seconds(value) : `${Math.floor(Math.round(value) / 60)} min ${Math.round(value) % 60} s`;
const milliseconds = (valueS: number): string => `${fixed(1000 * valueS, 1)} ms`;
/** A size without its sign, with its uncertainty. */
const decibels = ({ valueDb, uncertaintyDb }: Decibels): string =>
  `${withUncertainty(Math.abs(valueDb), uncertaintyDb === null ? null : uncertaintyDb / 2, 1)} dB`;
const isOneBand = ([fromHz, toHz]: Range): boolean => Math.abs(toHz / fromHz - 1) < 0.01;
const range = (band: Range): string =>
  isOneBand(band) ? `at ${hertz(band[0])}` : `from ${hertz(band[0])} to ${hertz(band[1])}`;
/** Where in a range the worst is; nothing for a single band. */
const worstAt = (band: Range, bandHz: number): string => (isOneBand(band) ? "" : ` at ${hertz(bandHz)}`);
const sideOf = (channel: string): string => (channel === "L" ? "left" : channel === "R" ? "right" : "both");
const sides = (channels: readonly string[]): string =>
  channels.length === 1 ? sideOf(channels[0]!) : "left and right";
const sweepOf = (channel: string | null): string => (channel === null ? "sweep" : `${sideOf(channel)} sweep`);
const OTHER_SWEEP =
  'play the session\'s own reel and record again; or name what was played as "sweep" of this recording in session.json';
const FIRST_TAKE = "levels are averaged as energy, time figures are the first take's";
/** An end of a range is no sharper than a hertz. */
const about = (frequencyHz: number): string => `about ${hertz(Math.round(frequencyHz))}`;

/**
 * Everything a finding can say, by its code.
 *
 * Monitors are called by their id, as the engineer named them. Figures are rounded here for reading; the finding itself carries
 * them in full.
 */
export const catalogue = {
  // What to trust

  "low-end-trust": (f: {
    monitors: readonly string[];
    reachHz: number | null;
    /** Those that end earlier. */
    others: readonly { readonly monitor: string; readonly reachHz: number }[];
    troubles: readonly string[];
    isGrave: boolean;
  }) => {
    const names = listedOr(f.monitors);
    const reach = f.reachHz === null ? "to below the measured range" : `to ${about(f.reachHz)}`;
    const others = f.others.map(({ monitor, reachHz }) => `${monitor}: ${hertz(Math.round(reachHz))}`).join(", ");
    const measure = others === "" ? "−6 dB" : `−6 dB; ${others}`;
    if (f.isGrave) {
      const but = f.troubles.length > 0 ? `; but ${listed(f.troubles)}` : "";
      return {
        message: `Low end: no monitor is to be believed yet. Lowest, ${reach} (${measure}): ${names}${but}.`,
        remedy: "judge kick and bass on headphones until that is mended",
      };
    }
    return {
      message:
        f.troubles.length > 0
          ? `Low end: believe ${names} with care, down ${reach} (${measure}): ${listed(f.troubles)}.`
          : `Low end: believe ${names}, down ${reach} (${measure}).`,
      remedy: f.others.length > 0 ? "what to set on which monitor is told below, region by region" : null,
    };
  },
  "believable-range": (f: {
    monitor: string;
    rangeHz: Range;
    sizeDb: number;
    target: string;
    sidesAgree: boolean;
    reflects: boolean;
  }) => ({
    message:
      `Tone: believe ${f.monitor} ${range(f.rangeHz)}: no band there lies further than ${fixed(f.sizeDb, 1)} dB from the target curve "${f.target}"` +
      (f.sidesAgree ? ", and left agrees with right there" : "") +
      (f.reflects ? "; the reflection named below still colours detail." : "."),
    remedy: null,
  }),
  dry: (f: { timeS: number; limitS: number }) => ({
    message: `The room is dry: ${seconds(f.timeS)} at this position, where ${seconds(f.limitS)} would be the shortest recommended. Dry is not dull: the tail is short, the treble is not missing.`,
    remedy: null,
  }),

  // What to mend

  "ends-early": (f: { monitor: string; reachHz: number }) => ({
    message: `Nothing to judge on ${f.monitor} below ${about(f.reachHz)}: there the level at this place is 6 dB down.`,
    remedy: `decide what lies lower on a monitor that carries it, or on headphones`,
  }),
  "polarity-inverted": (f: Inverted) => {
    if (f.is === "sides") {
      return {
        message: `The two sides of ${f.monitor} have opposite polarity: the centre falls apart and the bass cancels.`,
        remedy:
          "swap plus and minus at one loudspeaker, or undo the polarity switch in the signal path, then measure again",
      };
    }
    if (f.is === "monitors") {
      return {
        message:
          f.others.length > 0
            ? `${capital(listed(f.monitors))} ${f.monitors.length > 1 ? "push" : "pushes"} the other way than ${listed(f.others)}: its polarity is inverted.`
            : `${capital(listed(f.monitors))} push opposite ways: the polarity of one of them is inverted.`,
        remedy: "look for a polarity switch or a cable with plus and minus swapped on the way to that monitor",
      };
    }
    return {
      message: `What was recorded of ${f.monitor} has the opposite polarity of the electrical signal: its loudspeakers or the microphone invert.`,
      remedy: null,
    };
  },
  "left-right-level": (f: Decibels & { monitor: string }) => ({
    message: `The ${f.valueDb > 0 ? "left" : "right"} side of ${f.monitor} is ${decibels(f)} louder than the other: the centre sits off the middle.`,
    remedy: "trim the louder side until both read the same, then measure again",
  }),
  "left-right-arrival": (f: { monitor: string; differenceS: number; uncertaintyS: number }) => ({
    message: `The ${f.differenceS > 0 ? "left" : "right"} side of ${f.monitor} arrives ${withUncertainty(1e6 * Math.abs(f.differenceS), 0.5e6 * f.uncertaintyS, 0)} µs later: the centre leans to the other side.`,
    remedy: `move the microphone or the chair to the middle first; if it stays, bring that side ${fixed(343 * 100 * Math.abs(f.differenceS), 0)} cm nearer or delay the other`,
  }),
  "left-right-bands": (f: Decibels & { monitor: string; rangeHz: Range; bandHz: number; beyond: boolean }) => ({
    message: `The ${f.valueDb > 0 ? "right" : "left"} side of ${f.monitor} is weaker ${range(f.rangeHz)}, by ${decibels(f)}${worstAt(f.rangeHz, f.bandHz)}${f.beyond ? ", beyond its difference in level as a whole" : ""}.`,
    remedy:
      f.bandHz < 250
        ? "compare what stands near each side (corner, door, window, furniture) and the settings of both boxes; swap the boxes to learn whether the fault moves with them"
        : "check both drivers and crossover settings; swap the boxes to learn whether the fault moves with them",
  }),
  "early-reflection": (
    f: Decibels & {
      monitor: string;
      channels: readonly string[];
      delayS: number;
      pathM: number;
      desk: boolean;
      /** By the places stated; null where they are not, or tell nothing. */
      from: { readonly text: string; readonly at: readonly number[] | null } | null;
    },
  ) => ({
    message: `A strong reflection follows the direct sound of ${f.monitor} (${sides(f.channels)}) by ${milliseconds(f.delayS)}: only ${decibels(f)} weaker, where 10 dB are asked for. Its detour is ${fixed(f.pathM, 2)} m.${f.from === null ? "" : ` By the places stated it comes by way of ${f.from.text}.`}`,
    remedy: f.from?.at
      ? `cover or turn that surface where the sound${f.channels.length > 1 ? " of the left one" : ""} meets it, ${fixed(f.from.at[0]!, 2)} m from the front wall, ${fixed(f.from.at[1]!, 2)} m from the left one and ${fixed(f.from.at[2]!, 2)} m up; if it is a desk, clear or angle its top, or raise the loudspeakers; then measure again`
      : f.desk
        ? "look at the desk first: clear or angle its top, raise or move these loudspeakers, and measure again"
        : "find the surface (from your seat, a mirror moved along it shows the loudspeaker) and put an absorber there or turn it",
  }),
  "one-sided-reflection": (f: Decibels & { monitor: string; channel: string; delayS: number; pathM: number }) => ({
    message: `Only the ${sideOf(f.channel)} side of ${f.monitor} has a strong reflection ${milliseconds(f.delayS)} after the direct sound, ${decibels(f)} weaker; its detour is ${fixed(f.pathM, 2)} m.`,
    remedy: "look for what stands on that side only (a window, a rack, a door), and whether the seat is in the middle",
  }),
  peak: (f: Decibels & { monitor: string; rangeHz: Range; bandHz: number; target: string }) => ({
    message: `Too loud on ${f.monitor} ${range(f.rangeHz)}: ${decibels(f)} above the target curve "${f.target}"${worstAt(f.rangeHz, f.bandHz)}.`,
    remedy: towards(f.bandHz, "you will set this range too low in a mix"),
  }),
  dip: (f: Decibels & { monitor: string; rangeHz: Range; bandHz: number; target: string }) => ({
    message: `Too soft on ${f.monitor} ${range(f.rangeHz)}: ${decibels(f)} under the target curve "${f.target}"${worstAt(f.rangeHz, f.bandHz)}.`,
    remedy: towards(f.bandHz, "you will set this range too high in a mix"),
  }),
  rings: (f: {
    /** Null: every monitor that reaches there shows it. */
    only: readonly string[] | null;
    rangeHz: Range;
    bandHz: number;
    timeS: number;
    uncertaintyS: number;
    limitS: number;
    sizeIsAssumed: boolean;
  }) => ({
    message: `${f.only === null ? "The room rings" : `With ${listed(f.only)} the room rings`} ${range(f.rangeHz)}: ${withUncertainty(f.timeS, f.uncertaintyS / 2, 2)} s${worstAt(f.rangeHz, f.bandHz)} to fall by 60 dB, where ${seconds(f.limitS)} is the limit${f.sizeIsAssumed ? " for a large control room (this one's size is not stated)" : ""}.`,
    remedy:
      f.bandHz < 300
        ? "notes there last longer than they were played: deep or tuned bass absorbers help, best in corners; trust headphones for the length of bass notes meanwhile"
        : "look for bare parallel surfaces that face each other, and cover or turn one of them",
  }),
  "mode-rings": (f: {
    /** Null: it stands out with every monitor that reaches there. */
    only: readonly string[] | null;
    frequencyHz: number;
    /** Of more modes close by. */
    alsoHz: readonly number[];
    timeS: number;
    uncertaintyS: number;
    limitS: number;
    raisedDb: number;
    /** What the dimensions predict there. */
    likely: LikelyModes | null;
  }) => ({
    message: `${f.only === null ? "The room rings" : `With ${listed(f.only)} the room rings`} at ${hertz(f.frequencyHz)}${f.alsoHz.length > 0 ? ` and ${listed(f.alsoHz.map(hertz))}` : ""}: ${withUncertainty(f.timeS, f.uncertaintyS / 2, 2)} s${f.alsoHz.length > 0 ? ` at ${hertz(f.frequencyHz)}` : ""} to fall by 60 dB, where up to ${seconds(f.limitS)} stays unheard, and it raises the response there by ${fixed(f.raisedDb, 0)} dB.${f.likely === null ? "" : ` By the room's dimensions it is ${f.likely.text}${f.likely.isOne ? "" : ": they lie too near to each other to be told apart by frequency"}.`}`,
    remedy: `notes there last longer than they were played: deep or tuned bass absorbers help, best ${f.likely?.between == null ? "in corners" : `at the ends of its way, ${f.likely.between}`}; an equaliser lowers it and does not shorten it; trust headphones for the length of bass notes meanwhile`,
  }),
  flutter: (f: {
    between: readonly string[];
    distanceM: number;
    distanceUncertaintyM: number;
    periodS: number;
    levelDb: number;
    t60S: number;
    places: number;
  }) => ({
    message: `Echoes go to and fro between ${f.between.length > 0 ? f.between.join(" or between ") : "two surfaces that face each other"}, ${withUncertainty(f.distanceM, f.distanceUncertaintyM, 2)} m apart${f.between.length > 0 ? "" : " (twice that if the microphone stood midway)"}: one every ${milliseconds(f.periodS)}, ${fixed(-f.levelDb, 0)} dB under the direct sound after 50 ms, and ${significant(f.t60S, 2)} s to fall by 60 dB.`,
    remedy:
      "clap your hands at the seat and listen for a buzz; cover one of the two, turn it by some degrees or break it up with shelves: one of the two is enough",
  }),
  "double-slope": (f: {
    earlyS: number;
    earlyUncertaintyS: number;
    lateS: number;
    lateUncertaintyS: number;
    turnS: number;
    turnDb: number;
    rangeHz: Range;
    hasFlutter: boolean;
  }) => ({
    message: `The sound falls fast at first and slowly later ${range(f.rangeHz)}: ${withUncertainty(f.earlyS, f.earlyUncertaintyS, 2)} s for 60 dB, and from ${fixed(-f.turnDb, 0)} dB down on ${withUncertainty(f.lateS, f.lateUncertaintyS, 2)} s. What comes late comes back from somewhere else.`,
    remedy: `the usual cause is an opening to another room, such as an open door to a live room: close it and measure again; if it stays, ${f.hasFlutter ? "mend the flutter first, which does the same" : "look for bare walls that face each other while all others are covered"}`,
  }),
  "boundary-dip": (f: {
    monitor: string;
    channels: readonly string[];
    depthDb: number;
    frequencyHz: number;
    surfaces: readonly string[];
    predictedHz: number;
    uncertaintyHz: number;
    byChance: number;
    /** Whether the other side was measured and has no such dip of the surface opposite. */
    isLopsided: boolean;
    moves: readonly Move[];
  }) => ({
    message: `${capital(f.monitor)} (${sides(f.channels)}) has a dip of ${fixed(f.depthDb, 0)} dB at ${hertz(f.frequencyHz)}, where the reflection by ${f.surfaces.map(surfaceName).join(" and by ")} would put one: at ${withUncertainty(f.predictedHz, f.uncertaintyHz / 2, 0)} Hz. It is a hint, no proof: ${fixed(100 * f.byChance, 0)} in 100 dips would lie so near by accident.`,
    remedy: `${moveRemedy(f.channels.length > 1, f.moves)} and measure again: only that shows what makes the dip${f.isLopsided ? "; the other side shows no mirror image of it, and moving one side alone breaks the pair's symmetry: move both alike, or hold what is won against that" : ""}`,
  }),
  "too-live": (f: { timeS: number; uncertaintyS: number; limitS: number; volumeM3: number | null }) => ({
    message: `The room is live: ${withUncertainty(f.timeS, f.uncertaintyS / 2, 2)} s on the mean of 200 Hz to 4 kHz, where ${seconds(f.limitS)} is the most recommended for ${f.volumeM3 === null ? "a large control room (this one's size is not stated)" : `${fixed(f.volumeM3, 0)} m³`}.`,
    remedy: "more absorbing surface, spread over walls and ceiling; reverb is set too dry in a room that adds its own",
  }),
  "moves-with-head": (f: { monitor: string; rangeHz: Range; bandHz: number; spreadDb: number; places: number }) => ({
    message: `The level of ${f.monitor} ${range(f.rangeHz)} changes within a head's reach: ${fixed(f.spreadDb, 1)} dB of spread over ${f.places} places${worstAt(f.rangeHz, f.bandHz)}.`,
    remedy: "keep your head still when you judge this range, or move the seat out of the null",
  }),
  "phantom-dip": (f: Decibels & { monitor: string; rangeHz: Range; bandHz: number }) => ({
    message: `The phantom centre of ${f.monitor} loses ${decibels(f)} ${range(f.rangeHz)} against either side: kick, bass and voice sit there.`,
    remedy:
      "left and right arrive out of step in this range: check distances, crossovers and the seat's place between the side walls",
  }),
  distortion: (f: {
    monitor: string;
    channels: readonly string[];
    percent: number;
    frequencyHz: number;
    limitPercent: number;
  }) => ({
    message: `Distortion of ${f.monitor} (${sides(f.channels)}) reaches ${fixed(f.percent, 1)} % at ${hertz(f.frequencyHz)} at the level played; ${fixed(f.limitPercent, 0)} % is the limit at 90 dB SPL.`,
    remedy: "measure again 6 dB lower; if it stays, something rattles or a driver is worn",
  }),
  "background-noise": (f: { ratingNr: number; limitNr: number; bandHz: number }) => ({
    message: `Noise in the silence before the sweeps reaches NR ${fixed(f.ratingNr, 0)}, most at ${hertz(f.bandHz)}, the microphone's own included; NR ${fixed(f.limitNr, 0)} should not be exceeded.`,
    remedy: "look for fans, drives, lamps and ventilation; quiet details hide under it",
  }),

  // What the data cannot say

  "few-places": (f: { monitors: readonly string[]; places: number }) => ({
    message: `${f.places === 1 ? "One microphone place was" : `${f.places} microphone places were`} measured with ${listed(f.monitors)}: above 2 kHz a few centimetres change the curve, so no verdict on tone is given there.`,
    remedy: "measure the mix position and four more places within 20 cm of it, at ear height",
  }),
  "not-calibrated": () => ({
    message:
      "No calibrator was recorded: no figure here is a sound pressure level, and the room's noise cannot be rated.",
    remedy: "record a sound calibrator with the gain left as it is, and name it in session.json as microphone.level",
  }),
  "no-volume": () => ({
    message:
      "The room's size is not stated: its reverberation cannot be held against what is recommended for its volume.",
    remedy: "add lengthM, widthM and heightM, or volumeM3, to room in session.json",
  }),
  "gain-unknown": (f: { what: string }) => ({
    message: `The input gain is not stated to have stayed fixed: the difference in level ${f.what} may be gain. Shapes are not touched by this.`,
    remedy: 'leave the gain alone between recordings and add "gainFixed": true to microphone in session.json',
  }),
  "one-channel": (f: { monitor: string }) => ({
    message: `Only one side of ${f.monitor} was measured: left cannot be held against right.`,
    remedy: "record the reel, or the sweep of the other side, as well",
  }),
  "one-monitor": (f: { monitor: string }) => ({
    message: `Only ${f.monitor} was measured: what it hides, another monitor would have to show.`,
    remedy: "measure a second pair at the same place",
  }),
  "close-reflection": (f: Decibels & { monitor: string; channels: readonly string[]; delayS: number }) => ({
    message: `Something follows the direct sound of ${f.monitor} (${sides(f.channels)}) by ${milliseconds(f.delayS)}, ${decibels(f)} weaker: the desk, or the loudspeaker itself; these places cannot tell.`,
    remedy: "measure more places around, or once with the desk covered by a thick blanket",
  }),
  "target-unknown": (f: { monitor: string; outsideTarget: boolean }) => ({
    message: `${f.outsideTarget ? "The target of" : "What was measured of"} ${f.monitor} does not cover 200 Hz to 4 kHz, where the two are laid on each other: tone was not judged.`,
    remedy: f.outsideTarget
      ? "give the target's file rows from 200 Hz or below to 4 kHz or above"
      : "measure with a sweep that covers this range",
  }),
  "cannot-tell": (f: Decibels & { what: string; rangeHz: Range; bandHz: number; limitDb: number }) => ({
    message: `${capital(f.what)} ${range(f.rangeHz)} reads ${decibels(f)}${worstAt(f.rangeHz, f.bandHz)}, where ${fixed(f.limitDb, 1)} dB is the limit: ${f.uncertaintyDb === null ? "its uncertainty is not known" : "it lies over that by less than its uncertainty"}, so it may or may not be a fault.`,
    remedy: "record the sweep itself, two takes or more, louder if ears and loudspeakers stand it",
  }),

  // The recordings

  silent: () => ({
    message: "The recording is silent.",
    remedy: "check the microphone, its gain and the input that was recorded",
  }),
  clipped: (f: { readonly count: number } | { readonly crests: number; readonly levelDbfs: number }) => ({
    message:
      "count" in f
        ? `The recording is clipped: ${f.count} samples at its ceiling.`
        : `The recording was clipped or limited at its input: ${f.crests} crests of the sweep, at separate frequencies, all end at ${fixed(f.levelDbfs, 1)} dB re full scale. Something has rounded the edges since, a filter or a change of sample rate.`,
    remedy: "lower the microphone's gain so that peaks stay near -6 dBFS, and record again",
  }),
  "dc-offset": (f: { percent: number }) => ({
    message: `The recording is not centred on zero: a constant of ${fixed(f.percent, 1)} % of full scale runs through it. It was taken out.`,
    remedy: "look for a fault in cable, preamp or input, or switch on the preamp's low cut at 20 Hz or below",
  }),
  dropout: (f: { atS: number; samples: number | null; places: number }) => ({
    message: `Samples are missing or came twice at ${fixed(f.atS, 3)} s${f.samples === null ? "" : ` (${f.samples} alike in a row)`}${morePlaces(f.places)}: what was recorded after that comes too early or too late.`,
    remedy: "close other programs, choose a larger audio buffer or a shorter cable, and record again",
  }),
  processed: (
    f:
      | { readonly gainDb: number }
      | { readonly markerDb: number }
      | { readonly apartDb: number }
      | { readonly unlikeDb: number }
      | { readonly unevennessDb: number }
      | { readonly atS: number }
      | { readonly reSweepDb: number; readonly bandHz: number },
  ) => {
    const remedy =
      "switch off automatic gain, compressor, noise gate, noise suppression and echo cancelling, in the device and in the system's settings, choose WAV and no lossy format, and record again";
    if ("gainDb" in f) {
      const { gainDb } = f;
      return {
        message: `The gain moved while the sweep played: all of the room's noise was up to ${fixed(Math.abs(gainDb), 1)} dB ${gainDb > 0 ? "louder" : "softer"} under it than before.`,
        remedy,
      };
    }
    if ("markerDb" in f) {
      return {
        message: `Short sounds were recorded otherwise than long ones: the markers are ${fixed(Math.abs(f.markerDb), 1)} dB ${f.markerDb > 0 ? "louder" : "softer"} than the sweep, so something follows the level.`,
        remedy: `${remedy}; if it stays, play softer: a loudspeaker's limiter does the same`,
      };
    }
    if ("apartDb" in f) {
      return {
        message: `The gain moved between the two markers: the second is ${fixed(Math.abs(f.apartDb), 1)} dB ${f.apartDb > 0 ? "louder" : "softer"} than the first, and the same sound otherwise.`,
        remedy: `${remedy}; leave all gains alone while the reel plays`,
      };
    }
    if ("unlikeDb" in f) {
      return {
        message: `The markers and the sweep went through different things: what they do not have in common is only ${fixed(-f.unlikeDb, 0)} dB weaker than a marker, so something changes the sound with time.`,
        remedy: `${remedy}; take chorus, flanger and other effects out of the channel, and leave the microphone and the loudspeaker alone while the reel plays`,
      };
    }
    if ("unevennessDb" in f) {
      return {
        message: `The silence has holes: at one frequency its loud moments stand ${fixed(f.unevennessDb, 0)} dB over its usual level, where a room's noise has 5 dB, as after noise suppression or a lossy format. Soft sounds, and so decays, are cut off by it.`,
        remedy,
      };
    }
    const told =
      "atS" in f
        ? `from ${fixed(f.atS, 1)} s on the sweep leaps again and again`
        : `all along the sweep the recording holds what was not played, up to ${fixed(-f.reSweepDb, 0)} dB under the sweep near ${hertz(f.bandHz)}`;
    return {
      message: `Something changes the sound on its way: ${told}.`,
      remedy:
        "record by cable instead of a wireless link, uncompressed, without noise suppression; if it stays, listen for what rattles along",
    };
  },
  knock: (f: { atS: number; bandHz: number; excessDb: number; reSweepDb: number; isAgain: boolean }) => ({
    message: `Something knocked or rattled at ${fixed(f.atS, 1)} s: ${fixed(f.excessDb, 0)} dB over the noise near ${hertz(f.bandHz)}, ${fixed(-f.reSweepDb, 0)} dB under the sweep. Decays that were sounding then are not stated.${f.isAgain ? " It came at the same note of another sweep too, as when something rattles along or a limiter takes hold: the levels of the loudest notes are not to be trusted." : ""}`,
    remedy: f.isAgain
      ? "look for what rattles at that note; switch off any limiter or compressor; play softer, and record again"
      : "record again, with nobody moving and the door shut; if it comes back at the same note, look for what rattles",
  }),
  hum: (f: { mainsHz: number; strongestHz: number; reSweepDb: number }) => ({
    message: `The mains hum in the recording: ${f.mainsHz} Hz and its multiples, strongest at ${f.strongestHz} Hz, only ${fixed(-f.reSweepDb, 0)} dB under the sweep.`,
    remedy: "use a balanced cable, run computer and interface from one socket, keep dimmers and power supplies away",
  }),
  "noise-changed": (f: { bandHz: number; byDb: number; atS: number }) => ({
    message: `The noise rose after the silence before the sweep: by ${fixed(f.byDb, 0)} dB near ${hertz(f.bandHz)} from ${fixed(f.atS, 1)} s on. Uncertainties count the louder noise.`,
    remedy: "switch off the ventilation or wait until it is quiet, and record again",
  }),
  "sample-rate": (f: { foundHz: number; expectedHz: number }) => ({
    message: `The recording is sampled at ${f.foundHz} Hz, but the sweep at ${f.expectedHz} Hz.`,
    remedy: `record at ${f.expectedHz} Hz, or name the sweep made for ${f.foundHz} Hz in session.json`,
  }),
  "no-sweep": (f: { channel: string | null }) =>
    f.channel === null
      ? {
          message: "The session's sweep is not in the recording.",
          remedy:
            "check that this file is the right one and that it was recorded with the sweep that session.json names",
        }
      : {
          message: `The ${sideOf(f.channel)} sweep of the reel is not in the recording.`,
          remedy: `check that the ${sideOf(f.channel)} loudspeaker played and that the recording runs to the end of the reel`,
        },
  "wrong-sweep": (f: WrongSweep) => {
    if (f.is === "several") {
      const message = `The recording holds ${f.count} sweeps where ${f.wanted === 1 ? "one" : f.wanted} should be: which is which cannot be told.`;
      if (f.wanted > 1) return { message, remedy: OTHER_SWEEP };
      return {
        message,
        remedy:
          'if it is a reel, remove "channel" from this recording in session.json; if not, cut it into one file a sweep',
      };
    }
    if (f.is === "single") {
      return {
        message: "The recording holds one sweep between two markers: the file for one loudspeaker, not the reel.",
        remedy: 'name the loudspeaker that played it, "channel": "L" or "R", with this recording in session.json',
      };
    }
    if (f.is === "spaced") {
      return {
        message: `Another reel than the session's was played: its sweeps are ${fixed(f.heardS, 2)} s apart, the session's ${fixed(f.ownS, 2)} s.`,
        remedy: OTHER_SWEEP,
      };
    }
    if (f.is === "another") {
      return {
        message: `The recording holds the sweep of ${f.fits}, not that of ${f.named}.`,
        remedy: `add "sweep": "${f.fits}" to this recording in session.json`,
      };
    }
    const rough = ({ fromHz, toHz, lengthS }: RoughSweep): string =>
      `from about ${hertz(Number(significant(fromHz, 2)))} to ${hertz(Number(significant(toHz, 2)))} in ${seconds(lengthS)}`;
    return {
      message: `Another sweep than the session's was played, ${rough(f.heard)}; the session's goes ${rough(f.own)}.`,
      remedy: OTHER_SWEEP,
    };
  },
  "more-sweeps": (f: { count: number }) => ({
    message: `The recording holds ${f.count} more ${f.count === 1 ? "sweep" : "sweeps"} than the reel: one pass of the reel was measured.`,
    remedy: "to have the other pass measured too, cut it out as a second take",
  }),
  "rate-mismatch": (f: { ratio: number; usual: string | null } | { saysHz: number; isHz: number }) => {
    if ("saysHz" in f) {
      return {
        message: `The file says that it is sampled at ${f.saysHz} Hz, but its sound was sampled at ${f.isHz} Hz.`,
        remedy: `have the file say ${f.isHz} Hz, without converting its sound; or export it again at ${f.isHz} Hz`,
      };
    }
    const percent = `${Number(significant(100 * Math.abs(f.ratio - 1), 2))} %`;
    return {
      message: `The recording lasts ${percent} ${f.ratio > 1 ? "longer" : "shorter"} than what was played: a wrong sample rate, not drift${f.usual === null ? "" : ` (as ${f.usual})`}.`,
      remedy: "set player, recorder and workstation to the same sample rate, and record again",
    };
  },
  "started-late": (f: { channel: string | null; missingS: number }) => ({
    message: `The recording starts ${seconds(f.missingS)} after the ${sweepOf(f.channel)} has begun.`,
    remedy: "start the recorder first, then the sweep",
  }),
  "ended-early": (f: { channel: string | null; missingS: number }) => ({
    message:
      f.missingS > 0
        ? `The recording ends ${seconds(f.missingS)} before the ${sweepOf(f.channel)} does.`
        : `The recording ends only ${seconds(Math.abs(f.missingS))} after the ${sweepOf(f.channel)}: low frequencies and decays are cut off.`,
    remedy: "let the recorder run until the second marker has sounded",
  }),
  "which-loudspeaker": () => ({
    message: "One sweep of the reel is missing, and nothing tells which loudspeaker the other came from.",
    remedy:
      "check that both loudspeakers play and record the whole reel, with both of its markers; or record them one by one",
  }),
  "short-tail": (f: { channel: string; tailS: number }) => ({
    message: `Only ${seconds(Math.max(0, f.tailS))} were recorded after the ${sideOf(f.channel)} sweep: low frequencies and decays are cut off.`,
    remedy: "make the sweep with a longer gap",
  }),
  "clock-unknown": () => ({
    message:
      "The two markers were not both heard: clock drift, the arrival of left against right, and whether something followed the level (a compressor, automatic gain) are not known.",
    remedy: "record the reel from before its first marker until after its second",
  }),
  "noise-unknown": () => ({
    message:
      "An impulse response says nothing of the noise it was recorded in: the uncertainty of levels is not known.",
    remedy: "record the sweep itself",
  }),
  "takes-differ": (f: { id: string; differenceDb: number; bandHz: number; averaged: boolean }) => ({
    message: `The takes of ${f.id} differ by ${fixed(f.differenceDb, 1)} dB near ${hertz(f.bandHz)}${f.averaged ? ", though they agree in the middle" : `: ${FIRST_TAKE}`}.`,
    remedy: "look for what changed between the takes: a door, a filter, a switched loudspeaker, noise",
  }),
  "gain-changed": (f: { id: string; differenceDb: number }) => ({
    message: `The takes of ${f.id} differ by ${fixed(f.differenceDb, 1)} dB, alike at all frequencies, as when a gain is turned: ${FIRST_TAKE}.`,
    remedy: "leave the microphone's gain and the monitors' volume alone between takes, and record again",
  }),
  "duplicate-take": (f: { first: string; second: string; gainDb: number; isRepeat: boolean }) => {
    const gain = Math.abs(f.gainDb) < 0.05 ? "" : `, ${fixed(Math.abs(f.gainDb), 1)} dB apart in gain`;
    return f.isRepeat
      ? {
          message: `${f.second} is the same recording as ${f.first}${gain}, not a second take: it is left out.`,
          remedy: "name the file of the other take, or remove the entry",
        }
      : {
          message: `${f.first} and ${f.second} are the same recording${gain}, but the session takes them for different things: neither is used.`,
          remedy: "find out which of the two it is, and name the right file for the other",
        };
  },
  "both-speakers": (f: { monitor: string; differenceDb: number; isOneBox: boolean }) => ({
    message: `Left and right of ${f.monitor} are the same sound to ${fixed(f.differenceDb, 0)} dB, closer than two places in a room can be: ${f.isOneBox ? "one loudspeaker plays both channels, or both play at once." : "both loudspeakers played at once, one played twice, or this is an electrical measurement."}`,
    remedy: f.isOneBox
      ? null
      : "switch off mono and anything that sends one channel to both sides, and record the reel again",
  }),
  "channels-swapped": (f: { monitor: string }) => ({
    message: `Left and right of ${f.monitor} are swapped: the side that is nearer by its stated place arrives later, by as much as it should arrive earlier.`,
    remedy:
      "check which loudspeaker plays the left channel; if that is right, the places of L and R, or of the microphone, are exchanged in session.json",
  }),
  "no-silence": () => ({
    message:
      "There is no silence before the first sound, nor at the end: the room's noise, and so the uncertainty, is not known.",
    remedy: "start the recorder a second or more before the reel",
  }),
  "take-misfits": (f: { id: string; firstFile: string }) => ({
    message: `This take of ${f.id} was made with another sweep or sample rate than ${f.firstFile}: they cannot be averaged.`,
    remedy: "record all takes of one place with the same sweep, or give this one a position of its own",
  }),
  "position-moved": (f: { id: string; leastM: number; mostM: number }) => ({
    message: `Between the takes of ${f.id} the microphone moved by some ${fixed(100 * f.leastM, 0)} to ${fixed(100 * f.mostM, 0)} cm, as far as the reflections that they still have in common near 4 kHz tell: ${FIRST_TAKE}.`,
    remedy:
      "leave the microphone where it is between takes and record again, or name the places as different positions",
  }),
  "low-signal": (f: { id: string; signalToNoiseDb: number | null; weakHz: readonly number[] }) => {
    const above = f.signalToNoiseDb === null ? "" : ` (it is ${fixed(f.signalToNoiseDb, 0)} dB above it)`;
    const weak =
      f.weakHz.length === 0
        ? ""
        : `: at ${listed(f.weakHz.map((hz) => hertz(hz)))} the decay can be followed over less than the 35 dB that T20 needs`;
    return {
      message: `The sweep of ${f.id} hardly stands out of the room's noise${above}${weak}.`,
      remedy: "play louder, within what ears and loudspeakers stand, use a longer sweep, or make the room quieter",
    };
  },
  distorted: (f: { id: string; percent: number; frequencyHz: number; isClipped: boolean; hidesDecays: boolean }) => ({
    message: `${f.id} was driven too hard: its harmonics reach ${fixed(f.percent, f.percent < 10 ? 1 : 0)} % at ${hertz(Math.round(f.frequencyHz))}${f.isClipped ? ", and the high ones are as strong as the low, as where something clips (a limiter, an amplifier, the microphone's input)" : ""}. The levels are squeezed with it and not to be trusted${f.hidesDecays ? "; decays cannot be told from the harmonics and are not stated" : ""}.`,
    remedy: "turn the loudspeaker down 6 dB and record again; if it stays, turn down the microphone's gain as well",
  }),
  "band-limited": (f: { id: string; hz: number; dropDb: number; isCliff: boolean }) =>
    f.isCliff
      ? {
          message: `The response of ${f.id} breaks off at ${hertz(f.hz)}: ${fixed(f.dropDb, 0)} dB within a quarter of an octave, as no loudspeaker does. Nothing is stated above.`,
          remedy:
            "play and record by cable, without a wireless link, and at the sweep's own sample rate; look for a filter in device or workstation",
        }
      : {
          message: `The treble of ${f.id} is missing: from about ${hertz(f.hz)} up, ${fixed(f.dropDb, 0)} dB under the middle at 5 to 10 kHz.`,
          remedy:
            "check that the tweeter plays (ear at its side, soft noise), its fuse, cable and level, and that the microphone points where it should",
        },
  "clock-drift": (f: { id: string; ppm: number; uncertaintyPpm: number }) => ({
    message: `The recorder's clock ran ${f.ppm > 0 ? "fast" : "slow"} by ${fixed(Math.abs(f.ppm), 1)} ppm (uncertainty ${significant(Math.max(0.1, 2 * f.uncertaintyPpm), 1)} ppm) in ${f.id}; corrected.`,
    remedy: null,
  }),

  "length-from-file": (f: { durationS: number }) => ({
    message: `The file's header does not say how long the recording is (its recorder stopped before it could write that): ${seconds(f.durationS)} were read, as far as the file goes.`,
    remedy: null,
  }),
  "long-recording": (f: { durationS: number; heardAtS: number }) => ({
    message: `The recording lasts ${clock(f.durationS)}; what was played begins at ${clock(f.heardAtS)}, and only what is around it was used.`,
    remedy: null,
  }),
  "several-reels": (f: { heardAtS: readonly number[] }) => ({
    message: `What was played is in the recording ${f.heardAtS.length} times, at ${listed(f.heardAtS.slice(0, 6).map(clock))}${f.heardAtS.length > 6 ? " and later" : ""}; only the first was used.`,
    remedy: "cut the recording into one file for each, and list every file with its monitor, position and take",
  }),

  "calibration-suspect": (f: CalibrationDoubt) => ({
    message: `The microphone's table "${f.file}" ${doubt(f)}. ${doubtful(f)} not to be trusted.`,
    remedy:
      f.kind === "angle"
        ? "name the table for the angle at which the microphone stood, or correct orientationDeg in session.json"
        : "hold it against the original from the microphone's maker; without a right table, leave it out",
  }),

  // The session

  "no-mix-position": () => ({
    message: "No position is of the kind mix: monitors are neither summed up nor compared.",
    remedy: 'give the place where the engineer sits the kind "mix" in session.json',
  }),
  "monitor-not-recorded": (f: { monitor: string }) => ({
    message: `No recording of ${f.monitor} is listed.`,
    remedy: "record it, or leave it out of session.json",
  }),
  "mix-not-recorded": (f: { monitor: string; position: string }) => ({
    message: `${capital(f.monitor)} was not recorded at the mix position, or not usably: it is neither summed up nor compared.`,
    remedy: `record it once with the microphone at "${f.position}"`,
  }),
  "places-not-recorded": (f: { places: readonly string[] }) => ({
    message: `${f.places.length === 1 ? "A place is" : "Places are"} named at which nothing was recorded: ${listed(f.places)}.`,
    remedy: "record there, or leave it out of session.json",
  }),
  "unknown-monitor": (f: UnknownId) => unknownId("monitor", f),
  "unknown-position": (f: UnknownId) => unknownId("position", f),
  "listed-twice": (f: { earlier: number; place: string }) => ({
    message: `The recording is listed already as recordings[${f.earlier}] (${f.place}).`,
    remedy: "name the file that was meant, or remove the entry",
  }),
} satisfies Record<string, (facts: never) => Wording>;

export type Code = keyof typeof catalogue;
export type FactsOf<C extends Code> = Parameters<(typeof catalogue)[C]>[0];

type Move = MovedDip & { readonly awayM: number; readonly upM: number };

function moveRemedy(isPair: boolean, moves: readonly Move[]): string {
  const what = isPair ? "move both loudspeakers by the same" : "move the loudspeaker";
  const surface = isPair ? "its surface" : "that surface";
  const ways = moves.map(
    ({ awayM, ...dip }) =>
      `${fixed(100 * Math.abs(awayM), 0)} cm ${awayM < 0 ? `towards ${surface}` : "away from it"} (the dip goes to ${movedDip(dip)})`,
  );
  if (ways.length === 0) return what;
  const ears = moves.some(({ upM }) => Math.abs(upM) >= 0.02)
    ? `, turn ${isPair ? "them" : "it"} towards the ears again`
    : "";
  return `${what}${isPair ? ", each" : ""} ${ways.join(" or ")}${ears}`;
}

function towards(bandHz: number, consequence: string): string {
  if (bandHz < 300)
    return `${consequence}; move the seat or the loudspeakers along the room by half a metre and measure again, then absorb`;
  return `${consequence}; look for a reflection that fits, then at the loudspeaker's own controls`;
}

function doubt(f: CalibrationDoubt): string {
  if (f.kind === "angle") return `is for ${f.angleDeg}°, but the microphone stood at ${f.orientationDeg}°`;
  if (f.kind === "jump")
    return `jumps by ${fixed(f.stepDb, 1)} dB from ${hertz(f.fromHz)} to ${hertz(f.toHz)}, which no microphone does`;
  if (f.kind === "range") return `spans ${fixed(f.rangeDb, 1)} dB, more than any measuring microphone deviates`;
  if (f.kind === "level")
    return `lies around ${fixed(f.meanDb, 1)} dB, not around 0: it seems to hold a sensitivity, not a deviation`;
  return `says nothing from ${hertz(f.fromHz)} to ${hertz(f.toHz)}, which was measured: its nearest value was used there`;
}

/** Whichever of two rows is wrong, what lies between it and its other neighbour is wrong as well. */
export function spoiltHz({ fromHz, toHz }: { readonly fromHz: number; readonly toHz: number }): Range {
  return [fromHz ** 2 / toHz, toHz ** 2 / fromHz];
}

/** The figures that a doubtful table spoils. */
function doubtful(f: CalibrationDoubt): string {
  if (f.kind === "angle") return "Levels in the treble are";
  if (f.kind === "jump") return `Levels and decays ${range(spoiltHz(f))} are`;
  return f.kind === "gap" ? "Levels there are" : "The levels that it corrects are";
}

function morePlaces(places: number): string {
  return places > 1 ? `, and at ${places - 1} more ${places === 2 ? "place" : "places"}` : "";
}

function unknownId(kind: "monitor" | "position", { id, place, known, nearest }: UnknownId): Wording {
  return {
    message: `The session has no ${kind} "${id}" (${place}).`,
    remedy: nearest === null ? `use one of: ${known.join(", ")}` : `did you mean "${nearest}"?`,
  };
}

/** A trouble of the low end as half a sentence, for the sentence that says what to believe. */
export function inShort({ code, rangeHz, channels }: Finding): string {
  if (rangeHz === null) return "see what is to be mended";
  const where = isOneBand(rangeHz) ? hertz(rangeHz[0]) : `${hertz(rangeHz[0])} to ${hertz(rangeHz[1])}`;
  if (code === "rings" || code === "mode-rings") return `${where} rings`;
  if (code === "left-right-bands") return `its ${sideOf(channels[0] ?? "both")} side is weak at ${where}`;
  if (code === "peak") return `${where} is too loud`;
  if (code === "dip") return `${where} is too soft`;
  return code === "phantom-dip" ? `the centre is soft at ${where}` : `${where} changes with your head`;
}
