import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";

import { type Browser, chromium, type Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";

import { encodeWav } from "../../src/recording/encode-wav.js";
import { renderListening } from "../../src/report/listen-page.js";
import { hostileListening, listeningFixture, shippedListenAssets } from "../report/listening-fixture.js";
import { findBrowser } from "./find-browser.js";
import * as inPage from "./in-page.js";

const folder = mkdtempSync(join(tmpdir(), "carrywell-listen-"));
let browser: Browser;

/** Every frame that the browser draws: the volumes of the players that run and are not muted, together. */
const watch = `(() => {
  globalThis.sounding = [];
  const players = [...document.querySelectorAll("#versions audio")];
  const look = () => {
    globalThis.sounding.push(players.filter((one) => !one.paused && !one.muted).reduce((sum, { volume }) => sum + volume, 0));
    requestAnimationFrame(look);
  };
  look();
})()`;

async function open(name: string, javaScriptEnabled = true): Promise<{ page: Page; faults: string[] }> {
  const context = await browser.newContext({ viewport: { width: 1000, height: 900 }, javaScriptEnabled });
  const page = await context.newPage();
  const faults: string[] = [];
  page.on("console", (message) => {
    if (["error", "warning"].includes(message.type())) faults.push(message.text());
  });
  page.on("pageerror", (error) => faults.push(error.message));
  page.on("dialog", (dialog) => {
    faults.push(dialog.message());
    void dialog.dismiss();
  });
  context.on("request", (request) => {
    if (!request.url().startsWith(pathToFileURL(folder).href)) faults.push(`request: ${request.url()}`);
  });
  if (javaScriptEnabled) await page.addInitScript(inPage.reportViolations);
  await page.goto(pathToFileURL(join(folder, name)).href);
  return { page, faults };
}

/** The page's policy lets no text be run inside it, as the browser's own waiting would. */
async function until(page: Page, condition: string): Promise<void> {
  await expect.poll(() => page.evaluate<boolean>(condition), { timeout: 10_000, interval: 20 }).toBe(true);
}

beforeAll(async () => {
  for (const { file } of [...listeningFixture.versions, listeningFixture.sequence]) {
    const tone = Float32Array.from({ length: 10 * 48_000 }, (_, n) => 0.1 * Math.sin(n / 20));
    writeFileSync(join(folder, file), encodeWav([tone, tone], 48_000, "pcm24"));
  }
  writeFileSync(join(folder, "listen.html"), await renderListening(listeningFixture, shippedListenAssets()));
  writeFileSync(join(folder, "hostile.html"), await renderListening(hostileListening, shippedListenAssets()));
  browser = await chromium.launch({
    executablePath: findBrowser(),
    args: ["--no-sandbox", "--disable-gpu", "--disable-dev-shm-usage", "--autoplay-policy=no-user-gesture-required"],
  });
});
afterAll(async () => {
  await browser.close();
  rmSync(folder, { recursive: true, force: true });
});

describe("The listening page, opened from disk", () => {
  it("plays, and changes between versions while the sound goes on", async () => {
    const { page, faults } = await open("listen.html");
    await page.click("#play");
    await until(page, `document.querySelector("#versions audio").currentTime > 0.5`);
    await page.evaluate(watch);
    for (const index of [1, 2, 0]) {
      await page.click(`.choose[data-index="${index}"]`);
      await until(page, `document.documentElement.dataset.sounding === "${index}"`);
    }
    const seen = await page.evaluate<number[]>("globalThis.sounding");
    expect(seen.length).toBeGreaterThan(10);
    // One alone, or two while one fades into the other; the browser keeps volumes as single precision.
    for (const volume of seen) expect(volume).toBeCloseTo(1, 6);
    // Half a second passed before the changes: a version that began anew would stand earlier.
    const at = await page.evaluate<number>(`document.querySelectorAll("#versions audio")[0].currentTime`);
    expect(at).toBeGreaterThan(0.5);
    expect(faults).toEqual([]);
  });

  it("starts another version where the last one was stopped, by keys alone", async () => {
    const { page, faults } = await open("listen.html");
    await page.evaluate(`document.querySelectorAll("#versions audio")[0].currentTime = 4`);
    await page.keyboard.press("2");
    await page.keyboard.press("Space");
    await until(page, `document.querySelectorAll("#versions audio")[1].currentTime > 4.2`);
    expect(await page.evaluate(`document.querySelectorAll("#versions audio")[0].paused`)).toBe(true);
    expect(await page.textContent("#play")).toBe("Stop");
    expect(faults).toEqual([]);
  });

  it("has a player for each version where no program runs", async () => {
    const { page } = await open("listen.html", false);
    const players = page.locator("audio");
    expect(await players.count()).toBe(listeningFixture.versions.length + 1);
    for (const player of await players.all()) expect(await player.isVisible()).toBe(true);
    expect(await page.locator(".choose").first().isVisible()).toBe(false);
  });

  it("fits a narrow window", async () => {
    const { page } = await open("listen.html");
    await page.setViewportSize({ width: 380, height: 800 });
    expect(await page.evaluate(inPage.sidewaysScrollPx)).toBe(0);
  });

  it("shows a hostile file name as text", async () => {
    const { page, faults } = await open("hostile.html");
    expect(await page.textContent("h1")).toContain("<img src=x onerror=");
    expect(await page.evaluate(inPage.broken)).toBe(false);
    expect(faults.filter((fault) => !fault.includes("ERR_FILE_NOT_FOUND"))).toEqual([]);
  });

  it("loads nothing but what lies beside it", () => {
    const page = readFileSync(join(folder, "listen.html"), "utf8");
    expect(page).not.toMatch(/https?:\/\//);
  });
});
