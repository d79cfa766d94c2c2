import { describe, expect, it } from "vitest";

import { guessSession } from "../../src/naming/guess-session.js";
import type { Holds } from "../../src/naming/place-of-name.js";
import { sessionSchema } from "../../src/schema/session.js";

/** The habits are those of the trade, gathered by us; no source. */

/** What each file is taken for, as "monitor role side place kind take". */
function guessed(holds: Holds, ...files: string[]): string[] {
  const guess = guessSession(files.map((file) => ({ file, holds })));
  return guess.recordings.map(({ monitor, channel, position, take }) => {
    const { role } = guess.monitors.find(({ id }) => id === monitor)!;
    const { kind } = guess.positions.find(({ id }) => id === position)!;
    return `${monitor} (${role}) ${channel ?? "reel"} at ${position} (${kind}) take ${take}`;
  });
}

const doubts = (holds: Holds, ...files: string[]): string =>
  guessSession(files.map((file) => ({ file, holds }))).doubts.join("\n");

describe("The name of a single sweep", () => {
  it.each([
    ["Mains L mix 1.wav", "mains (main) L at mix (mix) take 1"],
    ["MAINS_LEFT_MIX_02.WAV", "mains (main) L at mix (mix) take 2"],
    ["Mains/Left/mix take 3.wav", "mains (main) L at mix (mix) take 3"],
    ["MainsRMix2.wav", "mains (main) R at mix (mix) take 2"],
    ["nearfields right - listening position.wav", "nearfields (nearfield) R at mix (mix) take 1"],
    ["near field R sofa t2.wav", "near_field (nearfield) R at sofa (room) take 2"],
    ["mid L 20cm left.wav", "mid (midfield) L at 20cm_left (near) take 1"],
    ["mains R 80 cm back.wav", "mains (main) R at 80cm_back (room) take 1"],
    ["soffits r ear left.wav", "soffits (main) R at ear_left (near) take 1"],
    ["01 mains l sweetspot 240514_1432.wav", "mains (main) L at mix (mix) take 1"],
    ["nears 7314 L mix 1.wav", "nears_7314 (nearfield) L at mix (mix) take 1"],
    ["mains L back wall.wav", "mains (main) L at back_wall (room) take 1"],
    ["mains L+R mix.wav", "mains (main) both at mix (mix) take 1"],
    ["laptop on the desk.wav", "laptop (laptop) both at desk (room) take 1"],
    ["Mains L Größe.wav", "mains_grosse (main) L at mix (mix) take 1"],
  ])("%s", (file, expected) => {
    expect(guessed("one sweep", file)).toEqual([expected]);
  });

  it("with left twice has its side first, and its place where the head is", () => {
    expect(guessed("one sweep", "QX-left_head left.wav", "QX-right_head left.wav", "QX-left_mix.wav")).toEqual([
      "qx (main) L at head_left (near) take 1",
      "qx (main) R at head_left (near) take 1",
      "qx (main) L at mix (mix) take 1",
    ]);
  });

  it("with a letter and a word has the side in the letter", () => {
    expect(guessed("one sweep", "mains R left.wav")).toEqual(["mains (main) R at left (near) take 1"]);
  });

  it("without a side is left out where the other files of the monitor have one", () => {
    const { recordings, unplaced } = guessSession(
      ["mains L mix.wav", "mains mix 2.wav"].map((file) => ({ file, holds: "one sweep" })),
    );
    expect(recordings.map(({ file }) => file)).toEqual(["mains L mix.wav"]);
    expect(unplaced).toMatchObject([{ file: "mains mix 2.wav", reason: /does not say of which side/ }]);
  });

  it("without a side is both at once where no file has one, and that is said of a pair", () => {
    expect(guessed("one sweep", "kitchen phone.wav")).toEqual(["kitchen_phone (phone) both at mix (mix) take 1"]);
    expect(doubts("one sweep", "kitchen phone.wav")).not.toContain("both");
    expect(doubts("one sweep", "nears mix.wav")).toMatch(/No side in the name of nears mix\.wav: written as "both"/);
  });
});

describe("The name of a reel", () => {
  it.each([
    ["mains-mix-1.wav", "mains (main) reel at mix (mix) take 1"],
    ["mains-left.wav", "mains (main) reel at left (near) take 1"],
    ["nears-ahead.wav", "nears (nearfield) reel at ahead (near) take 1"],
    ["near_pos2.wav", "near (nearfield) reel at pos2 (mix) take 1"],
    ["Check cube mix.wav", "check_cube (check) reel at mix (mix) take 1"],
    ["car seat left.wav", "car (car) reel at mix (mix) take 1"],
  ])("%s", (file, expected) => {
    expect(guessed("reel", file)).toEqual([expected]);
  });

  it("gives way to the content where it names a side, and that is said", () => {
    expect(guessed("reel", "mains L mix.wav")).toEqual(["mains (main) reel at mix (mix) take 1"]);
    expect(doubts("reel", "mains L mix.wav")).toMatch(/its name says L, but it holds a reel/);
    expect(doubts("reel", "mains left mix.wav")).toMatch(/its name says L, but it holds a reel/);
    expect(doubts("reel", "mains left.wav")).not.toMatch(/holds a reel/);
  });
});

