/** The form of a command of the command line. The table of all of them is in `main.ts`. */
import type { Bitmap, BitmapFile } from "../../shared/bitmap/resolve.ts";
import { nearest } from "../../shared/pixels/words.ts";
import { lineAt, lineStarts } from "../../shared/source/text.ts";
import type { Target } from "../../shared/source/types.ts";
import { UserError } from "./files.ts";

export type Print = (text: string) => void;

/** The options that were given, by name without `--`: true for a flag, else the text. */
export type Given = Readonly<Record<string, string | true | undefined>>;

export interface Command {
  readonly name: string;
  /** What follows the name in the usage, and below it what the command does. */
  readonly usage: string;
  readonly doc: string;
  /** Its options by name, besides `--target`: flags have no value. */
  readonly options: Readonly<Record<string, "flag" | "value">>;
  /** Returns the exit code. A `UserError` is a message for the user and exit code 2. */
  run(paths: readonly string[], given: Given, target: Target | undefined, print: Print): number | Promise<number>;
}

/** The text of an option; undefined where it was not given. */
export function textOf(given: Given, option: string): string | undefined {
  const value = given[option];
  return value === true ? undefined : value;
}

/** A whole number of up to six digits; `otherwise` where the option was not given. */
export function wholeOf<T>(given: Given, option: string, least: number, otherwise: T): number | T {
  const text = textOf(given, option);
  if (text === undefined) return otherwise;
  const value = Number(text);
  if (!/^\d{1,6}$/.test(text) || value < least)
    throw new UserError(`--${option} takes a whole number from ${least}, not ${text}`);
  return value;
}

/** The name of the file to write. */
export function outOf(given: Given, command: string, what: string): string {
  const out = textOf(given, "out");
  if (out === undefined) throw new UserError(`${command} needs --out with the name of the ${what} to write`);
  return out;
}

export function needPaths(paths: readonly string[]): void {
  if (paths.length === 0) throw new UserError("name the files or folders to read");
}

/** Several bitmaps may have one name (under `#if` and `#else`): the first, with a word about it, or that of the line. */
export function bitmapNamed(opened: BitmapFile, name: string, line: number | undefined): Bitmap {
  const { file, bitmaps, source } = opened;
  const named = bitmaps.filter((b) => b.array.name === name);
  const [first] = named;
  if (!first) {
    const names = bitmaps.map((b) => b.array.name);
    const near = nearest(name, names);
    const unmarked = source.arrays.some((a) => a.name === name);
    const why = unmarked ? "is an array without an annotation" : "is not a bitmap of this file";
    const hint = near ? `; did you mean ${near}?` : names.length > 0 ? `; it has ${names.slice(0, 8).join(", ")}` : "";
    throw new UserError(`${file}: ${name} ${why}${hint}`);
  }
  const starts = lineStarts(source.text);
  const lines = named.map(({ array }) => lineAt(starts, array.nameSpan.start) + 1);
  if (line !== undefined) {
    const chosen = named[lines.indexOf(line)];
    if (!chosen) throw new UserError(`${file}: ${name} is not named on line ${line}, but on ${lines.join(", ")}`);
    return chosen;
  }
  if (named.length > 1) {
    const others = `${named.length} bitmaps are named ${name}, on lines ${lines.join(", ")}`;
    process.stderr.write(`dotwright: ${file}: ${others}; this is the first, --line picks another\n`);
  }
  return first;
}
