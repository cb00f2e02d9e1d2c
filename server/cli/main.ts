/** The command: the editor's checks and pictures without an editor. */
import { parseArgs } from "node:util";
import { nearest } from "../../shared/pixels/words.ts";
import type { Target } from "../../shared/source/types.ts";
import { bakeCommand } from "./bake.ts";
import { checkCommand } from "./check.ts";
import type { Command, Given } from "./command.ts";
import { compareCommand } from "./compare.ts";
import { currentCommand } from "./current.ts";
import { dimCommand } from "./dim.ts";
import { UserError } from "./files.ts";
import { firmwareCommand } from "./firmware.ts";
import { importCommand } from "./import.ts";
import { lightnessCommand } from "./lightness.ts";
import { listCommand } from "./list.ts";
import { memoryCommand } from "./memory.ts";
import { renderCommand } from "./render.ts";
import { sheetCommand } from "./sheet.ts";
import { textCommand } from "./text.ts";
import { wiringCommand } from "./wiring.ts";

/** All commands; a new one is a file and an entry here. */
const COMMANDS: readonly Command[] = [
  listCommand,
  checkCommand,
  renderCommand,
  sheetCommand,
  importCommand,
  textCommand,
  compareCommand,
  memoryCommand,
  currentCommand,
  bakeCommand,
  firmwareCommand,
  dimCommand,
  lightnessCommand,
  wiringCommand,
];

const usageOf = (commands: readonly Command[]) => `Usage:
${commands.map(({ name, usage, doc }) => `  cli.js ${name} ${usage}\n      ${doc.replaceAll("\n", "\n      ")}\n`).join("")}
All take --target T: avr (16-bit int), arm32 or host. Without it .ino files are read for avr, others for the host.
`;

const print = (text: string) => process.stdout.write(text);

async function main(): Promise<number> {
  const kinds = new Map(COMMANDS.flatMap(({ options }) => Object.entries(options)));
  const { values, positionals } = parseArgs({
    allowPositionals: true,
    options: {
      ...Object.fromEntries(
        [...kinds].map(([name, kind]) => [name, { type: kind === "flag" ? "boolean" : "string" } as const]),
      ),
      help: { type: "boolean", short: "h" },
      target: { type: "string" },
    },
  });
  const given = values as Given;
  const [name, ...paths] = positionals;
  const command = COMMANDS.find((known) => known.name === name);
  if (given.help) {
    print(usageOf(command ? [command] : COMMANDS));
    return 0;
  }
  if (name === undefined) throw new UserError(`a command is missing\n${usageOf(COMMANDS)}`);
  if (!command) {
    const names = COMMANDS.map((known) => known.name);
    const near = nearest(name, names);
    // The whole usage would push the reason out of sight.
    const rest = near ? `; did you mean ${near}?` : `\nThe commands are ${names.join(", ")}; --help explains them.`;
    throw new UserError(`${name} is not a command${rest}`);
  }
  // An option that another command takes would change nothing here: that is said, not swallowed.
  const foreign = Object.keys(given).find((option) => option !== "target" && !Object.hasOwn(command.options, option));
  if (foreign !== undefined) throw new UserError(`${name} takes no --${foreign}`);
  return command.run(paths, given, targetFrom(typeof given.target === "string" ? given.target : undefined), print);
}

function targetFrom(text: string | undefined): Target | undefined {
  if (text === undefined || text === "avr" || text === "arm32" || text === "host") return text;
  throw new UserError(`${text} is not a target: avr, arm32 or host`);
}

/** Node's words for an unknown option go on with advice about `--` that helps nobody here. */
const plain = (message: string) => message.replace(/^Unknown option '([^']+)'\. .*/s, "$1 is not an option");

// A reader that has seen enough, such as `head`, is no failure.
process.stdout.on("error", (error: NodeJS.ErrnoException) => {
  if (error.code !== "EPIPE") throw error;
  process.exit();
});

main().then(
  (code) => {
    process.exitCode = code;
  },
  (error: unknown) => {
    const usage = error instanceof TypeError && (error as NodeJS.ErrnoException).code?.startsWith("ERR_PARSE_ARGS");
    const expected = error instanceof UserError || usage;
    process.stderr.write(
      `dotwright: ${error instanceof Error ? (expected ? plain(error.message) : error.stack) : String(error)}\n`,
    );
    process.exitCode = 2;
  },
);
