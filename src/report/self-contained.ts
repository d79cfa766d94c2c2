import { embeddedJson, inlineProgram, inlineStyle, programHash } from "./embed.js";
import type { Figure } from "./figures/figure.js";
import { fillTemplate } from "./template-engine.js";

/** What a page is made of, read by whoever opens the doors. */
export interface ReportAssets {
  /** Liquid: the body of the page. */
  readonly template: string;
  readonly style: string;
  readonly script: string;
  /** The text of the plot library: its smallest bundle, which draws lines and marks. */
  readonly plotLibrary: string;
}

const headTemplate = "<title>{{ title }}</title>";

/**
 * Writes a page that needs nothing beside itself.
 *
 * The template fills only the body, after a policy that lets two programs run and nothing load: whatever a template or
 * a text in the results contains, it stays text. The pieces are joined in order; nothing is replaced in what was filled.
 *
 * @param view - what the template shows, and the figures that the program draws
 * @returns the page; the same for the same view and assets
 * @throws {InputError} if the template cannot be filled
 */
export async function selfContained(
  { page, figures }: { readonly page: object; readonly figures: readonly Figure[] },
  assets: ReportAssets,
): Promise<string> {
  const body = fillTemplate(assets.template, page);
  const plotLibrary = inlineProgram(assets.plotLibrary);
  const script = inlineProgram(assets.script);
  const hashes = await Promise.all([programHash(plotLibrary), programHash(script)]);
  const policy = [
    "default-src 'none'",
    `script-src ${hashes.join(" ")}`,
    "style-src 'unsafe-inline'",
    "img-src data: blob:",
    "base-uri 'none'",
    "form-action 'none'",
  ].join("; ");
  return [
    '<!doctype html>\n<html lang="en">\n<head>\n<meta charset="utf-8">\n',
    `<meta http-equiv="Content-Security-Policy" content="${policy}">\n`,
    '<meta name="viewport" content="width=device-width, initial-scale=1">\n',
    '<meta name="color-scheme" content="light">\n',
    fillTemplate(headTemplate, page),
    "\n<style>\n",
    inlineStyle(assets.style),
    "</style>\n</head>\n<body>\n",
    body,
    '\n<script type="application/json" id="report-data">',
    embeddedJson({ figures }),
    "</script>\n<script>",
    plotLibrary,
    "</script>\n<script>",
    script,
    "</script>\n</body>\n</html>\n",
  ].join("");
}
