import { edgesOf, type Seed, seeds } from "./seeds.js";

/** Numbers that break arithmetic, sizes and signs. */
const NASTY = [
  ...[0, 1, 2, 7, 8, 9, 0x7f, 0x80, 0xff, 0x100, 0x7fff, 0x8000, 0xffff],
  ...[0x7fff_ffff, 0x8000_0000, 0xffff_fff8, 0xffff_ffff, 48_000, 4_000_000_000],
];
/** NaN, infinities, the largest and the smallest, as 32-bit floats. */
const FLOATS = [NaN, Infinity, -Infinity, 1e30, -1e30, 3.4e38, 1e-45, 1001];

type Random = () => number;

/** Damages a file in one to five ways. */
export function mutate(seed: Seed, random: Random): Uint8Array {
  let bytes: Uint8Array = seed.bytes.slice();
  for (let change = Math.floor(5 * random() ** 2); change >= 0; change--) {
    if (bytes.length === 0) break;
    bytes = damages[below(damages.length, random)]!(bytes, seed, random);
  }
  return bytes;
}

function below(count: number, random: Random): number {
  return Math.floor(random() * count);
}

/** Headers are where damage does something, so most places fall there. */
function place(bytes: Uint8Array, random: Random): number {
  return below(random() < 0.7 ? Math.min(bytes.length, 120) : bytes.length, random);
}

type Damage = (bytes: Uint8Array, seed: Seed, random: Random) => Uint8Array;

const damages: readonly Damage[] = [
  (bytes, _, random) => {
    bytes[place(bytes, random)] = below(256, random);
    return bytes;
  },
  (bytes, _, random) => {
    bytes[place(bytes, random)]! ^= 1 << below(8, random);
    return bytes;
  },
  (bytes, _, random) => {
    const at = place(bytes, random);
    const width = [2, 4, 8][below(3, random)]!;
    if (at + width > bytes.length) return bytes;
    const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
    const value = NASTY[below(NASTY.length, random)]!;
    const little = random() < 0.5;
    if (width === 2) view.setUint16(at, value & 0xffff, little);
    else if (width === 4) view.setUint32(at, value, little);
    else view.setBigUint64(at, random() < 0.5 ? BigInt(value) : 0xffff_ffff_ffff_ffffn - BigInt(value), little);
    return bytes;
  },
  (bytes, _, random) => {
    const at = 4 * below(Math.floor(bytes.length / 4), random);
    if (at + 4 > bytes.length) return bytes;
    new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength).setFloat32(
      at,
      FLOATS[below(FLOATS.length, random)]!,
      random() < 0.7,
    );
    return bytes;
  },
  (bytes, seed, random) => {
    const edges = edgesOf(seed);
    return bytes.slice(0, Math.min(bytes.length, edges[below(edges.length, random)]!));
  },
  (bytes, _, random) => bytes.slice(0, below(bytes.length + 1, random)),
  (bytes, _, random) => {
    bytes.copyWithin(place(bytes, random), below(bytes.length, random));
    return bytes;
  },
  // A part twice, or something else in the middle.
  (bytes, _, random) => {
    const from = place(bytes, random);
    const part = bytes.slice(from, from + below(64, random));
    return joined(bytes.slice(0, place(bytes, random)), part, bytes.slice(from));
  },
  // The beginning of one file and the end of another.
  (bytes, _, random) => {
    const other = seeds[below(seeds.length, random)]!.bytes;
    return joined(bytes.slice(0, place(bytes, random)), other.slice(place(other, random)));
  },
  (bytes, _, random) =>
    joined(
      bytes,
      Uint8Array.from({ length: below(50, random) }, () => below(256, random)),
    ),
];

function joined(...parts: readonly Uint8Array[]): Uint8Array {
  const bytes = new Uint8Array(parts.reduce((sum, part) => sum + part.length, 0));
  let at = 0;
  for (const part of parts) {
    bytes.set(part, at);
    at += part.length;
  }
  return bytes;
}
