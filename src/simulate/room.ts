import { inverseReal, transformSize } from "../dsp/fft.js";
import { ArrivalGrid } from "./room/arrival-grid.js";
import { collectImages } from "./room/collect-images.js";
import { distinctBands } from "./room/distinct-bands.js";
import { joinBands } from "./room/join-bands.js";
import { checkPath, type RoomPath } from "./room/room-path.js";

/** How far the walls' filters are heard to ring, before and after, seconds. */
const RINGING_S = 0.04;

/**
 * Computes the impulse response between a source and a receiver in a shoebox room, by mirror images.
 *
 * Sample 0 is the emission; the direct sound arrives at distance / speed of sound with strength 1 / distance, so a
 * loudspeaker at 1 m in the open gives 1. Delays are exact to a small fraction of a sample. The walls reflect without
 * a turn of phase, so modes lie where the dimensions put them. The response is as flat as the band limit, 0.455 of the
 * sample rate, and has no constant part when `leakHz` is above 0.
 *
 * Left out: scattering and diffraction (so flutter between parallel walls is stronger than in a furnished room), the
 * dependence of absorption on angle, the phase of a real wall's reflection, what stands in the room except
 * `extraPaths`, and the size of the source. A wall's filter has zero phase: it rings equally before and after.
 *
 * @param path - the room, the source, the receiver
 * @param sampleRate - Hz
 * @param lengthS - images that arrive later are left out; choose it longer than the longest reverberation time
 * @returns shape `[round(lengthS * sampleRate)]`, linear amplitude re 1 m
 * @throws {RangeError} if source or receiver is outside the room, both are at one place, or a number is out of range
 * @remarks Source: J. B. Allen, D. A. Berkley, J. Acoust. Soc. Am. 65 (1979).
 */
export function roomImpulse(path: RoomPath, sampleRate: number, lengthS: number): Float64Array {
  checkPath(path);
  const length = Math.round(lengthS * sampleRate);
  if (!(length >= 1)) throw new RangeError(`lengthS ${lengthS} is shorter than a sample at ${sampleRate} Hz`);
  // Room for the ringing of the walls' filters and of the band limit, which would otherwise wrap round to the start.
  const size = transformSize(length + Math.ceil(RINGING_S * sampleRate));
  const bands = distinctBands(path);
  const grid = new ArrivalGrid(bands.members.length, size);
  collectImages(path, bands.members, sampleRate, length, grid);
  return inverseReal(joinBands(grid, bands, path.room.leakHz, sampleRate, size)).slice(0, length);
}
