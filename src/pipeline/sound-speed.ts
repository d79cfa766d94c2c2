import type { Session } from "../model.js";
import { speedOfSound } from "../standards/speed-of-sound.js";

const DEFAULT_TEMPERATURE_C = 20;

/** Speed of sound at the session's temperature, or at 20 degrees, m/s. */
export function soundSpeedOf({ environment }: Session): number {
  return speedOfSound(environment?.temperatureC ?? DEFAULT_TEMPERATURE_C);
}
