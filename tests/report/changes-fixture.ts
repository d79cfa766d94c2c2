import { compareSessions } from "../../src/pipeline/compare-sessions.js";
import type { Changes } from "../../src/schema/changes.js";
import type { Results } from "../../src/schema/results.js";
import { resultsFixture } from "./results-fixture.js";

/** Invented results before and after: decays, tone and sides of the mains have changed, all else has not. */

function edited(edit: (results: Results) => void): Results {
  const results = resultsFixture();
  edit(results);
  return results;
}

function decays(results: Results, timeS: number): void {
  for (const { monitor, bands } of results.measurements) {
    if (monitor !== "mains") continue;
    for (const band of bands) {
      if (band.fraction !== 3 || ![100, 125, 160].includes(band.nominalHz)) continue;
      Object.assign(band, { t20S: timeS, t30S: timeS, decayUncertaintyS: 0.02 * timeS, flags: [] });
    }
  }
}

function before(results: Results): void {
  decays(results, 0.62);
  for (const band of results.monitors[0]!.leftRight!.bands) if (band.nominalHz === 63) band.differenceDb = 6;
  for (const band of results.monitors[0]!.target!.bands) if (band.nominalHz === 200) band.deviationDb = 0.2;
}

function after(results: Results): void {
  decays(results, 0.34);
  results.session.date = "2026-06-18";
  results.session.notes = "Absorbers on the rear wall.";
  for (const band of results.monitors[0]!.leftRight!.bands) if (band.nominalHz === 63) band.differenceDb = -0.5;
  for (const band of results.monitors[0]!.target!.bands) if (band.nominalHz === 200) band.deviationDb = 4.3;
}

export function changesFixture(): Changes {
  return compareSessions(edited(before), edited(after), { placementM: 0, monitors: null, version: "0.1.0" });
}

/** The same with another monitor's name, so that half of it has no counterpart, and texts that would like to be code. */
export function oddChangesFixture(): Changes {
  const other = edited((results) => {
    after(results);
    results.monitors[1]!.id = "smalls";
    results.session.notes = `</script><img src=x onerror="window.broken=1">{{ title }}`;
    for (const one of results.measurements) if (one.monitor === "nears") one.monitor = "smalls";
  });
  return compareSessions(edited(before), other, { placementM: 0.02, monitors: null, version: "0.1.0" });
}

export function monitorsFixture(): Changes {
  const results = edited(before);
  const monitors = { before: "mains", after: "nears" };
  return compareSessions(results, results, { placementM: 0.02, monitors, version: "0.1.0" });
}
