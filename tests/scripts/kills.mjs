// Kills commands outright (SIGKILL) at random moments and looks at what they leave: the old results whole or the new ones
// whole, the user's own files as they were, and no recording touched. Needs a built checkout:
// node tests/scripts/kills.mjs [how many] [of which commands]
import { spawn, spawnSync } from "node:child_process";
import { createHash } from "node:crypto";
import {
  appendFileSync,
  cpSync,
  existsSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { join, relative } from "node:path";
import { fileURLToPath } from "node:url";

const bin = fileURLToPath(new URL("../../bin/carrywell.js", import.meta.url));
const sample = fileURLToPath(new URL("../../sample-audio", import.meta.url));
const [count = "200", chosen = "report,sweep,init,compare,listen,demo"] = process.argv.slice(2);
const root = mkdtempSync(join(tmpdir(), "carrywell-kills-"));
const session = join(root, "session");
cpSync(sample, session, { recursive: true });
const inPlace = join(root, "in-place");
cpSync(sample, inPlace, { recursive: true });

/** What each command writes where, and the share of the kills that it gets. */
const COMMANDS = {
  report: { share: 6, out: "report", args: (out) => ["report", session, "--out", out] },
  sweep: { share: 4, out: "sweep", args: (out) => ["sweep", "--out", out, "--duration", "2", "--force"] },
  init: { share: 3, out: "in-place", args: (out) => ["init", out, "--force"], isInPlace: true },
  compare: { share: 2, out: "compare", args: (out) => ["compare", session, inPlace, "--out", out] },
  listen: {
    share: 3,
    out: "listen",
    args: (out) => ["listen", session, "--mix", join(session, "nears-mix.wav"), "--out", out],
  },
  demo: { share: 2, out: "demo", args: (out) => ["demo", "--out", out] },
};

/** Pseudo-random, so that a bad run can be run again: 32-bit linear congruential generator. */
const seed = Number(process.env.SEED ?? 1);
let state = seed >>> 0;
const random = () => (state = (Math.imul(state, 1664525) + 1013904223) >>> 0) / 2 ** 32;

let damaged = 0;
try {
  const names = chosen.split(",");
  const shares = names.reduce((sum, name) => sum + COMMANDS[name].share, 0);
  let given = 0;
  let upTo = 0;
  console.log("command  kills  while writing  left old  left new  damaged");
  for (const name of names) {
    upTo += (Number(count) * COMMANDS[name].share) / shares;
    const kills = Math.round(upTo) - given;
    given += kills;
    const told = await torment(COMMANDS[name], kills);
    damaged += told.damage.length;
    const cells = [name.padEnd(7), kills, told.writing, told.old, told.new, told.damage.length];
    console.log(cells.map((cell, n) => String(cell).padStart([7, 5, 13, 8, 8, 7][n])).join("  "));
    for (const one of told.damage) console.log(`  ${one}`);
  }
  console.log(`${given} kills, ${damaged} damaged outputs (seed ${seed})`);
} finally {
  rmSync(root, { recursive: true, force: true });
}
process.exitCode = damaged > 0 ? 1 : 0;

/** Kills one command so many times. */
async function torment(command, kills) {
  const out = join(root, command.out);
  const told = { old: 0, new: 0, writing: 0, damage: [] };
  const { isInPlace = false } = command;
  const started = performance.now();
  await run(command.args(out), Infinity);
  const wholeMs = performance.now() - started;
  const fresh = manifest(out, isInPlace);
  // The old results: the same files, each a byte longer.
  for (const file of Object.keys(fresh)) appendFileSync(join(out, file), "\n");
  const own = isInPlace ? {} : { "my notes.txt": "mine" };
  for (const [file, text] of Object.entries(own)) writeFileSync(join(out, file), text);
  const old = manifest(out, isInPlace);
  const kept = join(root, "kept");
  rmSync(kept, { recursive: true, force: true });
  cpSync(out, kept, { recursive: true });
  const untouched = recordings();
  const ownHashes = Object.fromEntries(Object.entries(own).map(([file, text]) => [file, sha256(text)]));
  for (const copy of copiesIn(out)) rmSync(join(out, copy));
  const whole = { old: JSON.stringify(old), new: JSON.stringify(sorted({ ...fresh, ...ownHashes })) };
  for (let n = 0; n < kills; n++) {
    const work = (pid) => [...partsIn(root), ...partsIn(out)].find((path) => path.endsWith(`.${pid}.part`));
    const begin = () => {
      for (const copy of copiesIn(out)) rmSync(join(out, copy));
      putBack(kept, out, isInPlace);
    };
    const pid = await kill(command.args(out), n, wholeMs, work, begin);
    await settled();
    if (work(pid)) told.writing++;
    const found = JSON.stringify(manifest(out, isInPlace));
    if (found === whole.old) told.old++;
    else if (found === whole.new) told.new++;
    else told.damage.push(`kill ${n}: ${found}`);
    if (isInPlace) told.damage.push(...damagedCopies(out, old, n));
    if (recordings() !== untouched) told.damage.push(`kill ${n}: a recording was touched`);
  }
  // One that is left alone clears up after all of them.
  await run(command.args(out), Infinity);
  if (JSON.stringify(manifest(out, isInPlace)) !== whole.new)
    told.damage.push("the last run, left alone, is not whole");
  const left = [...partsIn(root), ...partsIn(out)];
  if (left.length > 0) told.damage.push(`left behind: ${left.join(", ")}`);
  return told;
}

/**
 * Kills one run: in turn at any moment, as it writes, and as it puts the new in the place of the old. Tries again where the
 * run was done before the kill came.
 */
async function kill(args, n, wholeMs, work, begin) {
  // What writes a single file does it in less than this script can see: its end is aimed at by the clock.
  const seesIt = !args.includes(inPlace);
  const kinds = [
    { afterMs: (lastsMs) => lastsMs * random(), when: null },
    seesIt
      ? { afterMs: (lastsMs) => 0.1 * lastsMs * random(), when: (pid) => work(pid) !== undefined }
      : { afterMs: (lastsMs) => lastsMs * (0.7 + 0.3 * random()), when: null },
    seesIt
      ? { afterMs: () => 200 * random(), when: (pid) => existsSync(join(work(pid) ?? "", "journal.json")) }
      : { afterMs: (lastsMs) => lastsMs * (0.9 + 0.1 * random()), when: null },
  ];
  let lastsMs = wholeMs;
  for (let attempt = 0; attempt < 30; attempt++) {
    await settled();
    begin();
    const { afterMs, when } = kinds[n % 3];
    const started = performance.now();
    const { pid, isKilled } = await run(args, afterMs(lastsMs), when);
    if (isKilled) return pid;
    // A machine that has become faster since the first run is done before any kill that was timed by it.
    lastsMs = Math.min(lastsMs, performance.now() - started);
  }
  throw new Error(`${args.join(" ")} could not be killed`);
}

/** The change of two folders is made by a process of its own, which outlives the killed run by some milliseconds. */
async function settled() {
  const isMoving = () => {
    const { stdout, error } = spawnSync("ps", ["-eo", "args"], { encoding: "utf8" });
    return error ? false : stdout.split("\n").some((line) => line.includes(root) && !line.includes("kills.mjs"));
  };
  do await new Promise((resolve) => setTimeout(resolve, 20));
  while (isMoving());
}

/** Runs a command; kills it after so many milliseconds, counted from when the condition holds. */
function run(args, afterMs, condition = null) {
  return new Promise((resolve, reject) => {
    const child = spawn(process.execPath, [bin, ...args, "--quiet"], { stdio: ["ignore", "ignore", "pipe"] });
    let err = "";
    let timer;
    child.stderr.on("data", (data) => (err += data));
    const arm = () => {
      timer = setTimeout(() => child.kill("SIGKILL"), afterMs);
    };
    const watch = condition && setInterval(() => condition(child.pid) && (clearInterval(watch), arm()), 1);
    if (!condition && afterMs < Infinity) arm();
    child.on("close", (code, signal) => {
      clearTimeout(timer);
      clearInterval(watch);
      if (signal === "SIGKILL" || code === 0) resolve({ pid: child.pid, isKilled: signal === "SIGKILL" });
      else reject(new Error(`${args.join(" ")} ended with ${code}: ${err}`));
    });
  });
}

/** Hashes of a folder's files, work folders left out; of a session that is written in place, the session alone. */
function manifest(folder, isInPlace) {
  const hashes = {};
  for (const file of filesOf(folder)) {
    if (/(^|\/)[^/]*\.part(\/|$)/.test(file)) continue;
    if (isInPlace && file !== "session.json") continue;
    hashes[file] = sha256(readFileSync(join(folder, file)));
  }
  return sorted(hashes);
}

/** Every copy of an old session.json that is there must be whole. */
function damagedCopies(folder, old, n) {
  return copiesIn(folder)
    .filter((file) => {
      const isBad = sha256(readFileSync(join(folder, file))) !== old["session.json"];
      rmSync(join(folder, file));
      return isBad;
    })
    .map((file) => `kill ${n}: ${file} is not the old session`);
}

/** What a killed run left beside the results stays, for the next one to find. */
function putBack(kept, out, isInPlace) {
  if (isInPlace) cpSync(join(kept, "session.json"), join(out, "session.json"));
  else {
    rmSync(out, { recursive: true, force: true });
    cpSync(kept, out, { recursive: true });
  }
}

function copiesIn(folder) {
  return filesOf(folder).filter((file) => /^session\.json\.\d+$/.test(file));
}

/** Content and date of every recording. */
function recordings() {
  const files = [session, inPlace].flatMap((folder) =>
    filesOf(folder)
      .filter((file) => file.endsWith(".wav"))
      .map((file) => join(folder, file)),
  );
  return JSON.stringify(files.map((file) => [file, statSync(file).mtimeMs, sha256(readFileSync(file))]));
}

function filesOf(folder) {
  if (!existsSync(folder)) return [];
  return readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => !entry.isDirectory())
    .map((entry) => relative(folder, join(entry.parentPath, entry.name)).replaceAll("\\", "/"))
    .sort();
}

function partsIn(folder) {
  if (!existsSync(folder)) return [];
  return readdirSync(folder)
    .filter((name) => name.endsWith(".part"))
    .map((name) => join(folder, name));
}

function sorted(hashes) {
  return Object.fromEntries(Object.entries(hashes).sort(([a], [b]) => (a < b ? -1 : 1)));
}

function sha256(content) {
  return createHash("sha256").update(content).digest("hex");
}
