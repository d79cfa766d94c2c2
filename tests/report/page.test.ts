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
  it("judges the data in words before anything is drawn", async () => {
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
    expect(text).toContain("Soffit mains minus Two-way nears: level +3.2\u00a0dB over 200\u00a0Hz to 4\u00a0kHz.");
    expect(text).toContain("the strongest (number 1) −9.4\u00a0dB at 0.82\u00a0ms");
    expect(text).toContain("too little range above the noise for T30 (45\u00a0dB needed)");
    expect(text).toContain("3b5d5c3712955042212316173ccf37be800afc5bd0d0a3b9c5c0d8b1b2f4a6e7");
  });

  it("says that a figure is not known, and why, and never prints a number for it", async () => {
    const text = wordsOf(await renderReport(sparseResultsFixture(), assets));
    expect(text).toContain("No measurement can be used; each says why below.");
    expect(text).toContain("not usable");
    expect(text).toContain("The recording is silent.");
    expect(text).toContain("clock drift is not known, since nothing was heard twice");
    expect(text).toContain("no measurement at the mix position, so no mean response");
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
