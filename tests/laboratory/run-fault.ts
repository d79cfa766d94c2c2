import type { Finding } from "../../src/model.js";
import type { Results } from "../../src/model.js";
import type { Fault, Strength } from "./fault.js";
import { analyseLab, cleanSession, type LabSession } from "./laboratory.js";
import { leaksOf } from "./leaks.js";

/** What came of one fault at one strength. */
export interface Outcome {
  readonly fault: Fault;
  readonly strength: Strength;
  /** The finding that names the fault, if there is one. */
  readonly found: Finding | null;
  /** Warnings and refusals of recordings that the fault does not explain. */
  readonly falselyFound: readonly string[];
  /** What is wrong with this; empty when all is as it should be. */
  readonly complaints: readonly string[];
}

/** Told as what to mend, but read off the recordings. */
const OF_CABLES = ["polarity-inverted", "channels-swapped"];

/**
 * How far the place that a finding names may be from where the fault was put, s. Dropouts are looked for where bends lie up to
 * 3 ms apart; what knocks is placed by the tenth of a second in which it is loudest, and rings for some more.
 */
const PLACE_TOLERANCE_S: Readonly<Record<string, number>> = { dropout: 0.003, knock: 0.1 };

/** What clean sessions give, each analysed once. */
const cleanResults = new Map<() => LabSession, Promise<Results>>();
function resultsOf(make: () => LabSession): Promise<Results> {
  const known = cleanResults.get(make) ?? analyseLab(make());
  cleanResults.set(make, known);
  return known;
}

/** Injects one fault at one strength and says what the analysis made of it. */
export async function runFault(fault: Fault, strength: Strength): Promise<Outcome> {
  const make = fault.clean ?? cleanSession;
  const results = await analyseLab(strength.inject(make()));
  const { findings, measurements } = results;
  const told = [...findings, ...measurements.flatMap(({ quality }) => quality.findings)].filter(
    ({ topic, code }) => topic === "recording" || OF_CABLES.includes(code) || code === fault.code,
  );
  const found = told.find(({ code }) => code === fault.code) ?? null;
  const expected = strength.verdict === "harmful" ? [fault.code, ...(fault.alongside ?? [])] : [];
  const alarms = told.filter(({ severity }) => severity !== "info").map(({ code }) => code);
  const falselyFound = [...new Set(alarms.filter((code) => !expected.includes(code)))];
  const complaints = falselyFound.map((code) => `falsely found ${code}`);
  if (strength.verdict === "harmful") complaints.push(...shortcomings(fault, strength, found));
  // A recording of which nothing is stated states nothing wrong.
  if (strength.truth === undefined && measurements.length > 0) {
    complaints.push(...leaksOf(await resultsOf(make), results, strength.turnsGain));
  }
  return { fault, strength, found, falselyFound, complaints };
}

/** How the finding that names a harmful fault falls short of what a finding has to say. */
function shortcomings(fault: Fault, { atS }: Strength, found: Finding | null): string[] {
  if (!found) return [`${fault.code} was not found`];
  const short: string[] = [];
  if (found.severity !== fault.severity) short.push(`${fault.code} is ${found.severity}, not ${fault.severity}`);
  if (found.severity !== "info" && found.remedy === null) short.push(`${fault.code} has no remedy`);
  if (atS !== undefined && Math.abs((found.atS ?? Number.NaN) - atS) <= PLACE_TOLERANCE_S[fault.code]!) return short;
  if (atS !== undefined) short.push(`${fault.code} is said to be at ${found.atS} s, but is at ${atS} s`);
  return short;
}
