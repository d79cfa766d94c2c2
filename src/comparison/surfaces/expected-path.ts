export type Point = readonly [number, number, number];

/** What geometry expects of one way from loudspeaker to listener. */
export interface ExpectedPath {
  /** Names of the surfaces that it meets, one or two. */
  readonly surfaces: readonly string[];
  readonly lengthM: number;
  readonly detourM: number;
  /** How far inside the nearest edge the sound meets them; Infinity where there is none, negative outside. */
  readonly insideM: number;
  readonly blockedBy: readonly string[];
  /** Change of the detour with the places, per metre. */
  readonly perSource: Point;
  readonly perReceiver: Point;
}
