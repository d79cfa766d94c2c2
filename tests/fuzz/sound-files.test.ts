import { afterAll, describe, expect, it } from "vitest";

import { seededRandom } from "../recording/seeded-random.js";
import { ascii, concat } from "../recording/wav-file.js";
import { firstSeed, howMany } from "./how-many.js";
import { type End, hearHostile } from "./hear-hostile.js";
import { mutate } from "./mutate.js";
import { edgesOf, nested, seeds, zip } from "./seeds.js";

/** Nothing of a small file may take this much: a process that reads thousands of them stays below. */
const MOST_MEMORY_MB = 400;
/** Between the fastest and the slowest machine there is a factor of ten; what hangs takes for ever. */
const LONGEST_MS = 5000;

const ends: Record<End, number> = { heard: 0, refused: 0 };
let slowestMs = 0;

async function hear(bytes: Uint8Array, what: string): Promise<End> {
  const start = performance.now();
  try {
    const end = await hearHostile(bytes);
    ends[end]++;
    return end;
  } catch (error) {
    throw new Error(`${what}: ${String(error)}`, { cause: error });
  } finally {
    slowestMs = Math.max(slowestMs, performance.now() - start);
  }
}

describe("Damaged recordings are heard or refused with reason, never anything else", { timeout: 3_600_000 }, () => {
  it("whole ones are heard, to begin with", async () => {
    for (const { name, bytes } of seeds) expect(await hear(bytes, name), name).toBe("heard");
  });

  it("cut at every edge of every part", async () => {
    for (const seed of seeds) {
      for (const edge of edgesOf(seed)) await hear(seed.bytes.slice(0, edge), `${seed.name} cut at ${edge}`);
    }
  });

  it("in one to five places at once, by bits, bytes, numbers, cuts and splices", async () => {
    const count = howMany(900, 20_000);
    for (let n = 0; n < count; n++) {
      const seed = seeds[n % seeds.length]!;
      await hear(mutate(seed, seededRandom(firstSeed + n)), `${seed.name}, seed ${firstSeed + n}`);
    }
  });

  it("and other things under a recording's name", async () => {
    for (const [what, bytes] of Object.entries({ zip, text: ascii("see you at ten"), empty: new Uint8Array(0) })) {
      expect(await hear(bytes, what)).toBe("refused");
    }
    await hear(nested, "a file within a file");
    await hear(concat(Array.from({ length: 100 }, () => seeds[0]!.bytes)), "a hundred files in one");
  });

  afterAll(() => {
    const files = ends.heard + ends.refused;
    const memoryMb = process.resourceUsage().maxRSS / 1024;
    console.log(
      `sound files: ${files} (${ends.heard} heard, ${ends.refused} refused), slowest ${slowestMs.toFixed(0)} ms, ` +
        `most memory ${memoryMb.toFixed(0)} MB`,
    );
    // Both ends must be frequent, or the damage was too mild or too wild to say anything.
    expect(ends.heard).toBeGreaterThan(0.1 * files);
    expect(ends.refused).toBeGreaterThan(0.1 * files);
    expect(slowestMs).toBeLessThan(LONGEST_MS);
    expect(memoryMb).toBeLessThan(MOST_MEMORY_MB);
  });
});
