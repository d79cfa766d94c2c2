import type { Results, Translation } from "../../src/model.js";
import { translate } from "../../src/pipeline/translate.js";
import { builtInProgramme } from "../../src/pipeline/translate/programme.js";
import type { PlaybackClass } from "../../src/standards/playback-classes/playback-class.js";
import { BANDS } from "../../src/translation/bands.js";
import { resultsFixture } from "../report/results-fixture.js";

/** Invented results, translated, with classes of one's own; two monitors, `mains` and `nears`, whose deviations are then stated. */
export function translatedResults(
  classes: readonly PlaybackClass[],
  deviationsDb: Readonly<Record<string, (nominalHz: number) => number | null>> = {},
): Results & { translation: Translation } {
  const results = resultsFixture();
  const translation = translate(results, { programme: builtInProgramme("popular"), targets: new Map(), classes });
  const deviations = translation.deviations.map((row) => {
    const deviationAt = deviationsDb[row.monitor];
    return deviationAt
      ? { ...row, bands: row.bands.map((band) => ({ ...band, deviationDb: deviationAt(band.nominalHz) })) }
      : row;
  });
  return { ...results, translation: { ...translation, deviations } };
}

/** A small loudspeaker that is level from 100 Hz up, gives so much at 40 Hz, and plays at 70 dB(A) where it is quiet. */
export function smallLoudspeaker(at40HzDb: number, parts: Partial<PlaybackClass> = {}): PlaybackClass {
  return {
    id: "radio",
    name: "radio",
    loses: null,
    mono: true,
    label: "stated in the session",
    source: "closed form",
    levelDba: { typical: 70, noise: 20, source: "closed form" },
    envelope: BANDS.map(({ nominalHz }) => {
      const typicalDb = nominalHz <= 40 ? at40HzDb : nominalHz < 100 ? at40HzDb / 2 : 0;
      return [nominalHz, typicalDb - 6, typicalDb, typicalDb + 3] as const;
    }),
    ...parts,
  };
}
