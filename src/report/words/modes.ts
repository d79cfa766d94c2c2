import type { MeasuredMode, PredictedMode } from "../../model.js";
import { fixed, hertz, listed } from "../../words/numbers.js";
import { modeName } from "../../words/mode-name.js";

/** A mode by its frequency, a group by its ends. */
export function measuredName({ kind, frequencyHz, rangeHz }: MeasuredMode): string {
  return kind === "mode" ? hertz(frequencyHz) : `${fixed(rangeHz[0], 0)} to ${fixed(rangeHz[1], 0)} Hz`;
}

/** More are not worth telling one by one, and of so many none is likely. */
const MOST_NAMES = 2;
const MOST_LIKELY = 4;

/** What the dimensions predict there, the likeliest first. */
export function predictedNames(mode: MeasuredMode, predicted: readonly PredictedMode[] | null): string {
  if (predicted === null) return "";
  const named = mode.predicted.slice(0, MOST_NAMES).map((index) => {
    const { order, frequencyHz } = predicted[index]!;
    return `${modeName(order)} (${fixed(frequencyHz, 1)})`;
  });
  const more = mode.predicted.length - named.length;
  const isMany = mode.predicted.length > (mode.kind === "group" ? MOST_NAMES : MOST_LIKELY);
  if (isMany) return `${mode.predicted.length} modes`;
  if (named.length === 0) return "none";
  return `${named.join("; or ")}${more > 0 ? `; ${more} more` : ""}`;
}

/** Why a mode is heard, is not, or cannot be judged. */
export function audibleWords(mode: MeasuredMode, nameOf: (monitor: string) => string): string {
  const { t60S, unheardS, bumps } = mode;
  const raised = bumps.filter(({ raisedDb, heardFromDb }) => raisedDb > heardFromDb);
  const isShort = t60S !== null && unheardS !== null && t60S <= unheardS;
  if (bumps.length > 0 && raised.length === 0 && !isShort) {
    return t60S === null || unheardS === null
      ? "raises the response too little, however long"
      : "long, but raises the response too little";
  }
  if (t60S === null) return "a wide group: no decay of its own";
  if (unheardS === null) return "outside what listeners were tested with";
  if (t60S <= unheardS) return "short enough";
  if (bumps.length === 0) return "no monitor reaches so low at the mix position";
  if (mode.audible === null) return "longer, but by less than its uncertainty";
  return `long, and stands out with ${listed(raised.map(({ monitor }) => nameOf(monitor)))}`;
}
