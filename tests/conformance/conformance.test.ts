import { readFileSync, writeFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { format } from "prettier";
import { expect, it } from "vitest";
import { absorberChecks } from "./absorbers.js";
import { bandChecks } from "./bands.js";
import type { Check } from "./check.js";
import { decayChecks } from "./decays.js";
import { hearingChecks } from "./hearing.js";
import { programmeChecks } from "./programmes.js";
import { roomChecks } from "./rooms.js";
import { sweepChecks } from "./sweeps.js";
import { weightingChecks } from "./weighting.js";

/** Areas in the order of the table; a new area is a file with an array of checks and a line here. */
const areas: readonly (readonly Check[])[] = [
  bandChecks,
  weightingChecks,
  decayChecks,
  roomChecks,
  absorberChecks,
  sweepChecks,
  hearingChecks,
  programmeChecks,
];

const checks = areas.flat();
const page = fileURLToPath(new URL("../../DEVELOPERS.md", import.meta.url));
const BEGIN = "<!-- conformance table: written by tests/conformance -->";
const END = "<!-- end of the conformance table -->";

function line(cells: readonly string[]): string {
  return `| ${cells.join(" | ")} |`;
}

async function table(): Promise<string> {
  const rows = checks.map(({ what, source, published, computed, margin, unit }) =>
    // Two digits: no platform's last bit shows.
    line([what, source, published, computed, `${Number(margin.toPrecision(2))} ${unit}`.trim()]),
  );
  const head = [line(["what", "source", "published", "computed", "margin"]), line(["-", "-", "-", "-", "-"])];
  return format([...head, ...rows].join("\n"), { parser: "markdown" });
}

it.each(checks.map((check) => [check.what, check] as const))("published value holds: %s", (_, { margin }) => {
  expect(margin).toBeGreaterThanOrEqual(0);
});

it("the table of published values in DEVELOPERS.md is up to date", async () => {
  const text = readFileSync(page, "utf8");
  const from = text.indexOf(BEGIN);
  const to = text.indexOf(END);
  expect(from, `DEVELOPERS.md has no line ${BEGIN}`).toBeGreaterThan(-1);
  expect(to).toBeGreaterThan(from);
  const current = `${text.slice(0, from + BEGIN.length)}\n\n${await table()}\n${text.slice(to)}`;
  if (process.env.CARRYWELL_CONFORMANCE === "write") writeFileSync(page, current);
  else expect(text).toBe(current);
});
