import { Presets, SingleBar } from "cli-progress";

import { printable } from "../words/printable.js";

export interface Progress {
  /** So many steps of all are done, and this is what is being done now. */
  at(done: number, total: number, what: string): void;
  close(): void;
}

/** A bar on a terminal, plain lines elsewhere, nothing when quiet: the only door to the progress library. */
export function openProgress(quiet: boolean): Progress {
  if (quiet) return { at: () => undefined, close: () => undefined };
  const progress = process.stderr.isTTY ? bar() : lines();
  return {
    at(done, total, what) {
      progress.at(done, total, printable(what));
    },
    close: () => {
      progress.close();
    },
  };
}

function bar(): Progress {
  const one = new SingleBar(
    { format: "{bar} {value}/{total}  {what}", clearOnComplete: true, hideCursor: true, stream: process.stderr },
    Presets.rect,
  );
  return {
    at(done, total, what) {
      if (one.isActive) one.setTotal(total);
      else one.start(total, done, { what });
      one.update(done, { what });
      // Between two steps the program computes without a pause, in which no timer would draw.
      one.render();
    },
    close() {
      one.stop();
    },
  };
}

function lines(): Progress {
  return {
    at(done, total, what) {
      process.stderr.write(done < total ? `[${done + 1}/${total}] ${what}\n` : `[${total}/${total}] done, writing\n`);
    },
    close: () => undefined,
  };
}
