import { Command, CommanderError, InvalidArgumentError, Option } from "commander";

import { InputError } from "../errors.js";
import { programVersion } from "../files/program-version.js";
import { sampleFormatSchema } from "../schema/sweep-recipe.js";
import { demo } from "./demo-command.js";
import { listen } from "./listen.js";
import { report } from "./report.js";
import { sweep, type SweepCommand } from "./sweep.js";
import { openTerminal, type Terminal, type TerminalOptions } from "./terminal.js";

/**
 * The command line: the only door to the library that reads it.
 *
 * @param args - what follows the program's name
 * @returns the exit code: 0 done, 1 done without some recordings, 2 nothing done
 */
export async function main(args: readonly string[]): Promise<number> {
  obeySignals();
  let code = 0;
  let terminal = openTerminal({ quiet: false, json: args.includes("--json"), debug: args.includes("--debug") });
  const run = async (
    options: Partial<TerminalOptions>,
    work: (terminal: Terminal) => Promise<number>,
  ): Promise<void> => {
    const { quiet = false, json = false, debug = false } = options;
    terminal = openTerminal({ quiet, json, debug });
    code = await work(terminal);
  };
  try {
    await commandLine(await programVersion(), run).parseAsync([...args], { from: "user" });
    return code;
  } catch (error) {
    if (error instanceof CommanderError) {
      // Help and version were asked for, and have been printed.
      if (error.exitCode === 0) return 0;
      terminal.fail(unreadable(error, args));
    } else terminal.fail(error);
    return 2;
  }
}

type Run = (options: Partial<TerminalOptions>, work: (terminal: Terminal) => Promise<number>) => Promise<void>;

function commandLine(version: string, run: Run): Command {
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
  addReport(program, run);
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
      await run(options, (terminal) => sweep(command, terminal));
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

function addReport(program: Command, run: Run): void {
  common(program.command("report"))
    .summary("measure a session and write its report")
    .description("Analyses a session and writes report.html, results.json, tables/*.csv and impulses/*.wav.")
    .argument("<session>", "the session's folder, or its session.json")
    .requiredOption("--out <dir>", "folder to write into")
    .addHelpText("after", "\nExample:\n  carrywell report tuesday --out tuesday/report")
    .action(async (session: string, options: TerminalOptions & { out: string }) => {
      await run(options, (terminal) => report(session, options.out, terminal));
    });
}

function addListen(program: Command, run: Run): void {
  common(program.command("listen"))
    .summary("hear a mix as it sounds on each monitor and playback class")
    .description(
      "Renders a mix as WAV files for earphones or a neutral monitor, and writes what it loses where: listen.html, listen.json.",
    )
    .argument("<session>", "the session's folder, or its session.json")
    .requiredOption("--mix <file>", "the mix: a WAV file, mono or stereo, of any length")
    .requiredOption("--out <dir>", "folder to write into")
    .option("--room", "monitors with the whole response of their room, for earphones; else their tone alone")
    .option("--on <id>", "the monitor that is listened on: its own colour is taken out")
    .addHelpText("after", "\nExample:\n  carrywell listen tuesday --mix song.wav --out tuesday/song --on nears")
    .action(async (session: string, options: TerminalOptions & ListenFlags) => {
      const { mix, out, room = false, on = null } = options;
      await run(options, (terminal) => listen({ session, mix, out, room, on }, terminal));
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
      await run(options, (terminal) => demo(options.out, terminal));
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

function unreadable(error: CommanderError, args: readonly string[]): InputError {
  const [command] = args;
  const known = ["sweep", "report", "listen", "demo"].find((name) => name === command);
  const help = known === undefined ? "carrywell --help" : `carrywell ${known} --help`;
  if (error.code === "commander.help") {
    return new InputError("No command was given.", { where: "command line", remedy: `run "${help}"` });
  }
  const message = error.message.replace(/^error: /, "").replace(/\n\(Did you mean (.*?)\?\)/s, "; did you mean $1?");
  const text = message.charAt(0).toUpperCase() + message.slice(1);
  return new InputError(/[.?!]$/.test(text) ? text : `${text}.`, { where: "command line", remedy: `run "${help}"` });
}

const signals = { SIGINT: 130, SIGTERM: 143, SIGHUP: 129 } as const;

/** Leaves in good order: what was begun is removed by those who began it, on exit. */
function obeySignals(): void {
  for (const [signal, code] of Object.entries(signals)) {
    process.once(signal, () => {
      process.exit(code);
    });
  }
  // Whoever reads our output may have heard enough.
  process.stdout.on("error", (error: NodeJS.ErrnoException) => {
    if (error.code === "EPIPE") process.exit(0);
    throw error;
  });
}
