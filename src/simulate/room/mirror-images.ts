/** The images that two parallel walls make of a source, along the one axis that crosses both. */
export interface AxisImages {
  /** From the receiver to the image along the axis, metres, with its sign; the nearest image first. */
  readonly offsetM: Float64Array;
  /** 1 where the image looks as the source does along this axis, -1 where it is reversed. */
  readonly facing: Float64Array;
  /** What the walls leave of the pressure, `bands` numbers for each image. */
  readonly strengths: Float64Array;
}

/**
 * Lists the images of a source between two parallel walls.
 *
 * A room with six walls has one image for each triple of images along its three axes, at a distance that follows from
 * the three offsets and with the product of the three strengths.
 *
 * @param lengthM - between the walls, metres
 * @param sourceM - from the near wall, metres
 * @param receiverM - from the near wall, metres
 * @param near - pressure reflection factor of the wall at 0, one for each band
 * @param far - the same for the wall at `lengthM`
 * @param reachM - images further away than this along the axis are left out
 * @remarks Source: J. B. Allen, D. A. Berkley, J. Acoust. Soc. Am. 65 (1979), eq. 9 and 10.
 * @example mirrorImages(4, 1, 3, [0.9], [0.8], 5).offsetM // [-2, -4, 4]: direct, by the near wall, by the far wall
 */
export function mirrorImages(
  lengthM: number,
  sourceM: number,
  receiverM: number,
  near: readonly number[],
  far: readonly number[],
  reachM: number,
): AxisImages {
  const images: { offset: number; facing: number; nearHits: number; farHits: number }[] = [];
  const turns = Math.ceil(reachM / (2 * lengthM)) + 1;
  for (let turn = -turns; turn <= turns; turn++) {
    for (const mirrored of [0, 1]) {
      const offset = (1 - 2 * mirrored) * sourceM + 2 * turn * lengthM - receiverM;
      if (Math.abs(offset) > reachM) continue;
      images.push({
        offset,
        facing: 1 - 2 * mirrored,
        nearHits: Math.abs(turn - mirrored),
        farHits: Math.abs(turn),
      });
    }
  }
  images.sort((a, b) => Math.abs(a.offset) - Math.abs(b.offset) || a.offset - b.offset);
  return {
    offsetM: Float64Array.from(images, (image) => image.offset),
    facing: Float64Array.from(images, (image) => image.facing),
    strengths: Float64Array.from(
      images.flatMap((image) => near.map((factor, band) => factor ** image.nearHits * far[band]! ** image.farHits)),
    ),
  };
}
