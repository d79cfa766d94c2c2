import type { Terminal } from "./terminal.js";
export function init(folder: string, force: boolean, terminal: Terminal): Promise<number> {
  terminal.say(folder + String(force));
  return Promise.resolve(0);
}
