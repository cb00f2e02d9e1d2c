import { readdirSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { byFile, type ListedArray, listArrays } from "../support/cli.ts";
import { bareName } from "../support/compile.ts";
import { TARGETS } from "./corpus/arithmetic.ts";
import { type Bench, disagreement, judge, openBench } from "./judge.ts";

const SAMPLE = fileURLToPath(new URL("../../sample-workspace", import.meta.url));
const FILES = readdirSync(SAMPLE, { recursive: true, encoding: "utf8" }).filter((path) =>
  /\.(h|hpp|ino|cpp)$/.test(path),
);

/** Arrays whose numbers depend on how the sketch is built: the product must not guess them. */
const BUILD_DEPENDENT = ["depends_on_build"];

let bench: Bench;

beforeAll(async () => {
  bench = await openBench();
});

afterAll(() => bench.close());

describe.each(TARGETS)("the sample workspace, --target %s", (target) => {
  let all: readonly ListedArray[];
  let listed: ReadonlyMap<string, readonly ListedArray[]>;

  beforeAll(async () => {
    all = await listArrays([SAMPLE], target);
    listed = byFile(all);
  });

  it("lists its bitmaps", () => {
    expect(all.filter(({ bitmap }) => bitmap !== undefined).length).toBeGreaterThanOrEqual(10);
  });

  it.each(FILES)("%s is read as the compiler stores it", async (path) => {
    const arrays = listed.get(path) ?? [];
    const members = arrays.filter(({ name }) => name.includes(".")).map(({ name }) => name);
    const judged = await judge(join(SAMPLE, path), target, bench, { members, includes: [SAMPLE] });
    const problems = arrays.flatMap((entry) => {
      const name = members.includes(entry.name) ? entry.name : bareName(entry.name);
      const readOnly = BUILD_DEPENDENT.includes(name) ? "required" : "never";
      const problem = disagreement(entry, { name, readOnly }, judged.get(name) ?? []);
      return problem === undefined ? [] : [`${path}:${entry.line}: ${entry.name} ${problem}`];
    });
    expect(problems.join("\n\n")).toBe("");
  });
});
