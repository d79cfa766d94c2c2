import type { Results } from "../model.js";
import { type ReportAssets, selfContained } from "./self-contained.js";
import { reportView } from "./view.js";

export type { ReportAssets };

/**
 * Writes the report as one self-contained page.
 *
 * @returns the page; the same for the same results and assets
 * @throws {InputError} if the template cannot be filled
 */
export async function renderReport(results: Results, assets: ReportAssets): Promise<string> {
  return selfContained(reportView(results), assets);
}
