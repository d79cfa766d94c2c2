import { InputError } from "../errors.js";
import type { Session } from "../model.js";
import type { JsonText } from "../schema/json-text.js";
import { placeOf } from "../schema/validate.js";
import { fixed } from "../words/numbers.js";

/**
 * A room with niches, slopes or splayed walls holds more or less than length times width times height, by up to this share: a
 * choice of ours. What is further off is a slip of the pen.
 */
const MOST_APART = 0.25;

/**
 * Holds a room's volume against its dimensions.
 *
 * @throws {InputError} if one of them must be wrong
 */
export function refuseContradictingVolume({ room }: Session, document: JsonText): void {
  const { lengthM, widthM, heightM, volumeM3 } = room ?? {};
  if (lengthM === undefined || widthM === undefined || heightM === undefined || volumeM3 === undefined) return;
  const boxM3 = lengthM * widthM * heightM;
  if (Math.abs(volumeM3 / boxM3 - 1) <= MOST_APART) return;
  const text = (value: number): string => (value < 10 ? fixed(value, 2) : fixed(value, 0));
  throw new InputError(
    `The room's volume, ${text(volumeM3)} m³, contradicts its dimensions: ${lengthM} m by ${widthM} m by ${heightM} m hold ${text(boxM3)} m³.`,
    {
      where: placeOf(document, ["room", "volumeM3"]),
      remedy: `correct lengthM, widthM, heightM or volumeM3, all in metres; they may differ by ${fixed(100 * MOST_APART, 0)} %, and one that is not known is best left out`,
    },
  );
}
