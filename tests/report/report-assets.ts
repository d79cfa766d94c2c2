import { readFileSync } from "node:fs";
import { createRequire } from "node:module";

import type { ReportAssets } from "../../src/report/page.js";

const fromPackage = createRequire(import.meta.url);

function text(name: string): string {
  return readFileSync(new URL(`../../report-templates/${name}`, import.meta.url), "utf8");
}

/** The report's own template, style and program, with the plot library that ships. */
export function shippedAssets(): ReportAssets {
  return {
    template: text("report.liquid"),
    style: text("report.css"),
    script: text("report.js"),
    plotLibrary: readFileSync(fromPackage.resolve("plotly.js-basic-dist-min"), "utf8"),
  };
}
