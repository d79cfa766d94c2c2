import type { Session } from "../../../src/model.js";
import type { Fault, Strength } from "../fault.js";
import { cleanSession, type LabSession } from "../laboratory.js";

/** Left is played by the loudspeaker that stands right. */
function swapped({ session, ...rest }: LabSession): LabSession {
  const monitors = session.monitors.map((monitor): Session["monitors"][number] => {
    const { L, R } = monitor.placement!;
    return { ...monitor, placement: { L: R!, R: L! } };
  });
  return { ...rest, session: { ...session, monitors } };
}

/** The left loudspeaker stands 15 cm from where the session says. */
const misplaced: Strength["inject"] = () => {
  const { session, ...rest } = cleanSession({ left: 1 });
  const monitors = session.monitors.map((monitor): Session["monitors"][number] => {
    const { L, R } = monitor.placement!;
    return { ...monitor, placement: { L: [L![0] + 0.15, L![1], L![2]], R: R! } };
  });
  return { ...rest, session: { ...session, monitors } };
};

export const swappedChannelsFault: Fault = {
  what: "left and right are swapped",
  code: "channels-swapped",
  severity: "warning",
  strengths: [
    {
      strength: "not at all, a loudspeaker 15 cm from its stated place",
      verdict: "harmless",
      isSlow: true,
      inject: misplaced,
    },
    // Nothing tells the sides apart there.
    {
      strength: "heard from the middle alone",
      verdict: "harmless",
      isSlow: true,
      inject: () => swapped(cleanSession()),
    },
    {
      strength: "heard from 15 cm left of the middle",
      verdict: "harmful",
      inject: () => swapped(cleanSession({ left: 1 })),
    },
  ],
};
