import { InputError } from "../../errors.js";
import { asciiAt, type Reading, stretch } from "./reading.js";

/** A named part of a sound file. */
export interface Chunk {
  readonly id: string;
  /** Where its content begins. */
  readonly start: number;
  readonly claimedBytes: number;
  /** Fewer than claimed where the file ends early. */
  readonly presentBytes: number;
}

/** How a container writes its chunks. */
export interface ChunkForm {
  /** Where the first one begins. */
  readonly from: number;
  /** Bytes of a chunk's size. */
  readonly sizeBytes: 4 | 8;
  readonly bigEndian: boolean;
  /** Whether a chunk of odd size is followed by one byte that its size does not count. */
  readonly padded: boolean;
  /** The size of a chunk whose own field cannot hold it. */
  readonly trueSize?: (id: string, ownField: number, before: readonly Chunk[]) => Reading<number>;
}

/** Far above any file of sound; a file of nothing but empty chunks would be walked through for minutes. */
const MOST_CHUNKS = 4096;
/** What stands in files of sound. Needed only where a writer may have left out a padding byte. */
const KNOWN = new Set(
  (
    "fmt |data|LIST|bext|iXML|cue |fact|JUNK|junk|PAD |FLLR|smpl|inst|id3 |ID3 |axml|chna|_PMX|ds64|minf|elm1|regn|umid|" +
    "DGDA|PEAK|levl|link|cart|acid|strc|afsp|plst|ltxt|note|labl|aXML|SMED|qlty|mext|CDif|DISP|SAUR|" +
    "COMM|SSND|FVER|MARK|INST|NAME|AUTH|ANNO|(c) |COMT|MIDI|APPL|AESD|CHAN|basc|trns"
  ).split("|"),
);

/**
 * Lists a file's chunks from beginning to end, by their headers alone.
 *
 * @param fileBytes - length of the whole file
 * @param isEndless - says of a chunk that nothing but its content follows it
 * @throws {InputError} if there are more of them than any file of sound has
 */
export function* readChunks(
  form: ChunkForm,
  fileBytes: number,
  name: string,
  isEndless: (chunk: Chunk) => boolean = () => false,
): Reading<Chunk[]> {
  const chunks: Chunk[] = [];
  const headerBytes = 4 + form.sizeBytes;
  let at = form.from;
  while (at + headerBytes <= fileBytes) {
    if (chunks.length === MOST_CHUNKS) {
      throw new InputError(`The file consists of more than ${MOST_CHUNKS} parts: it is damaged.`, {
        where: name,
        remedy: "export it again as WAV, or copy it again from the recorder",
      });
    }
    const header = yield* stretch(at, headerBytes);
    const id = asciiAt(header, 0, 4);
    const start = at + headerBytes;
    const ownField = sizeIn(header, form);
    const claimedBytes = form.trueSize ? yield* form.trueSize(id, ownField, chunks) : ownField;
    const chunk = { id, start, claimedBytes, presentBytes: Math.min(claimedBytes, fileBytes - start) };
    chunks.push(chunk);
    if (isEndless(chunk)) break;
    at = start + claimedBytes;
    if (form.padded && claimedBytes % 2 === 1 && (yield* isPadded(at))) at += 1;
  }
  return chunks;
}

function sizeIn(header: DataView, { sizeBytes, bigEndian }: ChunkForm): number {
  if (sizeBytes === 4) return header.getUint32(4, !bigEndian);
  return header.getUint32(4) * 2 ** 32 + header.getUint32(8);
}

/** The byte is asked for by the format, but there are writers who leave it out. */
function* isPadded(at: number): Reading<boolean> {
  const next = yield* stretch(at, 5);
  return KNOWN.has(asciiAt(next, 1, 4)) || !KNOWN.has(asciiAt(next, 0, 4));
}

/** Whether nothing but chunks stands from there to the file's end: what could be sound is something else. */
export function* isAllChunks(form: ChunkForm, fileBytes: number, name: string, only = isKnown): Reading<boolean> {
  const isOther = ({ id }: Chunk): boolean => !only(id);
  const chunks = yield* readChunks(form, fileBytes, name, isOther);
  const last = chunks.at(-1);
  if (!last || chunks.some(isOther)) return false;
  const end = last.start + last.claimedBytes;
  return end === fileBytes || end + 1 === fileBytes;
}

const isKnown = (id: string): boolean => KNOWN.has(id);

/** A chunk's name is four printable characters; those of sound are so one time in fifty. */
export const isChunkName = (id: string): boolean => /^[ -~]{4}$/.test(id);
