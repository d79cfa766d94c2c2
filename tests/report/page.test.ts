import { createHash } from "node:crypto";

import { describe, expect, it } from "vitest";

import { InputError } from "../../src/errors.js";
import { renderReport } from "../../src/report/page.js";
import { shippedAssets } from "./report-assets.js";
import { hostileResultsFixture, resultsFixture, sparseResultsFixture } from "./results-fixture.js";

const shipped = shippedAssets();
// The text of the real library only makes these pages longer; the browser test uses it.
const assets = { ...shipped, plotLibrary: `window.Plotly = { react() {} }; // </script> <!-- \r\n` };

function programs(html: string): string[] {
  return [...html.matchAll(/<script>([\s\S]*?)<\/script>/g)].map((match) => match[1]!);
}

function wordsOf(html: string): string {
  return html
    .slice(html.indexOf("<body>"), html.indexOf('<script type="application/json"'))
    .replace(/<[^>]*>/g, " ")
    .replace(/[ \n]+/g, " ");
}

describe("the report as a file", () => {
  it("is the same, byte for byte, for the same results", async () => {
    expect(await renderReport(resultsFixture(), assets)).toBe(await renderReport(resultsFixture(), assets));
  });

  it("lets exactly its own programs run, and names them before the first one", async () => {
    const html = await renderReport(resultsFixture(), assets);
    const policy = /<meta http-equiv="Content-Security-Policy" content="([^"]*)">/.exec(html)!;
    const hashes = programs(html).map((text) => `'sha256-${createHash("sha256").update(text).digest("base64")}'`);
    expect(hashes).toHaveLength(2);
    expect(policy[1]).toContain(`script-src ${hashes.join(" ")};`);
    expect(policy[1]).toContain("default-src 'none'");
    expect(policy[1]).not.toContain("unsafe-eval");
    expect(policy.index).toBeLessThan(html.indexOf("<script"));
  });

  it("loads nothing from anywhere", async () => {
    const html = await renderReport(resultsFixture(), assets);
    expect(html).not.toMatch(/<link|<iframe|<object|\ssrc=|@import|url\(/);
  });

  it("keeps hostile text in the results as text", async () => {
    const html = await renderReport(hostileResultsFixture(), assets);
    expect(programs(html)).toHaveLength(2);
    expect(html.match(/<script/g)).toHaveLength(3);
    expect(html.match(/<\/script/g)).toHaveLength(3);
    expect(html).not.toMatch(/<img|<a href="javascript|onmouseover="|<svg onload/);
    // Templates and replacement patterns in the data come out as they went in.
    expect(wordsOf(html)).toContain("$&amp; $1 $` $&#39; {{ title }} {% raw %}");
    const data = /<script type="application\/json" id="report-data">([\s\S]*?)<\/script>/.exec(html)![1]!;
    expect(data).not.toMatch(/[<>&\u2028\u2029]/);
    expect(JSON.parse(data)).toHaveProperty("figures");
  });
});

