import { aiffChunk, aiffFile, big, cafChunk, cafFile, flacFile, rf64File } from "../recording/sound-files.js";
import { seededRandom } from "../recording/seeded-random.js";
import { ascii, chunk, concat, floatBytes, formatBytes, pcmBytes, wavFile } from "../recording/wav-file.js";

/** Sound files that are right, of every container, small enough that damage hits something that matters. */
export interface Seed {
  readonly name: string;
  readonly bytes: Uint8Array;
}

const random = seededRandom(11);
const steps = (count: number, bits: number): number[] =>
  Array.from({ length: count }, () => Math.floor((random() - 0.5) * 2 ** bits));
const list = chunk("LIST", ascii("INFOISFT\x05\0\0\0desk\0"));
const bext = chunk("bext", new Uint8Array(602).fill(0x41));
const turned = (bytes: Uint8Array, width: number): Uint8Array =>
  concat(Array.from({ length: bytes.length / width }, (_, n) => bytes.slice(n * width, (n + 1) * width).reverse()));

export const seeds: readonly Seed[] = [
  { name: "8.wav", bytes: wavFile({ bits: 8, data: pcmBytes(steps(40, 8), 8) }) },
  { name: "16.wav", bytes: wavFile({ channels: 2, data: pcmBytes(steps(60, 16), 16), before: [bext], after: [list] }) },
  {
    name: "24.wav",
    bytes: wavFile({ bits: 24, extensible: { validBits: 20 }, data: pcmBytes(steps(33, 24), 24), after: [list] }),
  },
  { name: "32.wav", bytes: wavFile({ bits: 32, channels: 5, data: pcmBytes(steps(50, 32), 32) }) },
  {
    name: "float.wav",
    bytes: wavFile({
      tag: 3,
      bits: 32,
      before: [list],
      data: floatBytes(
        steps(40, 1).map((x) => x / 3),
        32,
      ),
    }),
  },
  {
    name: "double.wav",
    bytes: wavFile({ tag: 3, bits: 64, extensible: { validBits: 64 }, data: floatBytes([0.5, -1, 0.1, 0], 64) }),
  },
  {
    name: "crashed.wav",
    bytes: wavFile({ channels: 2, data: pcmBytes(steps(60, 16), 16), claimedBytes: 0xffff_ffff }),
  },
  {
    name: "long.rf64",
    bytes: rf64File({ formatBytes: formatBytes({ channels: 2 }), data: pcmBytes(steps(40, 16), 16), after: [list] }),
  },
  {
    name: "16.aif",
    bytes: aiffFile({
      channels: 2,
      frames: 20,
      data: turned(pcmBytes(steps(40, 16), 16), 2),
      before: [aiffChunk("NAME", ascii("Take"))],
    }),
  },
  {
    name: "float.aifc",
    bytes: aiffFile({
      kind: "fl32",
      bits: 32,
      frames: 9,
      data: turned(floatBytes(steps(9, 1), 32), 4),
      soundFirst: true,
    }),
  },
  {
    name: "24.caf",
    bytes: cafFile({
      bits: 24,
      channels: 3,
      flags: 2,
      data: pcmBytes(steps(30, 24), 24),
      before: [cafChunk("info", ascii("odd"))],
    }),
  },
  {
    name: "float.caf",
    bytes: cafFile({ bits: 64, flags: 3, data: floatBytes(steps(12, 1), 64), claimed: new Uint8Array(8).fill(255) }),
  },
  {
    name: "16.flac",
    bytes: flacFile({ channels: [steps(300, 16), steps(300, 16)], bits: 16, block: 64, notes: ascii("a note") }),
  },
  { name: "24.flac", bytes: flacFile({ channels: [steps(100, 24)], bits: 24, block: 100, claimedSamples: 0 }) },
];

/** Places where one part of a file ends and another begins, and the fields between: where truncation does most. */
export function edgesOf({ bytes }: Seed): number[] {
  const edges = new Set<number>([0, 1, 4, 8, 12, bytes.length]);
  // Names of parts are four printable letters; the size behind them is part of the edge.
  for (let at = 0; at + 4 <= bytes.length; at++) {
    const name = String.fromCharCode(...bytes.subarray(at, at + 4));
    const isPart = /^(RIFF|RF64|WAVE|FORM|AIF[FC]|caff|fLaC|ds64|fmt |data|LIST|bext|COMM|SSND|NAME|desc|info)$/.test(
      name,
    );
    const isFrame = bytes[at] === 0xff && (bytes[at + 1]! & 0xfe) === 0xf8;
    if (isPart || isFrame) for (const more of [-1, 0, 1, 4, 8, 12, 16]) edges.add(at + more);
  }
  return [...edges].filter((edge) => edge >= 0 && edge <= bytes.length).sort((a, b) => a - b);
}

export const zip = concat([ascii("PK\x03\x04\x14\0\0\0\x08\0"), new Uint8Array(300).fill(0x37)]);
export const nested = concat([ascii("RIFF"), big(0xffff_ffff, 4), ascii("WAVE"), seeds[1]!.bytes]);
