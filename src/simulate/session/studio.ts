import { withClockDrift } from "../recording/clock-drift.js";
import { hearInRoom, type PlayedSound, playedSound } from "../recording/played-sound.js";
import { deskReflection } from "../room/desk-reflection.js";
import { roomImpulse } from "../room.js";
import type { Scenario } from "../scenario.js";

/** What is played: full scale 1, shape `[n]` each. */
export interface Reel {
  readonly L: Float64Array;
  readonly R: Float64Array;
  readonly sampleRate: number;
}

const channels = ["L", "R"] as const;

/** Everything in a studio that does not depend on noise, each part of it computed when it is first asked for. */
export interface Studio {
  /**
   * What the recorder gets of one pair at one position without noise, from the start of the reel to the end of the tail.
   *
   * @returns shape `[n]`, recorded full scale 1; the same array each time, not to be written to
   * @throws {RangeError} if the scenario has no such pair or position
   */
  sound(pair: string, position: string): Float64Array;
}

/**
 * Sets up a studio that does not exist.
 *
 * The player's clock drifts against the recorder's, so the reel is stretched and the room's answer to it is not.
 *
 * @throws {RangeError} if the scenario has no mix position
 */
export function openStudio(scenario: Scenario, reel: Reel): Studio {
  const { room, responseS, recorder } = scenario;
  const { sampleRate } = reel;
  const mix = scenario.positions.find(({ kind }) => kind === "mix");
  if (!mix) throw new RangeError("the scenario has no position of the kind mix");
  const once = memory();
  const stretched = (channel: "L" | "R"): Float64Array =>
    once(channel, () => withClockDrift(reel[channel], sampleRate, recorder.clockDriftPpm));

  return {
    sound(pairId, positionId) {
      const pair = named(scenario.pairs, pairId);
      const position = named(scenario.positions, positionId);
      const played = (channel: "L" | "R"): PlayedSound =>
        once(`${pairId} ${channel}`, () =>
          playedSound(stretched(channel), sampleRate, pair.monitors[channel], Math.round(responseS * sampleRate)),
        );
      return once(`${pairId} ${positionId}`, () => {
        const sound = new Float64Array(stretched("L").length + Math.round(recorder.tailS * sampleRate));
        for (const channel of channels) {
          const xyzM = pair.placement[channel];
          const path = {
            room,
            source: { xyzM, aimM: mix.xyzM, directivity: pair.directivity },
            receiverM: position.xyzM,
            extraPaths: pair.desk ? [deskReflection(xyzM, position.xyzM, room, pair.desk)] : [],
          };
          hearInRoom(played(channel), roomImpulse(path, sampleRate, responseS), sound, 0);
        }
        const gain = 10 ** (recorder.gainDb / 20);
        for (let n = 0; n < sound.length; n++) sound[n]! *= gain;
        return sound;
      });
    },
  };
}

function memory(): <Value>(key: string, make: () => Value) => Value {
  const known = new Map<string, unknown>();
  return <Value>(key: string, make: () => Value): Value => {
    if (!known.has(key)) known.set(key, make());
    return known.get(key) as Value;
  };
}

function named<Item extends { readonly id: string }>(items: readonly Item[], id: string): Item {
  const item = items.find((one) => one.id === id);
  if (!item) throw new RangeError(`the scenario has no "${id}", only ${items.map((one) => one.id).join(", ")}`);
  return item;
}
