import type { Listening } from "../schema/listening.js";
import { embeddedJson, inlineProgram, inlineStyle, programHash } from "./embed.js";
import { listenView } from "./listen-view.js";
import { fillTemplate } from "./template-engine.js";

/** What the listening page is made of, read by whoever opens the doors. */
export interface ListenAssets {
  /** Liquid: the body of the page. */
  readonly template: string;
  readonly style: string;
  readonly script: string;
}

const headTemplate = "<title>{{ title }}</title>";

/**
 * Writes the page that plays the versions of a mix. It lies beside their files and loads nothing else.
 *
 * @returns the page; the same for the same listening and assets
 * @throws {InputError} if the template cannot be filled
 */
export async function renderListening(listening: Listening, assets: ListenAssets): Promise<string> {
  const page = listenView(listening);
  const body = fillTemplate(assets.template, page);
  const script = inlineProgram(assets.script);
  const policy = [
    "default-src 'none'",
    `script-src ${await programHash(script)}`,
    "style-src 'unsafe-inline'",
    "media-src 'self' file:",
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
    '\n<script type="application/json" id="listen-data">',
    embeddedJson({ durationS: listening.mix.durationS }),
    "</script>\n<script>",
    script,
    "</script>\n</body>\n</html>\n",
  ].join("");
}
