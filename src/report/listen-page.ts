import type { Listening } from "../schema/listening.js";
import { listenView } from "./listen-view.js";
import { pageOf } from "./page-shell.js";

/** What the listening page is made of, read by whoever opens the doors. */
export interface ListenAssets {
  /** Liquid: the body of the page. */
  readonly template: string;
  readonly style: string;
  readonly script: string;
}

/**
 * Writes the page that plays the versions of a mix. It lies beside their files and loads nothing else.
 *
 * @returns the page; the same for the same listening and assets
 * @throws {InputError} if the template cannot be filled
 */
export async function renderListening(
  listening: Listening,
  { template, style, script }: ListenAssets,
): Promise<string> {
  return pageOf(listenView(listening), {
    ...{ template, style, programs: [script], mayLoad: ["media-src 'self' file:"] },
    data: { id: "listen-data", content: { durationS: listening.mix.durationS } },
  });
}