describe("what a report says without its plots", () => {
  it("begins with what to trust, then what to mend, then what is not known, each in the order of the results", async () => {
    const results = resultsFixture();
    const text = wordsOf(await renderReport(results, assets));
    const places = [
      "What to trust",
      ...["Low end: believe mains", "Tone: believe nears"],
      "What to mend",
      ...["A reflection reaches you", "Right of mains is weaker", "The room rings", "The low end of nears stops"],
      ...[
        "What was not measured well enough to say",
        "No calibrator was recorded",
        "The recordings",
        "Pictures",
        "Tables",
      ],
    ].map((words) => text.indexOf(words, text.indexOf("What to trust")));
    expect(places).toEqual(places.toSorted((a, b) => a - b));
    expect(places).not.toContain(-1);
  });

  it("keeps a finding's own words, with its figure, its limit and where that comes from beside it", async () => {
    const text = wordsOf(await renderReport(resultsFixture(), assets));
    const from = text.indexOf("A reflection reaches you");
    const finding = text.slice(from, text.indexOf("Right of mains is weaker"));
    expect(finding).toContain("at −9.4\u00a0±\u00a00.6\u00a0dB: it colours the tone like a comb.");
    expect(finding).toContain("Look at the desk first");
    expect(finding).toContain("−9.4\u00a0±\u00a00.6\u00a0dB; limit −10\u00a0dB");
    expect(finding).toContain("The limit comes from: ITU-R BS.1116-3 and EBU Tech 3276");
  });

  it("links findings to pictures that are on the page, and to no others", async () => {
    const html = await renderReport(resultsFixture(), assets);
    const links = [...html.matchAll(/href="#(figure-[^"]*)"/g)].map((match) => match[1]!);
    expect(links).toContain("figure-plot-energy-time-nears");
    for (const link of links) expect(html).toContain(`id="${link}"`);
    expect(await renderReport(sparseResultsFixture(), assets)).not.toContain('href="#figure-');
  });

  it("says for each picture in a sentence what to see", async () => {
    const html = await renderReport(resultsFixture(), assets);
    const sentences = [...html.matchAll(/<p class="see">([^<]*)<\/p>/g)].map((match) => match[1]!);
    expect(sentences).toHaveLength(html.match(/<figure/g)!.length);
    for (const sentence of sentences) expect(sentence).toMatch(/^[A-Z].*[^.]\.$/s);
  });

  it("marks advisory limits as such, and says of what was not judged why", async () => {
    const text = wordsOf(await renderReport(resultsFixture(), assets));
    expect(text).toMatch(/within .*?beyond \(advisory\).*?not judged \(advisory\): no calibrator/);
  });

  it("states uncertainty at this position and in the room apart", async () => {
    const text = wordsOf(await renderReport(resultsFixture(), assets));
    expect(text).toContain("At this position: every U");
    expect(text).toContain("In the room: what a figure says of the room as a whole");
    expect(text).toContain("U in the room");
  });

  it("judges the recordings in words before anything is drawn", async () => {
    const text = wordsOf(await renderReport(resultsFixture(), assets));
    expect(text).toContain("All 4 measurements can be used, 2 of them with care.");
    expect(text).toContain("clock drift 11.3\u00a0±\u00a00.2\u00a0ppm, corrected");
    expect(text).toContain("Something knocked during the sweep");
    expect(text).toContain("Record this take again with nobody moving.");
    expect(text.indexOf("usable with care")).toBeLessThan(text.indexOf("Energy mean of left and right."));
  });

  it("gives levels, decay, reflections, distortion and extension with units and uncertainty", async () => {
    const text = wordsOf(await renderReport(resultsFixture(), assets));
    expect(text).toContain("Left arrives 15\u00a0±\u00a02\u00a0µs later.");
    expect(text).toContain("Left and right arrive together within the uncertainty (1\u00a0±\u00a02\u00a0µs).");
    expect(text).toContain("Soffit mains 34.1 Hz 27.9 Hz below range");
    expect(text).toContain("Soffit mains − Two-way nears +3.2 0.4 not included +0.85");
    expect(text).toContain("The strongest reflection comes 1.2\u00a0ms after the direct sound (right)");
    expect(text).toContain("Soffit mains can show what Two-way nears must hide: 11.2\u00a0±\u00a01.2\u00a0dB");
    expect(text).toContain("too little range above the noise for T30 (45\u00a0dB needed)");
    expect(text).toContain("3b5d5c3712955042212316173ccf37be800afc5bd0d0a3b9c5c0d8b1b2f4a6e7");
  });

  it("says that a figure is not known, and why, and never prints a number for it", async () => {
    const text = wordsOf(await renderReport(sparseResultsFixture(), assets));
    expect(text).toContain("No measurement can be used; each says why.");
    expect(text).toContain("What to mend No measurement can be used, so nothing can be said here.");
    expect(text).not.toContain("Nothing was found to mend.");
    expect(text).toContain("not usable");
    expect(text).toContain("The recording is silent.");
    expect(text).toContain("clock drift is not known, since nothing was heard twice");
    expect(text).toContain("no mean response, no measurement at the mix position");
    expect(text).toContain("only one channel was measured");
    expect(text).toContain("No decay could be measured.");
    expect(text).toContain("Not known: harmonics can be told apart only");
    expect(text).not.toMatch(/NaN|undefined|null|Infinity/);
  });
});

describe("a template of the user's own", () => {
  const page = async (template: string): Promise<string> => renderReport(resultsFixture(), { ...assets, template });

  it("can lay out the page anew", async () => {
    expect(await page("<h1>{{ title | upcase }}</h1>")).toContain("<h1>CONTROL ROOM B BEFORE TREATMENT</h1>");
  });

  it.each([
    ["a name that does not exist", "{{ titel }}"],
    ["a filter that does not exist", "{{ title | shout }}"],
    ["a filter that would undo the escaping", "{{ title | raw }}"],
    ["the clock", `{{ "now" | date: "%s" }}`],
    ["a file beside it", `{% render "report.css" %}`],
    ["a file elsewhere", `{% include "/etc/hostname" %}`],
    ["a tag left open", "{% if title %}"],
  ])("is refused with a reason when it asks for %s", async (_, template) => {
    await expect(page(template)).rejects.toThrow(InputError);
  });

  it.each(["constructor", "__proto__", "toString"])("cannot reach beyond the data through %s", async (name) => {
    await expect(page(`{{ title.${name} }}{{ ${name} }}`)).rejects.toThrow(InputError);
  });

  it("cannot run a program: its script has no place in the policy", async () => {
    const html = await page("<script>window.broken = 1</script>");
    const digest = createHash("sha256").update("window.broken = 1").digest("base64");
    expect(html.indexOf("Content-Security-Policy")).toBeLessThan(html.indexOf("window.broken"));
    expect(html).not.toContain(digest);
  });
});
