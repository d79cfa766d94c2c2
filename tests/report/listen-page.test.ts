import { describe, expect, it } from "vitest";

import { renderListening } from "../../src/report/listen-page.js";
import { listenView } from "../../src/report/listen-view.js";
import { listeningInWords } from "../../src/report/words/listening.js";
import { listeningFixture, shippedListenAssets } from "./listening-fixture.js";

const spaced = (text: string): string => text.replaceAll("\u00a0", " ");

describe("A listening in words", () => {
  it("says what is lost on a typical member, and from a good one to a poor one", () => {
    const words = listeningInWords(listeningFixture, (text) => text);
    expect(words).toContain("phone in the hand: 38 % (29 to 45) of the loudness; down to the 500 Hz octave");
    expect(words).toContain("bass line weak; on a poor one lost");
    expect(words).toContain("Not rendered: nears (no-mix-position)");
  });

  it("says what of a class of one's own is not known, and why", () => {
    const nothing = { loudnessShare: null, lowestOctaveHz: null, reason: "level-not-stated" as const };
    const line = { verdict: null, pitchShare: null, colourShare: null, reason: "curve-not-stated" as const };
    const kitchen = {
      ...{ id: "kitchen", name: "kitchen radio", loses: null },
      members: (["low", "typical", "high"] as const).map((member) => ({ member, ...nothing })),
      bassLine: { typical: line, low: line },
    };
    const { translation } = listeningFixture;
    const listening = { ...listeningFixture, translation: { ...translation, classes: [kitchen] } };
    expect(listeningInWords(listening, (text) => text)).toContain(
      "kitchen radio: loudness not known: its level is not stated; lowest octave not known: its level is not stated; " +
        "bass line not known: its table does not reach down to 40 Hz",
    );
    expect(spaced(listenView(listening).classes[0]!.cells[0]!)).toBe("kitchen radio");
  });

  it("names the bands that cancel in mono", () => {
    expect(spaced(listenView(listeningFixture).mono)).toBe(
      "Left is right upside down at 10 kHz: in mono that vanishes. " +
        "Left and right partly cancel at 8 kHz: in mono that loses 3.5 dB or more.",
    );
  });

  it("takes third octaves that lie side by side as one range", () => {
    const { translation } = listeningFixture;
    const mono = [100, 125, 160, 200, 250].map((nominalHz) => {
      const says = nominalHz === 160 ? null : ("note" as const);
      return { ...translation.mono[0]!, nominalHz, correlation: 0.2, lossDb: -2.2, says, reason: null };
    });
    const listening = { ...listeningFixture, translation: { ...translation, mono } };
    expect(spaced(listenView(listening).mono)).toBe(
      "In mono the mix loses 2 to 3.5 dB from 100 Hz to 125 Hz and from 200 Hz to 250 Hz.",
    );
  });

  it("gives a drift with its range, and no sign where nobody controls it", () => {
    const [table] = listenView(listeningFixture).drift;
    // A phone's own roll-off is no drift.
    expect(table!.columns).toEqual(["nears"]);
    expect(table!.rows.map(({ cells }) => cells[0])).toEqual(["−2.1 (−3.3 to −0.4)", "uncontrolled", "not known"]);
    expect(spaced(table!.note)).toBe("Nobody controls what lies below 44.7 Hz on it.");
  });

  it("says that the monitor listened on is taken out, and that a room is for earphones", () => {
    expect(listenView({ ...listeningFixture, on: "mains" }).how).toContain('Listen on the monitor "mains"');
    const versions = listeningFixture.versions.map((one) => ({ ...one, filter: "room" as const }));
    expect(listenView({ ...listeningFixture, filter: "room", versions }).how).toContain("Listen on earphones");
  });
});

describe("The listening page", () => {
  it("is the same for the same listening", async () => {
    const [first, second] = await Promise.all(
      [0, 1].map(() => renderListening(listeningFixture, shippedListenAssets())),
    );
    expect(first).toBe(second);
    expect(first).toContain('<audio src="class-phone.wav"');
  });
});
