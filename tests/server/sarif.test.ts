/**
 * What `check --sarif` prints, against the schema of OASIS SARIF 2.1.0 (rtm.5), as the npm package @microsoft/jest-sarif
 * carries it.
 */
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import Ajv from "ajv-draft-04";
import { afterAll, expect, test } from "vitest";
import { runCli } from "../support/cli.ts";

const need = createRequire(import.meta.url);
const schema = need("@microsoft/jest-sarif/lib/schemas/sarif-2.1.0-rtm.5.json") as object;
// Its patterns and formats are older than the strict rules of the validator.
const valid = new Ajv({ strict: false, unicodeRegExp: false, validateFormats: false, allErrors: true }).compile(schema);
const SAMPLE = fileURLToPath(new URL("../../sample-workspace", import.meta.url));
/** One panel in two ways: each finding names the other place. */
const twice = mkdtempSync(join(tmpdir(), "dotwright-sarif-"));
for (const cap of [32, 64]) writeFileSync(join(twice, `cap${cap}.h`), `// @panel trellis 4x4 cap=${cap}\n`);
afterAll(() => rmSync(twice, { recursive: true, force: true }));

test("every finding of the sample workspace is valid SARIF 2.1.0", async () => {
  const { stdout } = await runCli(["check", "--sarif", SAMPLE, twice]);
  const log = JSON.parse(stdout) as { runs: { results: { ruleId: string; relatedLocations?: unknown[] }[] }[] };
  valid(log);
  expect(valid.errors).toBeNull();
  const results = log.runs[0]?.results ?? [];
  expect(new Set(results.map((r) => r.ruleId)).size).toBeGreaterThanOrEqual(15);
  expect(results.some((r) => (r.relatedLocations?.length ?? 0) > 0)).toBe(true);
});

test("the schema refuses what is no SARIF", () => {
  expect(valid({ version: "2.1.0", runs: [{ results: [] }] })).toBe(false);
  expect(valid({ version: "2.0.0", runs: [] })).toBe(false);
});