describe("Names beside each other", () => {
  it("tell two pairs of one kind apart", () => {
    expect(guessed("one sweep", "near blue L.wav", "near blue R.wav", "near grey L.wav", "near grey R.wav")).toEqual([
      "near_blue (nearfield) L at mix (mix) take 1",
      "near_blue (nearfield) R at mix (mix) take 1",
      "near_grey (nearfield) L at mix (mix) take 1",
      "near_grey (nearfield) R at mix (mix) take 1",
    ]);
  });

  it("tell a place by its having no name elsewhere", () => {
    expect(guessed("reel", "mains mix.wav", "mains.wav", "mains fireplace.wav")).toEqual([
      "mains (main) reel at mix (mix) take 1",
      "mains (main) reel at mix (mix) take 2",
      "mains (main) reel at fireplace (room) take 1",
    ]);
    expect(guessed("reel", "mains hearth.wav", "nears hearth.wav")).toEqual([
      "mains (main) reel at hearth (room) take 1",
      "nears (nearfield) reel at hearth (room) take 1",
    ]);
  });

  it("call one monitor by several words of one meaning", () => {
    expect(guessed("one sweep", "near L mix.wav", "Nearfield R mix.wav", "nears L sofa.wav")).toEqual([
      "near (nearfield) L at mix (mix) take 1",
      "near (nearfield) R at mix (mix) take 1",
      "near (nearfield) L at sofa (room) take 1",
    ]);
  });

  it("leave out what stands in every one of them", () => {
    const files = ["Heron mains mix 1.wav", "Heron mains sofa.wav", "Heron nears mix.wav"];
    expect(guessed("reel", ...files)).toEqual([
      "mains (main) reel at mix (mix) take 1",
      "mains (main) reel at sofa (room) take 1",
      "nears (nearfield) reel at mix (mix) take 1",
    ]);
  });

  it("with numbers for places have the first at the seat, and say so", () => {
    const files = ["nears pos1.wav", "nears pos2.wav", "nears pos3-2.wav"];
    expect(guessed("reel", ...files)).toEqual([
      "nears (nearfield) reel at pos1 (mix) take 1",
      "nears (nearfield) reel at pos2 (room) take 1",
      "nears (nearfield) reel at pos3 (room) take 2",
    ]);
    expect(doubts("reel", ...files)).toMatch(/No name says "mix": "pos1" is taken as the mix position/);
    expect(doubts("reel", ...files)).toMatch(
      /How far pos2, pos3 are from the seat is not known: .* edit "kind" to "near"/,
    );
  });

  it("that say nothing at all are takes of one monitor at the seat, and all of that is said", () => {
    expect(guessed("reel", "Audio 1.wav", "Audio 2.wav")).toEqual([
      "monitor (main) reel at mix (mix) take 1",
      "monitor (main) reel at mix (mix) take 2",
    ]);
    expect(doubts("reel", "Audio 1.wav")).toMatch(/Nothing says what kind of monitor "monitor" is/);
    expect(doubts("reel", "Audio 1.wav")).toMatch(/No place in the name of Audio 1\.wav/);
  });

  it("that are alike but for their case stay one, and no two takes are the same", () => {
    expect(guessed("reel", "Mains Mix 1.wav", "mains mix 1.wav", "MAINS mix.wav")).toEqual([
      "mains (main) reel at mix (mix) take 1",
      "mains (main) reel at mix (mix) take 2",
      "mains (main) reel at mix (mix) take 3",
    ]);
    expect(doubts("reel", "Mains Mix 1.wav", "mains mix 1.wav")).toMatch(/another file is take 1 already/);
  });
});

describe("Whatever the files are called", () => {
  it("the guess is a session that the schema accepts", () => {
    const strange = [
      ...[
        "neutral.wav",
        "__proto__ L.wav",
        "Нос L.wav",
        "録音.wav",
        "<b>mains</b>.wav",
        ".wav",
        "a/b/../c.wav",
        "💡 mix.wav",
      ],
      ...["constructor mix 0.wav", "mains L 99999999999999999999.wav", `${"very long ".repeat(20)}L mix.wav`],
      ...[
        "é mix.wav",
        "e mix.wav",
        "E\u0301 mix.wav",
        "take.wav",
        "pos.wav",
        "L.wav",
        "left right left.wav",
        "1 2 3.wav",
      ],
    ];
    for (const holds of ["reel", "one sweep", "impulse response"] as const) {
      const { monitors, positions, recordings, unplaced } = guessSession(strange.map((file) => ({ file, holds })));
      expect(recordings.length + unplaced.length).toBe(strange.length);
      const session = {
        ...{ schema: "carrywell/session/1", sweep: "sweep.json", monitors, positions },
        recordings: recordings.map(({ file, monitor, position, take, channel }) => ({
          ...{ file, monitor, position, take },
          ...(channel === null ? {} : { channel }),
        })),
      };
      expect(sessionSchema.safeParse(session).error).toBeUndefined();
      for (const list of [monitors, positions]) {
        expect(new Set(list.map(({ id }) => id.toLowerCase())).size).toBe(list.length);
      }
      expect(positions.filter(({ kind }) => kind === "mix").length).toBeLessThanOrEqual(1);
    }
  });
});
