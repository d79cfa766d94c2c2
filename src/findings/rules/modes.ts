import type { Finding, MeasuredMode, Results } from "../../model.js";
import { bandEdges, THIRD_OCTAVES } from "../../standards/iec61260.js";
import { MODE_SOURCE } from "../../standards/modal-decay.js";
import { expandedUncertainty } from "../../standards/real-difference.js";
import { likelyModes } from "../../words/mode-name.js";
import { worstOf } from "../places.js";
import { stated } from "../stated.js";

/** What is heard as one place of the spectrum is told in one sentence. */
const NEIGHBOURS = 2 ** (1 / 3);
/** A third octave's filter lets so much of its neighbours' slow modes through that they set its decay too. */
const LEAKS = 2 ** (1 / 6);

/** A band's decay is that of a mode where it is no longer than the mode's by so much. */
const EXPLAINED = 1.25;

/** A third octave that rings on for too long. */
interface SlowBand {
  readonly nominalHz: number;
  readonly timeS: number;
}

/**
 * The modes that make third octaves ring on, where they are known: those that ring longer than stays unheard and raise the
 * response so far that it is heard. Whether a band rings is decided by the band's own decay, which noise disturbs least.
 */
export function modesOf(slow: readonly SlowBand[], results: Results): Finding[] {
  const heard = heardModes(results)
    .filter((mode) => slow.some((band) => explains(mode, band)))
    .sort((a, b) => a.frequencyHz - b.frequencyHz);
  const groups: HeardMode[][] = [];
  for (const mode of heard) {
    const before = groups.at(-1)?.at(-1);
    if (before && mode.frequencyHz < NEIGHBOURS * before.frequencyHz) groups.at(-1)!.push(mode);
    else groups.push([mode]);
  }
  return groups.map((group) => tell(group, results));
}

/** Whether a band's ringing is that of a mode that `modesOf` tells. */
export function isOfModes(band: SlowBand, results: Results): boolean {
  return heardModes(results).some((mode) => explains(mode, band));
}

function explains({ rangeHz, t60S }: HeardMode, { nominalHz, timeS }: SlowBand): boolean {
  const band = THIRD_OCTAVES.find((one) => one.nominalHz === nominalHz);
  if (!band) return false;
  const [fromHz, toHz] = bandEdges(band);
  return rangeHz[1] > fromHz / LEAKS && rangeHz[0] < toHz * LEAKS && timeS < EXPLAINED * t60S;
}

function heardModes(results: Results): HeardMode[] {
  return (results.roomModes?.measured ?? []).filter(isHeard);
}

type HeardMode = MeasuredMode & { readonly t60S: number; readonly unheardS: number };

function isHeard(mode: MeasuredMode): mode is HeardMode {
  return mode.audible === true && mode.t60S !== null && mode.unheardS !== null;
}

function tell(group: readonly HeardMode[], results: Results): Finding {
  const worst = worstOf(group, ({ t60S, unheardS }) => t60S / unheardS);
  const { t60S, unheardS, frequencyHz, bumps, predicted } = worst;
  const uncertaintyS = expandedUncertainty([worst.t60UncertaintyS]) ?? 0;
  const raised = bumps.filter(({ raisedDb, heardFromDb }) => raisedDb > heardFromDb).map(({ monitor }) => monitor);
  const facts = {
    only: raised.length === bumps.length ? null : raised,
    frequencyHz,
    alsoHz: group.filter((mode) => mode !== worst).map((mode) => mode.frequencyHz),
    timeS: t60S,
    uncertaintyS,
    limitS: unheardS,
    raisedDb: Math.max(...bumps.map(({ raisedDb }) => raisedDb)),
    likely: likelyModes(predicted.flatMap((index) => results.roomModes?.predicted?.[index] ?? [])),
  };
  return stated("mode-rings", facts, {
    severity: "warning",
    topic: "mend",
    value: t60S,
    uncertainty: uncertaintyS,
    unit: "s",
    limit: unheardS,
    source: MODE_SOURCE,
    audibility: t60S / unheardS,
    bandHz: frequencyHz,
    rangeHz: bandsOf(group),
    monitors: raised,
  });
}

/** The third octaves from the lowest to the highest that the modes reach into. */
function bandsOf(group: readonly MeasuredMode[]): [number, number] {
  const [fromHz, toHz] = [
    Math.min(...group.map((one) => one.rangeHz[0])),
    Math.max(...group.map((one) => one.rangeHz[1])),
  ];
  const touched = THIRD_OCTAVES.filter((band) => bandEdges(band)[1] > fromHz && bandEdges(band)[0] < toHz);
  return [touched[0]?.nominalHz ?? fromHz, touched.at(-1)?.nominalHz ?? toHz];
}
