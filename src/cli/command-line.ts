import { Command, CommanderError, InvalidArgumentError, Option } from "commander";

import { sampleFormatSchema } from "../schema/sweep-recipe.js";
import type { SweepCommand } from "./sweep.js";
import type { Terminal, TerminalOptions } from "./terminal.js";

export { CommanderError };

/** Carries out a command; its code is read only then, so that none waits for the code of the others. */
type Run = (options: Partial<TerminalOptions>, work: (terminal: Terminal) => Promise<number>) => Promise<void>;

export const COMMANDS = ["sweep", "init", "check", "report", "compare", "listen", "demo"];

/** What can be typed, and what it does. */
export function commandLine(version: string, run: Run): Command {
  const program = new Command("carrywell")
    .description("Can I believe my monitors, and will my mixes carry? Measures control rooms from sweep recordings.")
    .version(version)
    .exitOverride()
    .configureOutput({ writeErr: () => undefined });
  program.addHelpText(
    "after",
    `
Exit code: 0 done, whatever the acoustics say; 1 done, but a recording was rejected; 2 nothing was done.
Example:
  carrywell demo --out demo-session`,
  );
  addSweep(program, run);
  addInit(program, run);
  addCheck(program, run);
  addReport(program, run);
  addCompare(program, run);
  addListen(program, run);
  addDemo(program, run);
  return program;
}

function addSweep(program: Command, run: Run): void {
  common(program.command("sweep"))
    .summary("write the sweep that is played and recorded")
    .description("Writes reel.wav, sweep-L.wav, sweep-R.wav and sweep.json.")
    .requiredOption("--out <dir>", "folder to write into")
    .addOption(number("--rate <hz>", "sample rate, 44100 to 192000", 48_000))
    .addOption(number("--duration <s>", "length of one sweep", 10))
    .addOption(number("--start <hz>", "lowest frequency", 20))
    .addOption(number("--end <hz>", "highest frequency, at most 0.45 of the rate (default: 20000, or that)"))
    .addOption(number("--level <dbfs>", "peak level", -12))
    .addOption(number("--gap <s>", "silence after each sweep; no decay longer than this can be seen", 2))
    .addOption(new Option("--format <name>", "sample format").choices(sampleFormatSchema.options).default("pcm24"))
    .addOption(number("--repeats <n>", "sweeps for each loudspeaker", 1))
    .addOption(number("--lead <s>", "silence before everything, in which the room's noise is heard", 2))
    .addOption(number("--tail <s>", "silence after everything", 1))
    .option("--force", "replace an earlier, different sweep in the folder")
    .addHelpText("after", "\nExample:\n  carrywell sweep --out tuesday --rate 96000 --level -18")
    .action(async (options: SweepFlags) => {
      const { rate, duration, start, end, level, gap, format, repeats, lead, tail, out, force } = options;
      const command: SweepCommand = {
        ...{ out, force: force ?? false, sampleRate: rate, durationS: duration, startHz: start, levelDbfs: level },
        ...{ gapS: gap, format, repeats, leadS: lead, tailS: tail, ...(end === undefined ? {} : { endHz: end }) },
      };
      await run(options, async (terminal) => (await import("./sweep.js")).sweep(command, terminal));
    });
}

interface SweepFlags extends TerminalOptions {
  readonly out: string;
  readonly rate: number;
  readonly duration: number;
  readonly start: number;
  readonly end?: number;
  readonly level: number;
  readonly gap: number;
  readonly format: NonNullable<SweepCommand["format"]>;
  readonly repeats: number;
  readonly lead: number;
  readonly tail: number;
  readonly force?: boolean;
}

function addInit(program: Command, run: Run): void {
  common(program.command("init"))
    .summary("propose a session.json for a folder of recordings")
    .description(
      "Looks at the names and the contents of the files in a folder, says what it takes each for, and writes session.json.",
    )
    .argument("<dir>", "the folder with the recordings and the sweep.json they were made with")
    .option("--force", "replace a session.json that is there; a copy of it is kept")
    .addHelpText("after", "\nExample:\n  carrywell init tuesday")
    .action(async (folder: string, options: TerminalOptions & { force?: boolean }) => {
      const { force = false } = options;
      await run(options, async (terminal) => (await import("./init.js")).init(folder, force, terminal));
    });
}

function addCheck(program: Command, run: Run): void {
  common(program.command("check"))
    .summary("say of each recording whether it can be used")
    .description("Listens to every recording of a session, in seconds, and says whether it can be used and why not.")
    .argument("<session>", "the session's folder, or its session.json")
    .addHelpText("after", "\nExample:\n  carrywell check tuesday")
    .action(async (session: string, options: TerminalOptions) => {
      await run(options, async (terminal) => (await import("./check.js")).check(session, terminal));
    });
}

