/** The command on a terminal of its own: it shows how far it is, and Ctrl+C ends it in good order. */
import { spawn } from "node:child_process";
import { linkSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterAll, beforeAll, expect, test } from "vitest";
import { firmware } from "../bench/texts.ts";

const COMMAND = fileURLToPath(new URL("../../dist/cli.js", import.meta.url));
const FILES = 1000;

let folder = "";
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "dotwright-long-"));
  const first = join(folder, "file0.h");
  writeFileSync(first, firmware(300_000, ""));
  // One text under many names: much to read, and quickly made.
  for (let i = 1; i < FILES; i++) linkSync(first, join(folder, `file${i}.h`));
});
afterAll(() => rmSync(folder, { recursive: true }));

test("progress is shown, and a key ends it with its signal, a word and no half a result", async () => {
  // `script` (bsdutils) gives the command a terminal; -e passes its exit code on.
  const command = `'${process.execPath}' '${COMMAND}' check --json '${folder}'`;
  const child = spawn("script", ["-qec", command, "/dev/null"], { stdio: ["pipe", "pipe", "ignore"] });
  let said = "";
  const code = await new Promise<number | null>((resolve, reject) => {
    let asked = false;
    child.stdout.on("data", (part: Buffer) => {
      said += part.toString();
      if (!asked && / of \d+ files/.test(said)) {
        asked = true;
        child.stdin.write("\u0003");
      }
    });
    child.on("error", reject);
    child.on("close", resolve);
  });
  expect(said).toMatch(new RegExp(`(?:looking through|reading) \\d+ of ${FILES} files`));
  // The line of progress is cleared before.
  expect(said).toContain("\r\u001b[Kdotwright: cancelled after ");
  expect(said).not.toContain("findings");
  // 128 + 2, as shells tell of SIGINT: common practice, no source.
  expect(code).toBe(130);
});
