/** Metres: along the length from the front wall, along the width from the left wall, up from the floor. */
export type Point = readonly [x: number, y: number, z: number];

export function difference(a: Point, b: Point): Point {
  return [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
}

/** A point so many times along a direction from another. */
export function along(from: Point, direction: Point, times: number): Point {
  return [from[0] + times * direction[0], from[1] + times * direction[1], from[2] + times * direction[2]];
}

export function dot(a: Point, b: Point): number {
  return a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
}

export function cross(a: Point, b: Point): Point {
  return [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]];
}

export function distance(a: Point, b: Point): number {
  return Math.hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2]);
}

/**
 * Direction of length 1.
 *
 * @throws {RangeError} if the vector has no length
 */
export function unit(vector: Point): Point {
  const length = Math.hypot(...vector);
  if (!(length > 0)) throw new RangeError(`a vector of length ${length} has no direction`);
  return [vector[0] / length, vector[1] / length, vector[2] / length];
}
