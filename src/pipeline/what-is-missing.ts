import { stated } from "../findings/stated.js";
import type { Finding, Session } from "../model.js";
import type { Take } from "./capture.js";

/**
 * What a session leaves to be recorded: told while there is still time, and no fault.
 *
 * @param takes - what could be used
 */
export function whatIsMissing(session: Session, takes: readonly Take[]): Finding[] {
  const mix = session.positions.find(({ kind }) => kind === "mix");
  const say = <C extends Parameters<typeof stated>[0]>(
    code: C,
    facts: Parameters<typeof stated<C>>[1],
    monitors: string[] = [],
  ): Finding => stated(code, facts, { severity: "info", topic: "unknown", monitors });
  const ofMonitors = session.monitors.flatMap(({ id }): Finding[] => {
    const own = takes.filter(({ recording }) => recording.monitor === id);
    const isListed = session.recordings.some(({ monitor }) => monitor === id);
    // What was recorded and cannot be used is told with the recording.
    if (own.length === 0) return isListed ? [] : [say("monitor-not-recorded", { monitor: id }, [id])];
    const channels = new Set(own.map(({ channel }) => channel));
    return [
      ...(channels.size === 1 && !channels.has("both") ? [say("one-channel", { monitor: id }, [id])] : []),
      ...(mix && !own.some(({ recording }) => recording.position === mix.id)
        ? [say("mix-not-recorded", { monitor: id, position: mix.id }, [id])]
        : []),
    ];
  });
  const unused = session.positions.filter(({ id }) => !session.recordings.some(({ position }) => position === id));
  const places = unused.filter(({ kind }) => kind !== "mix").map(({ id }) => id);
  return [...ofMonitors, ...(places.length > 0 ? [say("places-not-recorded", { places })] : [])];
}
