import type { Finding } from "../../src/model.js";
import type { Fault, Strength } from "./fault.js";
import { analyseLab, cleanSession } from "./laboratory.js";

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

/** Injects one fault at one strength and says what the analysis made of it. */
export async function runFault(fault: Fault, strength: Strength): Promise<Outcome> {
  const clean = (fault.clean ?? cleanSession)();
  const { findings, measurements } = await analyseLab(strength.inject(clean));
  const told = [...findings, ...measurements.flatMap(({ quality }) => quality.findings)].filter(
    ({ topic, code }) => topic === "recording" || OF_CABLES.includes(code) || code === fault.code,
  );
  const found = told.find(({ code }) => code === fault.code) ?? null;
  const expected = strength.verdict === "harmful" ? [fault.code, ...(fault.alongside ?? [])] : [];
  const alarms = told.filter(({ severity }) => severity !== "info").map(({ code }) => code);
  const falselyFound = [...new Set(alarms.filter((code) => !expected.includes(code)))];
  const complaints = falselyFound.map((code) => `falsely found ${code}`);
  if (strength.verdict === "harmful") complaints.push(...shortcomings(fault, found));
  return { fault, strength, found, falselyFound, complaints };
}

/** How the finding that names a harmful fault falls short of what a finding has to say. */
function shortcomings(fault: Fault, found: Finding | null): string[] {
  if (!found) return [`${fault.code} was not found`];
  const short: string[] = [];
  if (found.severity !== fault.severity) short.push(`${fault.code} is ${found.severity}, not ${fault.severity}`);
  if (found.severity !== "info" && found.remedy === null) short.push(`${fault.code} has no remedy`);
  return short;
}
