import { capital, listed } from "../../words/numbers.js";
import type { Wording, Wordings } from "../wording.js";

export interface UnknownId {
  readonly id: string;
  readonly place: string;
  readonly known: readonly string[];
  readonly nearest: string | null;
}

/** What the session lists and nobody recorded, or names and does not know. */
export const sessionWords = {
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
} satisfies Wordings;

function unknownId(kind: "monitor" | "position", { id, place, known, nearest }: UnknownId): Wording {
  return {
    message: `The session has no ${kind} "${id}" (${place}).`,
    remedy: nearest === null ? `use one of: ${known.join(", ")}` : `did you mean "${nearest}"?`,
  };
}
