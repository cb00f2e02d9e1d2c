import { stat } from "node:fs/promises";
import { dirname, relative } from "node:path";
import type { BitmapDifference } from "../../shared/bitmap/compare.ts";
import { compareFiles, differenceInWords } from "../../shared/bitmap/compare.ts";
import { openText } from "../../shared/bitmap/open.ts";
import type { Bitmap, BitmapFile } from "../../shared/bitmap/resolve.ts";
import { lineAt, lineStarts } from "../../shared/source/text.ts";
import type { Target } from "../../shared/source/types.ts";
import { decodeText } from "../text.ts";
import type { Command, Print } from "./command.ts";
import { forEachFile, openFile, shownPath, UserError } from "./files.ts";
import { includesBelow } from "./includes.ts";

export const compareCommand: Command = {
  name: "compare",
  usage: "[--json] OLD NEW",
  doc: `which bitmaps of two files or folders look otherwise, and by how many pixels; OLD may be - for standard input;
exit 0 the same, 1 they differ, 2 could not run`,
  options: { json: "flag" },
  async run(paths, { json }, target, print) {
    const [before, after, ...rest] = paths;
    if (before === undefined || after === undefined || rest.length > 0)
      throw new UserError("compare takes two files or two folders, the older one first");
    return compare(before, after, { json: json === true, target }, print);
  },
};

interface Pair {
  /** As it is shown: the newer one, or that which is gone. */
  readonly title: string;
  readonly before: BitmapFile;
  readonly after: BitmapFile;
}

interface CompareOptions {
  readonly json: boolean;
  readonly target: Target | undefined;
}

async function compare(before: string, after: string, { json, target }: CompareOptions, print: Print): Promise<number> {
  const pairs = (await isFolder(after))
    ? await foldersOf(before, after, target)
    : [await filesOf(before, after, target)];
  const differences = pairs.flatMap((pair) =>
    compareFiles(pair.before, pair.after).map((difference) => ({ pair, difference })),
  );
  if (json) print(`${JSON.stringify({ differences: differences.map(listed) })}\n`);
  else for (const { pair, difference } of differences) print(`${lineOf(pair, difference)}\n`);
  return differences.length > 0 ? 1 : 0;
}

async function isFolder(path: string): Promise<boolean> {
  const info = await stat(path).catch(() => undefined);
  if (!info) throw new UserError(`${path}: there is no such file or folder`);
  return info.isDirectory();
}

async function filesOf(before: string, after: string, target: Target | undefined): Promise<Pair> {
  if (before !== "-" && (await isFolder(before))) throw new UserError(`${before} is a folder and ${after} is a file`);
  const now = await openFile(after, target);
  return {
    title: shownPath(after),
    after: now,
    before: before === "-" ? await fromInput(now) : await openFile(before, target),
  };
}

/** Standard input, read as the newer file is: for its target, with what it includes and the panels that it knows. */
async function fromInput({ file, source, known: panels, id }: BitmapFile): Promise<BitmapFile> {
  const parts: Buffer[] = [];
  for await (const part of process.stdin) parts.push(part as Buffer);
  const { text, encoding } = decodeText(Buffer.concat(parts));
  const includes = includesBelow([dirname(file)])(file);
  return openText(text, file, { target: source.target, bytes: encoding === "latin1", includes, panels, id });
}

/** Files are the same by their path below the folder. */
async function foldersOf(before: string, after: string, target: Target | undefined): Promise<Pair[]> {
  if (before === "-" || !(await isFolder(before))) throw new UserError(`${after} is a folder and ${before} is none`);
  const [old, now] = [await filesBelow(before, target), await filesBelow(after, target)];
  const none = (file: string) => openText("", file, { target });
  return [...new Set([...now.keys(), ...old.keys()])].sort().map((path) => {
    const [a, b] = [old.get(path), now.get(path)];
    return { title: shownPath((b ?? a)?.file ?? path), before: a ?? none(path), after: b ?? none(path) };
  });
}

async function filesBelow(folder: string, target: Target | undefined): Promise<Map<string, BitmapFile>> {
  const files = new Map<string, BitmapFile>();
  await forEachFile([folder], target, (file) => {
    if (file.bitmaps.length > 0) files.set(relative(folder, file.file), file);
  });
  return files;
}

function lineOf({ title, before, after }: Pair, difference: BitmapDifference): string {
  const bitmap = (difference.after ?? difference.before) as Bitmap;
  const line = lineIn(difference.after ? after : before, bitmap);
  const gone = difference.after ? `${title}:${line}` : title;
  return `${gone}: ${bitmap.array.name}: ${differenceInWords(difference)}`;
}

function listed({ pair, difference }: { pair: Pair; difference: BitmapDifference }) {
  const { kind, before, after, shape, frames } = difference;
  return {
    file: pair.title,
    name: (after ?? before)?.array.name,
    change: kind,
    ...(before ? { before: sideOf(pair.before, before) } : {}),
    ...(after ? { after: sideOf(pair.after, after) } : {}),
    ...(shape.length > 0 ? { shape } : {}),
    ...(frames.length > 0 ? { frames } : {}),
  };
}

function sideOf(file: BitmapFile, bitmap: Bitmap) {
  const { array, width, height, frames, format } = bitmap;
  return { name: array.name, line: lineIn(file, bitmap), width, height, frames, format: format.name };
}

function lineIn(file: BitmapFile, { array }: Bitmap): number {
  return lineAt(lineStarts(file.source.text), array.nameSpan.start) + 1;
}
