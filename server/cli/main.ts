/** The command: the editor's checks and pictures without an editor. */
import { parseArgs } from "node:util";
import { nearest } from "../../shared/pixels/words.ts";
import type { Target } from "../../shared/source/types.ts";
import { check } from "./check.ts";
import { UserError } from "./files.ts";
import { list } from "./list.ts";
import { render } from "./render.ts";
import { sheet } from "./sheet.ts";

const USAGE = `Usage:
  cli.js list [--all] [--values] [--json] [--target T] PATH…
      the bitmaps in these files and folders; with --all every array of numbers
  cli.js check [--json | --sarif] [--target T] PATH…
      what is wrong with them; exit 0 clean, 1 errors or warnings, 2 could not run
  cli.js render FILE NAME --out X.png [--frame N] [--scale N] [--line N] [--target T]
      one frame (from 0) as PNG; --line where several bitmaps have the name
  cli.js sheet --out X.png [--target T] PATH…
      all bitmaps of these files and folders in one PNG, each under its name

T is avr (16-bit int), arm32 or host. Without it .ino files are read for avr, others for the host.
`;

/** The commands and the options that each takes, besides --target. */
const COMMANDS = {
  list: ["all", "values", "json"],
  check: ["json", "sarif"],
  render: ["out", "frame", "scale", "line"],
  sheet: ["out"],
} as const;
const print = (text: string) => process.stdout.write(text);

async function main(): Promise<number> {
  const { values, positionals } = parseArgs({
    allowPositionals: true,
    options: {
      all: { type: "boolean" },
      values: { type: "boolean" },
      json: { type: "boolean" },
      sarif: { type: "boolean" },
      help: { type: "boolean", short: "h" },
      target: { type: "string" },
      out: { type: "string" },
      frame: { type: "string" },
      scale: { type: "string" },
      line: { type: "string" },
    },
  });
  const [command, ...paths] = positionals;
  if (values.help) {
    print(USAGE);
    return 0;
  }
  if (command === undefined) throw new UserError(`a command is missing\n${USAGE}`);
  refuseForeign(command, Object.keys(values));
  const target = targetFrom(values.target);
  const { all = false, values: shown = false, json = false, sarif = false } = values;
  switch (command) {
    case "list":
      needPaths(paths);
      return list(paths, { all, values: shown, json, target }, print);
    case "check":
      needPaths(paths);
      if (sarif && json) throw new UserError("--json and --sarif can't be combined");
      return check(paths, { format: sarif ? "sarif" : json ? "json" : "text", target }, print);
    case "render": {
      const [file, name, ...rest] = paths;
      if (file === undefined || name === undefined || rest.length > 0)
        throw new UserError("render takes a file and the name of a bitmap");
      if (values.out === undefined) throw new UserError("render needs --out with the name of the PNG to write");
      const frame = wholeFrom("frame", values.frame ?? "0", 0);
      const scale = wholeFrom("scale", values.scale ?? "1", 1);
      const line = values.line === undefined ? undefined : wholeFrom("line", values.line, 1);
      return render(file, name, { out: values.out, frame, scale, line, target });
    }
    case "sheet":
      needPaths(paths);
      if (values.out === undefined) throw new UserError("sheet needs --out with the name of the PNG to write");
      return sheet(paths, { out: values.out, target }, print);
    default: {
      const near = nearest(command, Object.keys(COMMANDS));
      throw new UserError(`${command} is not a command${near ? `; did you mean ${near}?` : ""}\n${USAGE}`);
    }
  }
}

/** An option that another command takes would change nothing here: that is said, not swallowed. */
function refuseForeign(command: string, given: readonly string[]): void {
  if (!Object.hasOwn(COMMANDS, command)) return;
  const own: readonly string[] = COMMANDS[command as keyof typeof COMMANDS];
  const foreign = given.find((option) => option !== "target" && !own.includes(option));
  if (foreign !== undefined) throw new UserError(`${command} takes no --${foreign}`);
}

function targetFrom(text: string | undefined): Target | undefined {
  if (text === undefined || text === "avr" || text === "arm32" || text === "host") return text;
  throw new UserError(`${text} is not a target: avr, arm32 or host`);
}

function wholeFrom(option: string, text: string, least: number): number {
  const value = Number(text);
  if (!/^\d{1,6}$/.test(text) || value < least)
    throw new UserError(`--${option} takes a whole number from ${least}, not ${text}`);
  return value;
}

function needPaths(paths: readonly string[]): void {
  if (paths.length === 0) throw new UserError("name the files or folders to read");
}

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
      `dotwright: ${error instanceof Error ? (expected ? error.message : error.stack) : String(error)}\n`,
    );
    process.exitCode = 2;
  },
);
