import type { Changes } from "../../schema/changes.js";
import { type ReportAssets, selfContained } from "../self-contained.js";
import { changesView } from "./view.js";

/**
 * Writes a comparison as one self-contained page.
 *
 * @returns the page; the same for the same changes and assets
 * @throws {InputError} if the template cannot be filled
 */
export async function renderChanges(changes: Changes, assets: ReportAssets): Promise<string> {
  return selfContained(changesView(changes), assets);
}
