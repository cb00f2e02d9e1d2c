import { mkdtemp, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { byFile, type ListedArray, listArrays } from "../support/cli.ts";
import { bareName, type CompileTarget } from "../support/compile.ts";
import { type CorpusFile, formsCorpus } from "../support/formsCorpus.ts";
import { TARGETS } from "./corpus/arithmetic.ts";
import { type Bench, disagreement, type Judgement, judge, openBench } from "./judge.ts";

const SEED = 20_240_611;
const FILES = formsCorpus(SEED);

let bench: Bench;
let folder: string;
const judgements = new Map<string, Promise<Judgement>>();

beforeAll(async () => {
  bench = await openBench();
  folder = await mkdtemp(join(tmpdir(), "forms-"));
  for (const { path, bytes } of FILES) await writeFile(join(folder, path), bytes);
});

afterAll(async () => {
  await bench.close();
  await rm(folder, { recursive: true, force: true });
});

/** A file is compiled once a target, however many listings are compared with it. */
function judgeOnce(file: CorpusFile, target: CompileTarget): Promise<Judgement> {
  const key = `${target} ${file.path}`;
  const members = file.arrays.filter(({ name }) => name.includes(".")).map(({ name }) => name);
  const judged = judgements.get(key) ?? judge(join(folder, file.path), target, bench, { members });
  judgements.set(key, judged);
  return judged;
}

/** Everything in which the product's list of one file departs from what the compiler stored. */
async function departures(file: CorpusFile, target: CompileTarget, listed: readonly ListedArray[]): Promise<string[]> {
  const judged = await judgeOnce(file, target);
  const named = (name: string) => listed.filter((entry) => bareName(entry.name) === name);
  const lines = Buffer.from(file.bytes).toString("latin1").split("\n");
  const problems = file.arrays.flatMap((array) => {
    const report = (problem: string) => [`${file.path}, ${target}: ${array.name} ${problem}\n${array.declaration}`];
    const [entry, ...again] = named(array.name);
    if (!entry) return report("is not listed");
    if (again.length > 0) return report(`is listed ${again.length + 1} times`);
    if (!lines[entry.line - 1]?.includes(array.name.split(/[.[]/)[0] as string))
      return report(`is not on line ${entry.line}`);
    const expected = { name: array.name, bits: array.bits[target], signed: array.signed, readOnly: array.readOnly };
    const problem = disagreement(entry, expected, judged.get(array.name) ?? []);
    return problem === undefined ? [] : report(problem);
  });
  const known = new Set(file.arrays.map(({ name }) => name));
  const others = listed
    .filter(({ name }) => !known.has(bareName(name)))
    .flatMap((entry) => {
      const name = bareName(entry.name);
      const optional = file.optional.includes(name);
      const problem = optional
        ? disagreement(entry, { name, readOnly: "allowed" }, judged.get(name) ?? [])
        : "is listed but is no number array";
      return problem === undefined ? [] : [`${file.path}, ${target}: line ${entry.line}: ${name} ${problem}`];
    });
  return [...problems, ...others];
}

/** The target that is in force without `--target`: avr for sketches, else the host. */
const defaultTarget = (file: CorpusFile): CompileTarget => (file.path.endsWith(".ino") ? "avr" : "host");

describe.each([...TARGETS, undefined])("arrays in every form, --target %s", (option) => {
  const files = FILES.filter((file) => file.targets.includes(option ?? defaultTarget(file)));
  let listed: ReadonlyMap<string, readonly ListedArray[]>;

  beforeAll(async () => {
    listed = byFile(await listArrays([folder], option));
  });

  it("holds at least 2,000 arrays", () => {
    expect(files.reduce((sum, { arrays }) => sum + arrays.length, 0)).toBeGreaterThanOrEqual(2000);
  });

  it.each(files)("$path is read as the compiler stores it", async (file) => {
    const problems = await departures(file, option ?? defaultTarget(file), listed.get(file.path) ?? []);
    // The shortest declaration that is read wrongly tells most.
    expect(problems.sort((a, b) => a.length - b.length).join("\n\n")).toBe("");
  });
});