function addReport(program: Command, run: Run): void {
  common(program.command("report"))
    .summary("measure a session and write its report")
    .description("Analyses a session and writes report.html, results.json, tables/*.csv and impulses/*.wav.")
    .argument("<session>", "the session's folder, or its session.json")
    .requiredOption("--out <dir>", "folder to write into")
    .addHelpText("after", "\nExample:\n  carrywell report tuesday --out tuesday/report")
    .action(async (session: string, options: TerminalOptions & { out: string }) => {
      await run(options, async (terminal) => (await import("./report.js")).report(session, options.out, terminal));
    });
}

function addCompare(program: Command, run: Run): void {
  common(program.command("compare"))
    .summary("say what has changed between two sessions, or differs between two monitors")
    .description(
      "Holds two sessions against each other, quantity by quantity: what is better, what is worse, what cannot be told. Writes comparison.html, changes.json and changes.csv.",
    )
    .argument("<before>", "a session's folder, its session.json, a report's folder, or its results.json")
    .argument("[after]", "the same of the session after; left out where two monitors of one session are compared")
    .requiredOption("--out <dir>", "folder to write into")
    .addOption(
      number("--placement <cm>", "how exactly the microphone was put back on its mark; 0: it was not touched", 2),
    )
    .option("--monitor <id>", "a monitor of the session before, to be compared with another one")
    .option("--against <id>", "that other monitor: of the session after, or of the only one")
    .addHelpText(
      "after",
      `
Examples:
  carrywell compare before after --out before/compared
  carrywell compare door-open door-closed --out doors --placement 0
  carrywell compare tuesday --monitor mains --against nears --out tuesday/pairs`,
    )
    .action(async (before: string, after: string | undefined, options: TerminalOptions & CompareFlags) => {
      const { out, placement, monitor = null, against = null } = options;
      const command = { before, after: after ?? null, out, placementCm: placement, monitor, against };
      await run(options, async (terminal) => (await import("./compare.js")).compare(command, terminal));
    });
}

interface CompareFlags {
  readonly out: string;
  readonly placement: number;
  readonly monitor?: string;
  readonly against?: string;
}

function addListen(program: Command, run: Run): void {
  common(program.command("listen"))
    .summary("hear a mix as it sounds on each monitor and playback class")
    .description(
      "Renders a mix as WAV files for earphones or a neutral monitor, and writes what it loses where: listen.html, listen.json.",
    )
    .argument("<session>", "the session's folder, or its session.json")
    .requiredOption("--mix <file>", "the mix: a WAV, FLAC, AIFF or CAF file, mono or stereo, of any length")
    .requiredOption("--out <dir>", "folder to write into")
    .option("--room", "monitors with the whole response of their room, for earphones; else their tone alone")
    .option("--on <id>", "the monitor that is listened on: its own colour is taken out")
    .addHelpText("after", "\nExample:\n  carrywell listen tuesday --mix song.wav --out tuesday/song --on nears")
    .action(async (session: string, options: TerminalOptions & ListenFlags) => {
      const { mix, out, room = false, on = null } = options;
      await run(options, async (terminal) =>
        (await import("./listen.js")).listen({ session, mix, out, room, on }, terminal),
      );
    });
}

interface ListenFlags {
  readonly mix: string;
  readonly out: string;
  readonly room?: boolean;
  readonly on?: string;
}

function addDemo(program: Command, run: Run): void {
  common(program.command("demo"))
    .summary("make an invented session and report on it")
    .description("Simulates a studio with two pairs of monitors, records it, and writes the session and its report.")
    .requiredOption("--out <dir>", "folder to write into")
    .addHelpText("after", "\nExample:\n  carrywell demo --out demo-session")
    .action(async (options: TerminalOptions & { out: string }) => {
      await run(options, async (terminal) => (await import("./demo-command.js")).demo(options.out, terminal));
    });
}

function common(command: Command): Command {
  return command
    .option("--quiet", "print nothing but errors")
    .option("--json", "print the result as JSON")
    .option("--debug", "print where in the program an error arose");
}

function number(flags: string, description: string, fallback?: number): Option {
  const option = new Option(flags, description).argParser((text: string) => {
    // Number() alone would take "", " " and "0x10".
    if (/^[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d+)?$/i.test(text)) return Number(text);
    throw new InvalidArgumentError(`"${text}" is not a number.`);
  });
  return fallback === undefined ? option : option.default(fallback);
}
