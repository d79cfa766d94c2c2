import { car } from "./playback-classes/car.js";
import { earphones } from "./playback-classes/earphones.js";
import { laptop } from "./playback-classes/laptop.js";
import { phone } from "./playback-classes/phone.js";
import type { DocumentedClass } from "./playback-classes/playback-class.js";
import { tv } from "./playback-classes/tv.js";
import { wireless } from "./playback-classes/wireless.js";

/**
 * What a mix may be heard on, in the order in which it is shown.
 *
 * Each class is a file of its own with its source. They are envelopes, not measurements: low, typical and high belong together
 * and are shown as a band.
 */
export const PLAYBACK_CLASSES: readonly DocumentedClass[] = [phone, laptop, wireless, tv, car, earphones];
