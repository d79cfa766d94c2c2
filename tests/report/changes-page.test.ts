import { describe, expect, it } from "vitest";

import { changesCsv } from "../../src/report/changes/csv.js";
import { renderChanges } from "../../src/report/changes/page.js";
import { changesFixture, monitorsFixture, oddChangesFixture } from "./changes-fixture.js";
import { shippedAssets } from "./report-assets.js";

const assets = { ...shippedAssets(), plotLibrary: "window.Plotly = { react() {} };" };

function wordsOf(html: string): string {
  return html
    .slice(html.indexOf("<body>"), html.indexOf('<script type="application/json"'))
    .replace(/<[^>]*>/g, " ")
    .replace(/&nbsp;|\u00a0/g, " ")
    .replace(/[ \n]+/g, " ");
}

describe("A comparison as a page", () => {
  it("says first what is better, then what is worse, then what has not changed and what cannot be told", async () => {
    const text = wordsOf(await renderChanges(changesFixture(), assets));
    const places = [
      "Before and after: Control room B",
      "14 May 2026 and 18 June 2026 · Absorbers on the rear wall.",
      "better for certain, and one thing worse. First, for mains: see first whether the change",
      "What is better",
      "Mains: the decay is shorter at 100 Hz to 160 Hz",
      "What is worse",
      "Mains: the tone is farther from its target at 200 Hz, by 4.1 dB (+0.2 to +4.3 dB)",
      "What has not changed",
      "no noticeable difference of tone in",
      "What these measurements cannot tell",
      "6 measurements of mains and nears",
      "figures were judged at once",
      "lent from another quantity",
    ].map((part) => text.indexOf(part));
    expect(
      places.every((place) => place >= 0),
      JSON.stringify(places),
    ).toBe(true);
    expect(places).toEqual([...places].sort((a, b) => a - b));
  });

  it("is the same, byte for byte, for the same changes", async () => {
    expect(await renderChanges(changesFixture(), assets)).toBe(await renderChanges(changesFixture(), assets));
  });

  it("keeps hostile text as text and names what has no counterpart", async () => {
    const html = await renderChanges(oddChangesFixture(), assets);
    expect(html).not.toMatch(/<img/);
    expect(html.match(/<script/g)).toHaveLength(3);
    const text = wordsOf(html);
    expect(text).toContain("{{ title }}");
    expect(text).toMatch(/Monitor nears before After there is no monitor/);
    expect(text).toMatch(/Monitor smalls after Before there is no monitor/);
  });

  it("of two monitors calls them by their names, and neither of them before or after", async () => {
    const text = wordsOf(await renderChanges(monitorsFixture(), assets));
    expect(text).toContain("Nears against mains");
    expect(text).toContain("Where nears is worse than mains");
    expect(text).toContain("Nears against mains: the tone is farther from its target at 31.5 Hz to 50 Hz");
    expect(text).not.toMatch(/What is better|Before and after/);
  });

  it("says how many figures were judged at once, and what that costs", async () => {
    const changes = changesFixture();
    const text = wordsOf(await renderChanges(changes, assets));
    expect(text).toContain(`${String(changes.chance.judged)} figures were judged at once`);
    expect(text).toContain("is at most 5 % for the whole page");
  });
});

it("the table for other programs has a row for every figure, in full precision", () => {
  const changes = changesFixture();
  const rows = changesCsv(changes).trimEnd().split("\r\n");
  const figures = changes.pairs.reduce((sum, { quantities }) => sum + quantities.length, 0);
  expect(rows).toHaveLength(figures + 1);
  const decay = rows.find((row) => row.startsWith("mains-L@mix,mains,L,mix,t30S,125,3"))!;
  expect(decay.split(",").slice(9, 12)).toEqual(["0.62", "0.34", String(0.34 - 0.62)]);
});
