import { minimumPhase } from "../../dsp/minimum-phase.js";
import { straightOverLog } from "../../dsp/straight-over-log.js";
import { BANDS, type Curve } from "../bands.js";

/** Long enough for a third octave at 25 Hz (5.8 Hz wide) to be told from its neighbours. A choice of ours. */
const LENGTH_S = 0.17;

/** How many taps a tone filter has at a sample rate. */
function toneTaps(sampleRate: number): number {
  return 2 ** Math.round(Math.log2(LENGTH_S * sampleRate));
}

/**
 * Makes the filter that colours a mix as a monitor or a playback class does.
 *
 * The curve goes straight over log frequency from midband to midband; where it is not known it keeps the nearest value that is,
 * below 25 Hz and above 16 kHz too.
 *
 * @param deviationDb - by third octave, dB re neutral
 * @returns taps of minimum phase; null where nothing is known
 * @example toneFilter(BANDS.map(() => -6), 48_000) // [0.501, 0, 0, ...]
 */
export function toneFilter(deviationDb: Curve, sampleRate: number): Float64Array | null {
  const known = BANDS.flatMap(({ exactHz }, k) => {
    const level = deviationDb[k];
    return level == null ? [] : [{ hz: exactHz, level }];
  });
  const [first] = known;
  const last = known.at(-1);
  if (!first || !last) return null;
  const levelAt = (hz: number): number => {
    if (hz <= first.hz) return first.level;
    if (hz >= last.hz) return last.level;
    const upper = known.findIndex((point) => point.hz >= hz);
    const [from, to] = [known[upper - 1]!, known[upper]!];
    return straightOverLog(hz, from.hz, to.hz, from.level, to.level);
  };
  return minimumPhase(levelAt, sampleRate, toneTaps(sampleRate));
}
