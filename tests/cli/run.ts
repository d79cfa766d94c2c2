import { spawn } from "node:child_process";
import { fileURLToPath } from "node:url";

const program = fileURLToPath(new URL("../../bin/carrywell.js", import.meta.url));

export interface Ended {
  readonly code: number | null;
  readonly signal: string | null;
  readonly out: string;
  readonly err: string;
}

export interface RunOptions {
  readonly env?: Readonly<Record<string, string>>;
  /** Another user, where we may become one. */
  readonly uid?: number;
  /** Hears standard error while the program runs. */
  readonly onErr?: (text: string, stop: (signal: NodeJS.Signals) => void) => void;
}

/** Runs the program as its users do: compiled, as a process of its own, without a terminal. */
export function carrywell(args: readonly string[], { env = {}, uid, onErr }: RunOptions = {}): Promise<Ended> {
  return new Promise((resolve, reject) => {
    const child = spawn(process.execPath, [program, ...args], {
      env: { ...process.env, ...env },
      ...(uid === undefined ? {} : { uid }),
    });
    let out = "";
    let err = "";
    child.stdout.on("data", (data: Buffer) => (out += data.toString()));
    child.stderr.on("data", (data: Buffer) => {
      err += data.toString();
      onErr?.(err, (signal) => child.kill(signal));
    });
    child.on("error", reject);
    child.on("close", (code, signal) => {
      resolve({ code, signal, out, err });
    });
  });
}
