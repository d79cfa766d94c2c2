import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";

import { type Browser, type BrowserContext, chromium, type Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";

import { renderReport } from "../../src/report/page.js";
import { renderChanges } from "../../src/report/changes/page.js";
import { changesFixture, oddChangesFixture } from "../report/changes-fixture.js";
import { shippedAssets } from "../report/report-assets.js";
import { hostileResultsFixture, resultsFixture, sparseResultsFixture } from "../report/results-fixture.js";
import { findBrowser } from "./find-browser.js";
import * as inPage from "./in-page.js";

const quietFlags = [
  "--no-sandbox",
  "--disable-gpu",
  "--disable-background-networking",
  "--disable-component-update",
  "--disable-dev-shm-usage",
  "--no-first-run",
];
const folder = mkdtempSync(join(tmpdir(), "carrywell-report-"));
/** Response, target, left and right of two, decay, energy over time of two, noise, places, distortion of two. */
const pictures = 11;
let browser: Browser;

interface Opened {
  readonly page: Page;
  readonly context: BrowserContext;
  /** Everything that should not have happened. */
  readonly faults: string[];
}

function addressOf(name: string): string {
  return pathToFileURL(join(folder, `${name}.html`)).href;
}

async function open(name: string, widthPx: number, javaScriptEnabled = true): Promise<Opened> {
  const context = await browser.newContext({ viewport: { width: widthPx, height: 900 }, javaScriptEnabled });
  const page = await context.newPage();
  const faults: string[] = [];
  page.on("console", (message) => {
    if (["error", "warning", "trace"].includes(message.type())) faults.push(`console: ${message.text()}`);
  });
  page.on("pageerror", (error) => faults.push(`error: ${error.message}`));
  page.on("dialog", (dialog) => {
    faults.push(`dialog: ${dialog.message()}`);
    void dialog.dismiss();
  });
  context.on("request", (request) => {
    if (request.url() !== addressOf(name)) faults.push(`request: ${request.url().slice(0, 80)}`);
  });
  context.on("page", () => faults.push("a second page"));
  if (javaScriptEnabled) {
    await page.addInitScript(inPage.reportViolations);
  }
  await page.goto(addressOf(name));
  if (javaScriptEnabled) await page.waitForSelector("html.drawn", { timeout: 50_000 });
  return { page, context, faults };
}

/** Every figure drawn, none beyond the window, and nothing that has to be scrolled sideways. */
async function expectWhole(page: Page, figures: number): Promise<void> {
  expect(await page.locator(".plot").count()).toBe(figures);
  expect(await page.evaluate<string[]>(inPage.undrawn)).toEqual([]);
  expect(await page.evaluate<string[]>(inPage.namesInTheWay)).toEqual([]);
  expect(await page.evaluate<number>(inPage.plotsBeyondWindow)).toBe(0);
  expect(await page.evaluate<number>(inPage.sidewaysScrollPx)).toBe(0);
}

beforeAll(async () => {
  const assets = shippedAssets();
  const pages = { plain: resultsFixture(), hostile: hostileResultsFixture(), sparse: sparseResultsFixture() };
  for (const [name, results] of Object.entries(pages)) {
    writeFileSync(join(folder, `${name}.html`), await renderReport(results, assets));
  }
  for (const [name, changes] of Object.entries({ changes: changesFixture(), "odd-changes": oddChangesFixture() })) {
    writeFileSync(join(folder, `${name}.html`), await renderChanges(changes, assets));
  }
  const intruder = `${assets.template}<script>window.broken = "template"</script><p onclick="window.broken = 1">x</p>`;
  writeFileSync(join(folder, "intruder.html"), await renderReport(resultsFixture(), { ...assets, template: intruder }));
  browser = await chromium.launch({ executablePath: findBrowser(), args: quietFlags });
}, 300_000);

afterAll(async () => {
  // Not there when it could not be launched.
  await (browser as Browser | undefined)?.close();
  rmSync(folder, { recursive: true, force: true });
});

describe("the report in a browser, opened from the disk at 1280 px", () => {
  let opened: Opened;

  beforeAll(async () => {
    opened = await open("plain", 1280);
  }, 60_000);

  afterAll(async () => {
    await opened.context.close();
  });

  it("draws every figure and needs no sideways scroll", async () => {
    await expectWhole(opened.page, pictures);
  });

  it("offers no way to send the figures anywhere", async () => {
    const { page } = opened;
    expect(await page.getByText(/share|cloud|edit chart/i).count()).toBe(0);
    expect(await page.locator(".modebar-btn, [data-title]").count()).toBe(0);
    expect(await page.evaluate<string[]>(inPage.linksElsewhere)).toEqual([]);
  });

  it("shows the values with their units under the pointer", async () => {
    const { page } = opened;
    const plot = page.locator("#plot-response .nsewdrag").first();
    await plot.scrollIntoViewIfNeeded();
    await plot.hover();
    const hover = page.locator("#plot-response .hoverlayer");
    await expect.poll(async () => hover.textContent()).toMatch(/Hz.*Soffit mains.*−?\d+\.\d ± \d\.\d dB/);
  });

  it("fits its figures to the paper when printed, and to the window again after", async () => {
    const { page } = opened;
    const widths = async (): Promise<number[]> => page.evaluate<number[]>(inPage.plotWidthsPx);
    const before = await widths();
    await page.evaluate(inPage.notePrinting);
    await page.pdf({ format: "A4" });
    // 182 mm between the margins of A4 are 688 px.
    expect(await page.evaluate<unknown>(inPage.printed)).toEqual({ widestPx: 680, folded: 0 });
    await expect.poll(widths).toEqual(before);
  });

  it("fits its figures to the window when that becomes narrow, as when a telephone is turned", async () => {
    const { page } = opened;
    await page.setViewportSize({ width: 640, height: 900 });
    await expect.poll(async () => page.evaluate<number>(inPage.plotsBeyondWindow)).toBe(0);
    await expectWhole(page, pictures);
  });

  it("asks for nothing and complains of nothing through all that", () => {
    expect(opened.faults).toEqual([]);
  });
});

describe("the report in a browser", () => {
  it("draws every figure at 390 px and needs no sideways scroll", async () => {
    const { page, context, faults } = await open("plain", 390);
    await expectWhole(page, pictures);
    expect(faults).toEqual([]);
    await context.close();
  });

  it("runs nothing that hides in the results", async () => {
    const { page, context, faults } = await open("hostile", 390);
    await expectWhole(page, pictures);
    expect(await page.evaluate<boolean>(inPage.broken)).toBe(false);
    expect(await page.locator("img, iframe, .plot a, main a[href^='javascript']").count()).toBe(0);
    expect(await page.title()).toContain(`</script><script>window.broken = "script"</script>`);
    expect(faults).toEqual([]);
    await context.close();
  });

  it("runs nothing that a template brings: the policy stops it", async () => {
    const { page, context, faults } = await open("intruder", 1280);
    await page.getByText("x", { exact: true }).click();
    expect(await page.evaluate<boolean>(inPage.broken)).toBe(false);
    // The browser says so, which also shows that this test would hear of a violation elsewhere.
    expect(faults.filter((fault) => /policy/i.test(fault)).length).toBeGreaterThanOrEqual(2);
    await context.close();
  });

  it("opens when next to nothing could be measured", async () => {
    const { page, context, faults } = await open("sparse", 390);
    expect(await page.getByText("The recording is silent.").count()).toBe(1);
    expect(await page.evaluate<number>(inPage.sidewaysScrollPx)).toBe(0);
    expect(faults).toEqual([]);
    await context.close();
  });
});

describe("a comparison in a browser", () => {
  // Decay, tone and sides of each monitor that both have.
  it.each([
    ["changes", 1280, 6],
    ["changes", 390, 6],
    ["odd-changes", 390, 3],
  ])(
    "(%s) draws its figures at %d px, needs no sideways scroll and runs nothing that hides in it",
    async (name, widthPx, count) => {
      const { page, context, faults } = await open(name, widthPx);
      await expectWhole(page, count);
      expect(await page.evaluate<boolean>(inPage.broken)).toBe(false);
      expect(faults).toEqual([]);
      await context.close();
    },
  );
});

describe("the report without JavaScript", () => {
  it("reads in full: verdicts, tables, and a line in place of each plot", async () => {
    const { page, context, faults } = await open("plain", 390, false);
    await expect(page.getByText("Low end: believe mains").first().isVisible()).resolves.toBe(true);
    await expect(page.getByText("Decay time by octave, s").isVisible()).resolves.toBe(true);
    expect(await page.locator(".plot:visible").count()).toBe(0);
    expect(await page.locator("p.unplotted", { hasText: "The plot needs JavaScript" }).count()).toBe(pictures);
    await page.getByText("Response at third-octave midbands").click();
    expect(await page.locator("details[open] tbody tr").count()).toBe(29);
    expect(faults).toEqual([]);
    await context.close();
  });
});
