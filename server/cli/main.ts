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
  cli.js render FILE NAME --out X.png [--frame N] [--scale N] [--target T]
      one frame (from 0) as PNG
  cli.js sheet --out X.png [--target T] PATH…
      all bitmaps of these files and folders in one PNG, each under its name

T is avr (16-bit int), arm32 or host. Without it .ino files are read for avr, others for the host.
`;

const COMMANDS = ["list", "check", "render", "sheet"];
const print = (text: string) => process.stdout.write(text);

async function main(): Promise<number> {
  const { values, positionals } = parseArgs({
    allowPositionals: true,
    options: {
      all: { type: "boolean", default: false },
      values: { type: "boolean", default: false },
      json: { type: "boolean", default: false },
      sarif: { type: "boolean", default: false },
      help: { type: "boolean", short: "h", default: false },
      target: { type: "string" },
      out: { type: "string" },
      frame: { type: "string", default: "0" },
      scale: { type: "string", default: "1" },
    },
  });
  const [command, ...paths] = positionals;
  if (values.help) {
    print(USAGE);
    return 0;
  }
  if (command === undefined) throw new UserError(`a command is missing\n${USAGE}`);
  const target = targetFrom(values.target);
  switch (command) {
    case "list":
      needPaths(paths);
      return list(paths, { all: values.all, values: values.values, json: values.json, target }, print);
    case "check":
      needPaths(paths);
      if (values.sarif && values.json) throw new UserError("--json and --sarif can't be combined");
      return check(paths, { format: values.sarif ? "sarif" : values.json ? "json" : "text", target }, print);
    case "render": {
      const [file, name, ...rest] = paths;
      if (file === undefined || name === undefined || rest.length > 0)
        throw new UserError("render takes a file and the name of a bitmap");
      if (values.out === undefined) throw new UserError("render needs --out with the name of the PNG to write");
      const frame = wholeFrom("frame", values.frame, 0);
      return render(file, name, { out: values.out, frame, scale: wholeFrom("scale", values.scale, 1), target });
    }
    case "sheet":
      needPaths(paths);
      if (values.out === undefined) throw new UserError("sheet needs --out with the name of the PNG to write");
      return sheet(paths, { out: values.out, target }, print);
    default: {
      const near = nearest(command, COMMANDS);
      throw new UserError(`${command} is not a command${near ? `; did you mean ${near}?` : ""}\n${USAGE}`);
    }
  }
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
