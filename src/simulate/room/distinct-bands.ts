import type { RoomPath } from "./room-path.js";

/** Octaves in which nothing differs share one grid. */
export interface Bands {
  /** One octave's index for each grid. */
  readonly members: readonly number[];
  /** For each octave, its grid. */
  readonly gridOf: readonly number[];
}

/** Finds which octaves differ in the walls, the air or the source, so that equal ones are computed once. */
export function distinctBands({ room, source }: RoomPath): Bands {
  const members: number[] = [];
  const known = new Map<string, number>();
  const tables = [...Object.values(room.absorption), room.airDbPerM, source.aimM && source.directivity];
  const gridOf = room.absorption.front.map((_, octave) => {
    const key = tables.map((table) => table?.[octave] ?? "-").join();
    const grid = known.get(key) ?? members.push(octave) - 1;
    known.set(key, grid);
    return grid;
  });
  return { members, gridOf };
}
