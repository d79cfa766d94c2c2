import { describe, expect, it } from "vitest";
import { fromError } from "../../src/pipeline/findings.js";
import { makeSweepRecipe } from "../../src/sweep/recipe.js";
import { renderSingle } from "../../src/sweep/render.js";
import { singleEvents } from "../../src/sweep/timeline.js";
import { capture, filtered, whiteNoise } from "../known-recording.js";
import { SHORT_SWEEP } from "../simulate/test-rooms.js";

interface Complex {
  readonly re: number;
  readonly im: number;
}
type Response = (frequencyHz: number) => Complex;

const recipe = makeSweepRecipe(SHORT_SWEEP);
const RATE = recipe.sampleRate;

function plus(a: Complex, b: Complex): Complex {
  return { re: a.re + b.re, im: a.im + b.im };
}

function delayed({ re, im }: Complex, frequencyHz: number, seconds: number): Complex {
  const [c, s] = [Math.cos(2 * Math.PI * frequencyHz * seconds), -Math.sin(2 * Math.PI * frequencyHz * seconds)];
  return { re: re * c - im * s, im: re * s + im * c };
}

/** A Linkwitz-Riley crossover of the fourth order whose lower way is so much later: 1 / b^2 and x^4 / b^2 of b = 1 + i sqrt(2) x - x^2. */
function withSubwoofer(crossoverHz: number, laterS: number): Response {
  return (hz) => {
    const x = hz / crossoverHz;
    const [re, im] = [1 - x * x, Math.SQRT2 * x];
    const level = 1 / (re * re + im * im) ** 2;
    const low = { re: level * (re * re - im * im), im: -level * 2 * re * im };
    return plus(delayed(low, hz, laterS), { re: x ** 4 * low.re, im: x ** 4 * low.im });
  };
}

/** Treble falls to a tenth on its way round a screen; a wall sends all of it, so much later. */
function behindScreen(fromHz: number, wall: number, laterS: number): Response {
  return (hz) => {
    const share = 0.1 + 0.9 / (1 + (hz / fromHz) ** 4);
    return plus({ re: share, im: 0 }, delayed({ re: wall, im: 0 }, hz, laterS));
  };
}

function recorded(response: Response, lostAtS: number | null = null): Float64Array {
  const lead = Math.round(0.3 * RATE);
  const heard = filtered(renderSingle(recipe, "L"), RATE, response);
  const all = whiteNoise(heard.length + lead, 5).map(
    (value, n) => 1e-5 * value + (n < lead ? 0 : 0.3 * heard[n - lead]!),
  );
  if (lostAtS === null) return all;
  const from = Math.round(lostAtS * RATE);
  return Float64Array.from({ length: all.length - 960 }, (_, n) => all[n < from ? n : n + 960]!);
}

function codeOf(samples: Float64Array): string | null {
  try {
    capture(recipe, singleEvents(recipe, "L"), samples, { channel: "L" });
    return null;
  } catch (error) {
    return fromError(error, "known.wav").code;
  }
}

describe("a single sweep whose parts arrive apart", () => {
  const cases: [string, Response][] = [
    ["a subwoofer below 120 Hz, 30 ms late", withSubwoofer(120, 0.03)],
    ["treble by way of a wall 8 ms late, round a screen from 800 Hz up", behindScreen(800, 0.8, 0.008)],
  ];

  it.each(cases)(
    "is the loudspeaker's or the room's while its markers stand where they were played: %s",
    (_, response) => {
      expect(codeOf(recorded(response))).toBeNull();
    },
  );

  it.each(cases)("is a loss all the same where it is one: 20 ms, %s", (_, response) => {
    expect(codeOf(recorded(response, 3.3))).toBe("dropout");
  });
});
