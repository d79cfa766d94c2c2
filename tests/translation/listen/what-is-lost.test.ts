import { readFileSync } from "node:fs";

import { describe, expect, it } from "vitest";

import { PLAYBACK_CLASSES } from "../../../src/standards/playback-classes.js";
import { phone } from "../../../src/standards/playback-classes/phone.js";
import { classLevelDb, type ClassMember } from "../../../src/standards/playback-classes/playback-class.js";
import { weightingA } from "../../../src/standards/iec61672.js";
import { POPULAR_MUSIC_DB } from "../../../src/standards/popular-music.js";
import { BANDS, type Curve } from "../../../src/translation/bands.js";
import { deviceNoiseDb } from "../../../src/translation/listen/device-noise.js";
import { gainToLevel } from "../../../src/translation/listen/played-level.js";
import { whatIsLost } from "../../../src/translation/listen/what-is-lost.js";

const music = BANDS.map(({ nominalHz }, k) => {
  const power = 10 ** (POPULAR_MUSIC_DB[k]! / 10);
  return { nominalHz, left: power, right: power, cross: power };
});
const flat: Curve = BANDS.map(() => 0);

function onPhone(member: ClassMember): ReturnType<typeof whatIsLost> {
  return whatIsLost(
    music,
    phone,
    member,
    BANDS.map(({ nominalHz }) => classLevelDb(phone, nominalHz, member)),
  );
}

describe("What a system takes away from a mix", () => {
  it("is nothing where it is neutral, and does not hang on the level of the file", () => {
    const quiet = music.map((band) => ({
      ...band,
      left: 1e-6 * band.left,
      right: 1e-6 * band.right,
      cross: 1e-6 * band.cross,
    }));
    expect(whatIsLost(music, phone, "typical", flat).loudnessShare).toBe(0);
    // Rounding of sums of 29 powers.
    expect(whatIsLost(quiet, phone, "typical", flat).loudnessShare).toBeCloseTo(0, 9);
  });

  it("is more on a poor phone than on a good one", () => {
    const [low, typical, high] = (["low", "typical", "high"] as const).map((member) => onPhone(member));
    expect(low!.loudnessShare).toBeGreaterThan(typical!.loudnessShare!);
    expect(typical!.loudnessShare).toBeGreaterThan(high!.loudnessShare!);
  });

  it("is the whole low end on a phone", () => {
    const neutral = whatIsLost(music, phone, "typical", flat).lowestOctaveHz!;
    expect(neutral).toBeLessThanOrEqual(125);
    // The class says so of itself: little under 500 Hz; its 250 Hz octave is 9 to 19 dB down.
    expect(onPhone("typical").lowestOctaveHz).toBeGreaterThanOrEqual(250);
  });

  it("is everything when left and right cancel in its sum", () => {
    const upsideDown = music.map((band) => ({ ...band, cross: -band.left }));
    expect(whatIsLost(upsideDown, phone, "typical", flat)).toEqual({
      member: "typical",
      loudnessShare: 1,
      lowestOctaveHz: null,
      reason: "nothing-left",
    });
  });
});

interface Reference {
  readonly rows: readonly {
    readonly class: string;
    readonly mix: "middle" | "wide";
    readonly member: ClassMember;
    readonly share: number;
    readonly integral: number;
  }[];
}
const { rows } = JSON.parse(readFileSync(new URL("loss-reference.json", import.meta.url), "utf8")) as Reference;

/** From 200 Hz on both sides have nothing in common. */
const wide = music.map((band) => (band.nominalHz < 200 ? band : { ...band, cross: 0 }));

describe("The share of the loudness of popular music that is lost", () => {
  it.each(rows)(
    "on a $class ($member, mix in the $mix) is what numpy computes for itself",
    ({ class: id, mix, member, share, integral }) => {
      const device = PLAYBACK_CLASSES.find((one) => one.id === id)!;
      const curve = BANDS.map(({ nominalHz }) => classLevelDb(device, nominalHz, member));
      const lost = whatIsLost(mix === "middle" ? music : wide, device, member, curve).loudnessShare!;
      // tests/scripts/loss-reference.py: half its last digit, the rest for its grid of 0.0001 Bark.
      expect(Math.abs(lost - share)).toBeLessThan(2e-6);
      // That loudness is compared at 240 places, not integrated, is less than the report's whole percents show.
      expect(Math.abs(lost - integral)).toBeLessThan(0.001);
    },
  );

  it("is not made good by what is won elsewhere: a lift of the bass takes from the rest at the same level", () => {
    const lifted = BANDS.map(({ nominalHz }): number => (nominalHz < 200 ? 10 : 0));
    expect(whatIsLost(music, phone, "typical", lifted).loudnessShare).toBeGreaterThan(0);
  });
});

describe("The level on a device", () => {
  it("is, A-weighted, the one that was asked for", () => {
    const powers = music.map(({ left }) => left);
    const gainDb = gainToLevel(powers, flat, 68)!;
    const sum = BANDS.reduce(
      (all, { exactHz }, k) => all + powers[k]! * 10 ** ((gainDb + weightingA(exactHz)) / 10),
      0,
    );
    // Rounding.
    expect(10 * Math.log10(sum)).toBeCloseTo(68, 9);
  });

  it("meets noise of the level that the class states", () => {
    const noise = deviceNoiseDb("phone", phone.levelDba.noise);
    const sum = BANDS.reduce((all, { exactHz }, k) => all + 10 ** ((noise[k]! + weightingA(exactHz)) / 10), 0);
    // Sixty halvings of 150 dB.
    expect(10 * Math.log10(sum)).toBeCloseTo(phone.levelDba.noise, 9);
    expect(noise[3]!).toBeGreaterThan(noise[20]!);
  });
});
