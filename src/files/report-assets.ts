import { readFile } from "node:fs/promises";
import { createRequire } from "node:module";

import type { ListenAssets } from "../report/listen-page.js";
import type { ReportAssets } from "../report/page.js";

const require = createRequire(import.meta.url);

/** Reads what the report page is made of: the shipped template, style and program, and the plot library. */
export async function readReportAssets(): Promise<ReportAssets> {
  const text = (name: string): Promise<string> =>
    readFile(new URL(`../../report-templates/${name}`, import.meta.url), "utf8");
  const [template, style, script, plotLibrary] = await Promise.all([
    text("report.liquid"),
    text("report.css"),
    text("report.js"),
    // The only door to the plot library, which the page carries as text.
    readFile(require.resolve("plotly.js-basic-dist-min"), "utf8"),
  ]);
  return { template, style, script, plotLibrary };
}

/** Reads what the listening page is made of. It shares the report's style. */
export async function readListenAssets(): Promise<ListenAssets> {
  const text = (name: string): Promise<string> =>
    readFile(new URL(`../../report-templates/${name}`, import.meta.url), "utf8");
  const [template, style, own, script] = await Promise.all(
    ["listen.liquid", "report.css", "listen.css", "listen.js"].map(text),
  );
  return { template: template!, style: `${style!}\n${own!}`, script: script! };
}
