import type { Figure } from "./figures/figure.js";
import { pageOf } from "./page-shell.js";

/** What a page is made of, read by whoever opens the doors. */
export interface ReportAssets {
  /** Liquid: the body of the page. */
  readonly template: string;
  readonly style: string;
  readonly script: string;
  /** The text of the plot library: its smallest bundle, which draws lines and marks. */
  readonly plotLibrary: string;
}

/**
 * Writes a page that needs nothing beside itself.
 *
 * @param view - what the template shows, and the figures that the program draws
 * @returns the page; the same for the same view and assets
 * @throws {InputError} if the template cannot be filled
 */
export async function selfContained(
  { page, figures }: { readonly page: object; readonly figures: readonly Figure[] },
  { template, style, script, plotLibrary }: ReportAssets,
): Promise<string> {
  return pageOf(page, {
    ...{ template, style, programs: [plotLibrary, script], mayLoad: ["img-src data: blob:"] },
    data: { id: "report-data", content: { figures } },
  });
}
