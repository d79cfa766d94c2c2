import { partsOfName } from "../../naming/parts-of-name.js";
import { wordsOf } from "../../naming/words-of-name.js";
import type { SessionText } from "../../schema/session.js";
import type { FolderSurvey } from "./survey-folder.js";

interface ProposedMicrophone {
  readonly microphone: SessionText["microphone"];
  readonly uses: readonly { readonly file: string; readonly use: string }[];
  readonly doubts: readonly string[];
}

/** Levels of acoustic calibrators and pistonphones, dB. From memory. */
const CALIBRATOR_DB = [94, 104, 110, 114, 124];

/** The microphone's table and the calibrator's recording, where it is clear which file that is. */
export function proposeMicrophone({ tables, sounds }: FolderSurvey): ProposedMicrophone {
  const doubts: string[] = [];
  const uses: { file: string; use: string }[] = [];
  const named = tables.filter(isCalledMicrophone);
  const calibration = named.length === 1 ? named[0] : undefined;
  if (calibration !== undefined) uses.push({ file: calibration, use: "the microphone's table" });
  if (named.length > 1) {
    doubts.push(
      `Which table is the microphone's? ${named.join(", ")}: add "calibration" to "microphone", with one of them.`,
    );
  }
  for (const file of tables.filter((table) => !named.includes(table))) {
    doubts.push(
      `${file} is a table of levels: if it is the microphone's, add "calibration": ${JSON.stringify(file)} to "microphone".`,
    );
  }
  const tones = sounds.flatMap(({ file, content }) => (content.kind === "calibrator" ? [{ file, ...content }] : []));
  const [tone] = tones;
  const level = tone && tones.length === 1 ? levelOf(tone.file) : null;
  if (tone && level !== null) {
    uses.push({ file: tone.file, use: `a calibrator's tone at ${tone.toneHz.toFixed(0)} Hz, ${level} dB by its name` });
  }
  for (const { file, toneHz } of level === null ? tones : []) {
    doubts.push(
      `${file} holds a calibrator's tone at ${toneHz.toFixed(0)} Hz, and nothing says its level: add "level": { "file": ${JSON.stringify(file)}, "soundPressureLevelDb": 94 } to "microphone", with the level that stands on it.`,
    );
  }
  const microphone = {
    ...(calibration === undefined ? {} : { calibration }),
    ...(tone && level !== null ? { level: { file: tone.file, soundPressureLevelDb: level } } : {}),
  };
  return { microphone: Object.keys(microphone).length > 0 ? microphone : undefined, uses, doubts };
}

/** After the microphone, or after nothing but a serial number. */
function isCalledMicrophone(file: string): boolean {
  const own = file.slice(file.lastIndexOf("/") + 1);
  return (
    partsOfName(own).some(({ says }) => says.kind === "microphone") ||
    wordsOf(own).every(({ number }) => number !== null)
  );
}

function levelOf(file: string): number | null {
  const levels = wordsOf(file).flatMap(({ number }) =>
    number !== null && CALIBRATOR_DB.includes(number) ? [number] : [],
  );
  return levels.length === 1 ? levels[0]! : null;
}
