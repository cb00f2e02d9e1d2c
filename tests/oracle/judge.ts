import { mkdtemp, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { ListedArray } from "../support/cli.ts";
import { bareName, type CompileTarget, compileBytes, elementsOf } from "../support/compile.ts";
import { preludeText } from "./corpus/prelude.ts";

/** What one compiler stored for one source file: the bytes of each object by the name that its declaration spells. */
export type Judgement = ReadonlyMap<string, readonly Uint8Array[]>;

/** A folder for files that only the compilers see; `prelude.h` in it stands for the board's core. */
export interface Bench {
  readonly folder: string;
  readonly prelude: string;
  readonly close: () => Promise<void>;
}

export async function openBench(): Promise<Bench> {
  const folder = await mkdtemp(join(tmpdir(), "judge-"));
  const prelude = join(folder, "prelude.h");
  await writeFile(prelude, preludeText());
  return { folder, prelude, close: () => rm(folder, { recursive: true, force: true }) };
}

/**
 * Compiles a file. `members` names arrays inside struct variables (`drop.rows`, `icons[2].rows`): the compiler itself
 * tells where they lie. Throws where the file does not compile or a member's place is no constant.
 */
export async function judge(
  file: string,
  target: CompileTarget,
  bench: Bench,
  options: { readonly members?: readonly string[]; readonly includes?: readonly string[] } = {},
): Promise<Judgement> {
  const { members = [], includes = [] } = options;
  const probes = members.map((path, i) => `extern const int32_t dw_place_${i}[] = { ${placeOf(path)} };`);
  const wrapped = probes.length === 0 ? {} : { probes: probes.join("\n") };
  const objects = await compileBytes(file, { target, prelude: bench.prelude, includes, ...wrapped });
  const judged = new Map<string, Uint8Array[]>();
  const add = (name: string, bytes: Uint8Array) => judged.set(name, [...(judged.get(name) ?? []), bytes]);
  for (const [name, { bytes }] of objects) add(bareName(name), bytes);
  for (const [i, path] of members.entries()) {
    const [at, size] = elementsOf(judged.get(`dw_place_${i}`)?.[0] ?? new Uint8Array(), 32, true).map(Number);
    const whole = judged.get(bareName(variableOf(path)))?.[0];
    if (at === undefined || !size || !whole) throw new Error(`${file}: no place of ${path}`);
    add(path, whole.subarray(at, at + size));
  }
  return judged;
}

const variableOf = (path: string) => path.replace(/[.[].*$/, "");

function placeOf(path: string): string {
  return `(int32_t)((const char *)&(${path}) - (const char *)&(${variableOf(path)})), (int32_t)sizeof(${path})`;
}

/** What is known of an array apart from its bytes. */
export interface Expected {
  readonly name: string;
  readonly bits?: number;
  readonly signed?: boolean;
  readonly readOnly: "never" | "allowed" | "required";
}

/** What is wrong with the product's reading of one array; undefined where it agrees with the compiler. */
export function disagreement(
  listed: ListedArray,
  expected: Expected,
  candidates: readonly Uint8Array[],
): string | undefined {
  const { elementBits, signed, values, readOnly } = listed;
  if (readOnly && expected.readOnly === "never") return `is read-only: ${JSON.stringify(readOnly)}`;
  if (!readOnly && expected.readOnly === "required") return "is not read-only, though its values can't be known";
  if (candidates.length === 0) return "is not in the object file";
  if (values === undefined) return readOnly ? undefined : "has no values";
  if (expected.bits !== undefined && elementBits !== expected.bits)
    return `has elements of ${elementBits} bits, not ${expected.bits}`;
  if (expected.signed !== undefined && signed !== expected.signed) return `is ${signed ? "signed" : "unsigned"}`;
  const sized = candidates.filter((bytes) => bytes.length === (elementBits / 8) * values.length);
  if (sized.length === 0)
    return `has ${values.length} elements of ${elementBits} bits, the compiler ${candidates.map((b) => b.length).join(" or ")} bytes`;
  const stored = sized.map((bytes) => elementsOf(bytes, elementBits, signed));
  if (stored.some((list) => list.every((value, i) => value === values[i]))) return undefined;
  return `differs\n  compiler: ${excerpt(stored[0] ?? [], values)}\n  product:  ${excerpt(values, stored[0] ?? [])}`;
}

/** The values from the first difference on, as many as a message can bear. */
function excerpt(values: readonly (number | string)[], others: readonly (number | string)[]): string {
  const first = values.findIndex((value, i) => value !== others[i]);
  const from = values.length <= 24 ? 0 : Math.max(0, first - 4);
  return `[${first}…] ${from > 0 ? "… " : ""}${JSON.stringify(values.slice(from, from + 24))}`;
}
