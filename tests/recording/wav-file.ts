/** Builds WAV files byte by byte, right and wrong ones, independently of the code under test. */

export interface WavParts {
  readonly tag?: number;
  readonly channels?: number;
  readonly sampleRate?: number;
  readonly bits?: number;
  readonly blockAlign?: number;
  /** Writes the 40-byte extensible format chunk with this many valid bits. */
  readonly extensible?: { readonly validBits: number };
  readonly before?: readonly Uint8Array[];
  readonly after?: readonly Uint8Array[];
  readonly data: Uint8Array;
  /** What the data chunk claims, where that differs from what it holds. */
  readonly claimedBytes?: number;
}

export function wavFile(parts: WavParts): Uint8Array {
  const body = concat([
    ascii("WAVE"),
    ...(parts.before ?? []),
    chunk("fmt ", formatBytes(parts)),
    chunk("data", parts.data, parts.claimedBytes),
    ...(parts.after ?? []),
  ]);
  return concat([ascii("RIFF"), little(body.length, 4), body]);
}

export function formatBytes(parts: Omit<WavParts, "data">): Uint8Array {
  const { tag = 1, channels = 1, sampleRate = 48_000, bits = 16, extensible } = parts;
  const blockAlign = parts.blockAlign ?? (channels * Math.ceil(bits / 8)) % 65_536;
  const plain = concat([
    little(extensible ? 0xfffe : tag, 2),
    little(channels, 2),
    little(sampleRate, 4),
    little(sampleRate * blockAlign, 4),
    little(blockAlign, 2),
    little(bits, 2),
  ]);
  if (!extensible) return plain;
  const tail = [0, 0, 0, 0, 0x10, 0, 0x80, 0, 0, 0xaa, 0, 0x38, 0x9b, 0x71];
  return concat([plain, little(22, 2), little(extensible.validBits, 2), little(3, 4), little(tag, 2), tail]);
}

/** A chunk with its padding byte. */
export function chunk(id: string, content: Uint8Array, claimedBytes = content.length): Uint8Array {
  return concat([ascii(id), little(claimedBytes, 4), content, content.length % 2 === 1 ? [0] : []]);
}

/** Integers to little-endian two's complement (offset binary at 8 bits). */
export function pcmBytes(steps: readonly number[], bits: number): Uint8Array {
  return concat(steps.map((step) => little(bits === 8 ? step + 128 : step, bits / 8)));
}

export function floatBytes(values: readonly number[], bits: 32 | 64): Uint8Array {
  return new Uint8Array((bits === 32 ? Float32Array : Float64Array).from(values).buffer);
}

export function little(value: number, bytes: number): Uint8Array {
  return Uint8Array.from({ length: bytes }, (_, n) => Math.floor(value / 256 ** n) & 0xff);
}

export function ascii(text: string): Uint8Array {
  return Uint8Array.from(text, (letter) => letter.charCodeAt(0));
}

export function concat(parts: readonly ArrayLike<number>[]): Uint8Array {
  const joined = new Uint8Array(parts.reduce((sum, part) => sum + part.length, 0));
  let at = 0;
  for (const part of parts) {
    joined.set(part, at);
    at += part.length;
  }
  return joined;
}
