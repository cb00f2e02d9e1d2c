import type { SourceArray } from "../../../shared/source/arrays.ts";
import { storedValues } from "../../../shared/source/arrays.ts";
import { readSource } from "../../../shared/source/read.ts";
import type { Target } from "../../../shared/source/types.ts";

/** What the compiler stores in an array; the reason in words where that is not known. */
export type Read = readonly (number | string)[] | string;

/** The arrays of a text in order, as `[name, values or reason]`. */
export function readAll(source: string, target: Target = "host"): [string, Read][] {
  return readSource(source, { target }).arrays.map((array) => [array.name, valuesOf(array)]);
}

/** The arrays of a text by name; of several with one name, the last. */
export function read(source: string, target: Target = "host"): Record<string, Read> {
  return Object.fromEntries(readAll(source, target));
}

/** The first array of a text. */
export function firstArray(source: string, target: Target = "host"): SourceArray {
  const array = readSource(source, { target }).arrays[0];
  if (!array) throw new Error(`no array in: ${source}`);
  return array;
}

/** One element after some lines before it: its value as stored in 64 bits, or why it is not known. */
export function element(expression: string, target: Target = "host", before = ""): string {
  const values = valuesOf(firstArray(`${before}\nconst int64_t a[] = { ${expression} };`, target));
  return typeof values === "string" ? values : String(values[0]);
}

function valuesOf(array: SourceArray): Read {
  return array.readOnly ?? storedValues(array) ?? "no values";
}
