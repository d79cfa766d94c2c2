import { spawnSync } from "node:child_process";
import { accessSync, constants, existsSync } from "node:fs";
import { delimiter, join } from "node:path";

/** Where an installed browser is; asked for by tests, and by whoever prints the report. */

const commands = ["chromium", "chromium-browser", "google-chrome", "google-chrome-stable", "microsoft-edge"];

const macPaths = [
  "/Applications/Google Chrome.app/Contents/MacOS/Google Chrome",
  "/Applications/Chromium.app/Contents/MacOS/Chromium",
  "/Applications/Microsoft Edge.app/Contents/MacOS/Microsoft Edge",
];

const windowsPaths = [
  "Google\\Chrome\\Application\\chrome.exe",
  "Chromium\\Application\\chrome.exe",
  "Microsoft\\Edge\\Application\\msedge.exe",
];

/**
 * Finds an installed Chrome, Chromium or Edge; on Debian and as root, installs one where there is none.
 *
 * @returns the path of the program
 * @throws {Error} if there is none: one line that says what to install
 */
export function findBrowser(environment: NodeJS.ProcessEnv = process.env): string {
  const named = environment["CARRYWELL_BROWSER"];
  if (named !== undefined && named !== "") {
    if (runnable(named)) return named;
    throw new Error(`CARRYWELL_BROWSER names ${named}, which is not a program: correct it, or unset it.`);
  }
  const found = candidates(environment).find(runnable);
  if (found !== undefined) return found;
  if (installsPackages() && installed()) {
    const now = candidates(environment).find(runnable);
    if (now !== undefined) return now;
  }
  throw new Error(
    "No browser found: install Chrome, Chromium or Edge (on Debian: apt-get install chromium), or name one in CARRYWELL_BROWSER.",
  );
}

function candidates(environment: NodeJS.ProcessEnv): string[] {
  if (process.platform === "win32") {
    const roots = ["PROGRAMFILES", "PROGRAMFILES(X86)", "LOCALAPPDATA"].flatMap((name) => environment[name] ?? []);
    return roots.flatMap((root) => windowsPaths.map((path) => join(root, path)));
  }
  const onPath = (environment["PATH"] ?? "")
    .split(delimiter)
    .filter((folder) => folder !== "")
    .flatMap((folder) => commands.map((command) => join(folder, command)));
  return process.platform === "darwin" ? [...macPaths, ...onPath] : onPath;
}

function runnable(path: string): boolean {
  try {
    accessSync(path, constants.X_OK);
    return true;
  } catch {
    return false;
  }
}

function installsPackages(): boolean {
  return existsSync("/etc/debian_version") && process.getuid?.() === 0;
}

function installed(): boolean {
  const settings = { stdio: "ignore", env: { ...process.env, DEBIAN_FRONTEND: "noninteractive" } } as const;
  const update = spawnSync("apt-get", ["update"], settings);
  return (
    update.status === 0 &&
    spawnSync("apt-get", ["install", "--yes", "--no-install-recommends", "chromium"], settings).status === 0
  );
}
