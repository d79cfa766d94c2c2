import { expect, it } from "vitest";

import { findBrowser } from "./find-browser.js";

it("takes the browser that is named, and says so when the name is wrong", () => {
  expect(findBrowser({ CARRYWELL_BROWSER: process.execPath })).toBe(process.execPath);
  expect(() => findBrowser({ CARRYWELL_BROWSER: "/nowhere/browser" })).toThrow(/CARRYWELL_BROWSER names/);
});
