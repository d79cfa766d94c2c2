import { setFlagsFromString } from "node:v8";
import { runInNewContext } from "node:vm";

setFlagsFromString("--expose-gc");
const collect = runInNewContext("gc") as () => void;

/** Memory of the process once everything is thrown away that nobody needs, MB: what grows here grows for ever. */
export function keptMegabytes(): number {
  collect();
  const { heapUsed, external } = process.memoryUsage();
  return (heapUsed + external) / 2 ** 20;
}
