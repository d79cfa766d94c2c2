import { InputError } from "../errors.js";
import { programVersion } from "../files/program-version.js";
import { COMMANDS, CommanderError, commandLine } from "./command-line.js";
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

function unreadable(error: CommanderError, args: readonly string[]): InputError {
  const [command] = args;
  const known = COMMANDS.find((name) => name === command);
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
