import type { Session } from "../model.js";

/** The words that people name recordings with, in English. From the habits of the trade; no source. */

export type Role = Session["monitors"][number]["role"];

export type Meaning =
  /** A weak one gives way to another role in the same name: it has a meaning of its own as well. */
  | { readonly kind: "role"; readonly role: Role; readonly isWeak: boolean }
  /** One loudspeaker of a pair, and nothing else. */
  | { readonly kind: "letter"; readonly channel: "L" | "R" }
  /** A loudspeaker, or a place beside the seat. */
  | { readonly kind: "side"; readonly channel: "L" | "R" }
  | { readonly kind: "both" }
  | { readonly kind: "mix" }
  /** A direction from the seat. */
  | { readonly kind: "direction" }
  /** Says that a direction is meant for the head. */
  | { readonly kind: "head" }
  /** A place in the room. */
  | { readonly kind: "place" }
  /** A word for any place, told apart by what follows. */
  | { readonly kind: "placeNoun" }
  | { readonly kind: "take" }
  | { readonly kind: "length" }
  | { readonly kind: "played" }
  | { readonly kind: "impulse" }
  | { readonly kind: "microphone" }
  | { readonly kind: "filler" };

const role = (name: Role, isWeak = false): Meaning => ({ kind: "role", role: name, isWeak });

const groups: readonly (readonly [Meaning, string])[] = [
  [role("main"), "main mains soffit soffits farfield farfields"],
  [role("main", true), "far fars big bigs large"],
  [role("midfield"), "midfield midfields mids"],
  [role("midfield", true), "mid"],
  [role("nearfield"), "nears nearfield nearfields nf nfs desktops"],
  [role("nearfield", true), "near small smalls"],
  [role("check"), "cube cubes grot grots grotbox"],
  [role("check", true), "check checks"],
  [role("car"), "car van vehicle"],
  [role("phone"), "phone mobile smartphone cellphone handset"],
  [role("laptop"), "laptop notebook"],
  [role("tv"), "tv television telly soundbar"],
  [role("headphone"), "headphone headphones cans earphone earphones earbud earbuds iem iems"],
  [role("other"), "hifi radio boombox bluetooth sub subwoofer"],
  [{ kind: "letter", channel: "L" }, "l"],
  [{ kind: "letter", channel: "R" }, "r"],
  [{ kind: "side", channel: "L" }, "left lft"],
  [{ kind: "side", channel: "R" }, "right rgt"],
  [{ kind: "both" }, "both lr phantom"],
  [
    { kind: "mix" },
    "mix mixpos mixposition listening listener lp mlp sweet sweetspot engineer seat chair centre center",
  ],
  [{ kind: "direction" }, "ahead behind forward forwards backward backwards front back up down above below"],
  [{ kind: "head" }, "head ear"],
  [{ kind: "place" }, "sofa couch client producer door doorway corner window rear wall desk table bench row room"],
  [{ kind: "placeNoun" }, "pos position place location loc point pt spot p"],
  [{ kind: "take" }, "take tk t try run pass repeat rep"],
  [{ kind: "length" }, "cm"],
  [{ kind: "played" }, "sweep reel"],
  [{ kind: "impulse" }, "ir irs rir impulse"],
  [
    { kind: "microphone" },
    "mic microphone capsule cal calib calibration calibrator calibrated pistonphone deg degree degrees",
  ],
  [
    { kind: "filler" },
    "speaker speakers loudspeaker loudspeakers monitor monitors field box rec recording audio track sound file meas measurement mono stereo of at in on the and final new wav copy loopback db spl hz khz",
  ],
];

const meanings = new Map(
  groups.flatMap(([meaning, words]) => words.split(" ").map((word) => [word, meaning] as const)),
);

/** What a word means by itself; null for one that is not known. */
export function meaningOf(key: string): Meaning | null {
  return meanings.get(key) ?? null;
}
