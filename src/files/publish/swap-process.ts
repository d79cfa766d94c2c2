import { swapHere } from "./swap-here.js";

/** A process that makes two moves and ends; nothing that happens to whoever began it comes between them. */
for (const signal of ["SIGINT", "SIGTERM", "SIGHUP"]) process.on(signal, () => undefined);
const [present = "", fresh = "", old = ""] = process.argv.slice(2);
try {
  swapHere(present, fresh, old);
} catch {
  process.exitCode = 1;
}
