import fc from "fast-check";
import { expect, it } from "vitest";

import { soundReader } from "../../src/recording/sound-reader.js";
import { readFromMemory, sourceOf } from "../recording/read-from-memory.js";
import { aiffChunk, aiffFile, cafChunk, cafFile, flacFile } from "../recording/sound-files.js";
import { ascii, chunk, concat, little, pcmBytes, wavFile } from "../recording/wav-file.js";
import { firstSeed, howMany } from "./how-many.js";

/** Files that are right, laid out in any way that is allowed: what is heard is what was put in. */

interface Recorded {
  readonly bits: 8 | 16 | 24;
  /** Steps of each channel. */
  readonly channels: readonly (readonly number[])[];
}

const recorded: fc.Arbitrary<Recorded> = fc
  .record({
    bits: fc.constantFrom(8, 16, 24),
    channels: fc.integer({ min: 1, max: 4 }),
    frames: fc.integer({ min: 1, max: 60 }),
  })
  .chain(({ bits, channels, frames }) => {
    const step = fc.integer({ min: -(2 ** (bits - 1)), max: 2 ** (bits - 1) - 1 });
    const side = fc.array(step, { minLength: frames, maxLength: frames });
    return fc.record({
      bits: fc.constant(bits),
      channels: fc.array(side, { minLength: channels, maxLength: channels }),
    });
  });

const note = fc.record({
  id: fc.constantFrom("LIST", "bext", "iXML", "cue ", "JUNK", "id3 ", "fact"),
  content: fc.uint8Array({ maxLength: 41 }),
  padded: fc.boolean(),
});
const notes = fc.array(note, { maxLength: 4 });
type Note = typeof note extends fc.Arbitrary<infer T> ? T : never;

const interleaved = ({ channels }: Recorded): number[] =>
  channels[0]!.flatMap((_, n) => channels.map((side) => side[n]!));
const heard = ({ bits, channels }: Recorded): number[][] =>
  channels.map((side) => side.map((step) => step / 2 ** (bits - 1)));
const wavNote = ({ id, content, padded }: Note): Uint8Array =>
  padded ? chunk(id, content) : concat([ascii(id), little(content.length, 4), content]);
const turned = (bytes: Uint8Array, width: number): Uint8Array =>
  concat(Array.from({ length: bytes.length / width }, (_, n) => bytes.slice(n * width, (n + 1) * width).reverse()));
/** Offset binary to two's complement: only WAV has the former. */
const signed = (data: Uint8Array, bits: number): Uint8Array => (bits === 8 ? data.map((byte) => byte ^ 0x80) : data);
const runs = { numRuns: howMany(150, 3000), seed: firstSeed };

it("WAV, plain or extensible, with any notes around, padded or not, its length written or not", async () => {
  const form = fc.record({ recorded, before: notes, after: notes, extensible: fc.boolean(), unwritten: fc.boolean() });
  await fc.assert(
    fc.asyncProperty(form, async ({ recorded: sound, before, after, extensible, unwritten }) => {
      const { bits, channels } = sound;
      const file = wavFile({
        ...{ bits, channels: channels.length, data: pcmBytes(interleaved(sound), bits) },
        ...(extensible ? { extensible: { validBits: bits } } : {}),
        before: before.map(wavNote),
        ...(unwritten ? { claimedBytes: 0xffff_ffff } : { after: after.map(wavNote) }),
      });
      const read = await readFromMemory(file);
      expect(read.lengthFromFile).toBe(unwritten);
      // A length from the file takes the padding byte of an odd number of samples along where it completes a frame of 8 bits.
      const frames = channels[0]!.length;
      expect(read.frames - frames).toBeLessThanOrEqual(
        unwritten && bits === 8 && channels.length === 1 ? frames % 2 : 0,
      );
      expect(read.channels.map((side) => side.slice(0, frames))).toEqual(heard(sound));
    }),
    runs,
  );
});

it("AIFF and CAF, in either order of bytes, with any notes around", async () => {
  const form = fc.record({ recorded, before: notes, after: notes, little: fc.boolean() });
  await fc.assert(
    fc.asyncProperty(form, async ({ recorded: sound, before, after, little: isLittle }) => {
      const { bits, channels } = sound;
      const plain = signed(pcmBytes(interleaved(sound), bits), bits);
      const data = isLittle ? plain : turned(plain, bits / 8);
      const aiff = aiffFile({
        ...{ bits, channels: channels.length, frames: channels[0]!.length, data },
        ...(isLittle ? { kind: "sowt" } : {}),
        before: before.map(({ id, content }) => aiffChunk(id, content)),
        after: after.map(({ id, content }) => aiffChunk(id, content)),
      });
      expect((await readFromMemory(aiff)).channels).toEqual(heard(sound));
      const caf = cafFile({
        ...{ bits, channels: channels.length, flags: isLittle ? 2 : 0, data },
        before: before.map(({ id, content }) => cafChunk(id, content)),
        after: after.map(({ id, content }) => cafChunk(id, content)),
      });
      expect((await readFromMemory(caf)).channels).toEqual(heard(sound));
    }),
    runs,
  );
});

it("FLAC in blocks of any length, read in stretches of any length from any place", async () => {
  const form = fc.record({
    recorded,
    block: fc.integer({ min: 1, max: 64 }),
    stretches: fc.array(fc.tuple(fc.nat(60), fc.nat(60)), { maxLength: 6 }),
  });
  await fc.assert(
    fc.asyncProperty(form, async ({ recorded: { bits, channels }, block, stretches }) => {
      const sound = await soundReader(sourceOf(flacFile({ channels, bits, block })), "a.flac");
      for (const [from, count] of stretches) {
        const part = await sound.read(from, count);
        expect(part.map((side) => Array.from(side))).toEqual(
          heard({ bits, channels }).map((side) => side.slice(from, from + count)),
        );
      }
      await sound.close();
    }),
    { ...runs, numRuns: howMany(60, 1000) },
  );
});
