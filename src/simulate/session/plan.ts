import type { Scenario } from "../scenario.js";

/** One recording that a scenario asks for. */
export interface PlannedRecording {
  readonly file: string;
  readonly pair: string;
  readonly position: string;
  readonly take: number;
  readonly leadS: number;
  readonly seed: number;
}

/** Lists the recordings of a scenario in the order of the session: by pair, position and take. */
export function planRecordings({ pairs, positions, recorder, seed }: Scenario): PlannedRecording[] {
  const takes = pairs.flatMap((pair) =>
    positions.flatMap((position) =>
      Array.from({ length: position.takes ?? 1 }, (_, index) => ({
        file: `${pair.id}-${position.id}${index > 0 ? `-${index + 1}` : ""}.wav`,
        pair: pair.id,
        position: position.id,
        take: index + 1,
      })),
    ),
  );
  return takes.map((take, index) => ({
    ...take,
    leadS: recorder.leadsS[index % recorder.leadsS.length] ?? 0,
    seed: seed + index,
  }));
}
