/** What the pictures of a firmware take of flash and of RAM, file by file and in all. */
import type { BitmapFile } from "../../shared/bitmap/resolve.ts";
import { storageOf } from "../../shared/bitmap/storage.ts";
import type { SourceArray } from "../../shared/source/arrays.ts";
import { lineAt, lineStarts } from "../../shared/source/text.ts";
import { bytesInWords } from "../features/words.ts";
import type { Command, Print } from "./command.ts";
import { needPaths } from "./command.ts";
import { forEachFile, shownPath } from "./files.ts";

interface Stored {
  readonly file: string;
  /** 1-based, of the name. */
  readonly line: number;
  readonly name: string;
  readonly storage: "flash" | "copied" | "cleared" | "eeprom" | "unknown";
  readonly flash: number;
  readonly ram: number;
}

export const memoryCommand: Command = {
  name: "memory",
  usage: "[--json] PATH…",
  doc: "bytes of flash and of RAM that their bitmaps and palettes take, by file and in all;\n--json: of each array",
  options: { json: "flag" },
  async run(paths, { json }, target, print) {
    needPaths(paths);
    const arrays: Stored[] = [];
    await forEachFile(paths, target, (file) => {
      arrays.push(...storedIn(file));
    });
    if (json) print(`${JSON.stringify({ arrays, flash: sumOf(arrays, "flash"), ram: sumOf(arrays, "ram") })}\n`);
    else summary(arrays, print);
    return 0;
  },
};

/** Each array once, however many bitmaps show it. */
function storedIn({ source, bitmaps, palettes, file }: BitmapFile): Stored[] {
  const starts = lineStarts(source.text);
  const arrays = new Map<string, SourceArray>();
  const add = (array: SourceArray) => {
    for (const part of array.parts ?? [array]) arrays.set(`${part.base} ${part.node} ${part.first}`, part);
  };
  for (const { array } of bitmaps) add(array);
  for (const { array } of palettes) add(array);
  return [...arrays.values()]
    .sort((a, b) => a.nameSpan.start - b.nameSpan.start || a.node - b.node || a.first - b.first)
    .map((array) => {
      const { kind, flash, ram } = storageOf(source, array) ?? { kind: "unknown" as const, flash: 0, ram: 0 };
      const line = lineAt(starts, array.nameSpan.start) + 1;
      return { file: shownPath(file), line, name: array.name, storage: kind, flash, ram };
    });
}

function summary(arrays: readonly Stored[], print: Print): void {
  const files = [...new Set(arrays.map(({ file }) => file))];
  for (const name of files) print(`${name}: ${total(arrays.filter(({ file }) => file === name))}\n`);
  if (files.length !== 1) print(`${files.length} files: ${total(arrays)}\n`);
}

function total(arrays: readonly Stored[]): string {
  const unknown = arrays.filter(({ storage }) => storage === "unknown").length;
  const left = unknown > 0 ? `; ${unknown} of unknown size left out` : "";
  const count = `${arrays.length} array${arrays.length === 1 ? "" : "s"}`;
  const [flash, ram] = [sumOf(arrays, "flash"), sumOf(arrays, "ram")];
  return `${count}, ${bytesInWords(flash)} of flash, ${bytesInWords(ram)} of RAM${left}`;
}

function sumOf(arrays: readonly Stored[], of: "flash" | "ram"): number {
  return arrays.reduce((sum, array) => sum + array[of], 0);
}
