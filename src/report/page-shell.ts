import { embeddedJson, inlineProgram, inlineStyle, programHash } from "./embed.js";
import { fillTemplate } from "./template-engine.js";

/** What a page is made of beside what it shows. */
interface PageParts {
  /** Liquid: the body of the page. */
  readonly template: string;
  readonly style: string;
  /** Texts of the programs, in the order in which they run. */
  readonly programs: readonly string[];
  /** What the programs read, under the id at which they look for it. */
  readonly data: { readonly id: string; readonly content: object };
  /** Directives for what the page may load beside its programs and its style. */
  readonly mayLoad: readonly string[];
}

const headTemplate = "<title>{{ title }}</title>";

/**
 * Writes a page.
 *
 * The template fills only the body, after a policy that lets these programs run and nothing else load: whatever a template or
 * a text in the results contains, it stays text. The pieces are joined in order; nothing is replaced in what was filled.
 *
 * @param view - what the template shows
 * @returns the page; the same for the same view and parts
 * @throws {InputError} if the template cannot be filled
 */
export async function pageOf(view: object, { template, style, programs, data, mayLoad }: PageParts): Promise<string> {
  const body = fillTemplate(template, view);
  const scripts = programs.map(inlineProgram);
  const hashes = await Promise.all(scripts.map(programHash));
  const policy = [
    "default-src 'none'",
    `script-src ${hashes.join(" ")}`,
    "style-src 'unsafe-inline'",
    ...mayLoad,
    "base-uri 'none'",
    "form-action 'none'",
  ].join("; ");
  return [
    '<!doctype html>\n<html lang="en">\n<head>\n<meta charset="utf-8">\n',
    `<meta http-equiv="Content-Security-Policy" content="${policy}">\n`,
    '<meta name="viewport" content="width=device-width, initial-scale=1">\n',
    '<meta name="color-scheme" content="light">\n',
    fillTemplate(headTemplate, view),
    "\n<style>\n",
    inlineStyle(style),
    "</style>\n</head>\n<body>\n",
    body,
    `\n<script type="application/json" id="${data.id}">`,
    embeddedJson(data.content),
    "</script>\n",
    scripts.map((script) => `<script>${script}</script>\n`).join(""),
    "</body>\n</html>\n",
  ].join("");
}
