/** The command over a whole tree: 2,000 files of 50 MB, side by side with a program that only reads them. */
import { spawnSync } from "node:child_process";
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import type { Row } from "./measure.ts";
import { row } from "./measure.ts";
import { code, firmware } from "./texts.ts";

const FILES = 2000;
const BYTES = 25_000;
const ROUNDS = 5;

/** Walks and reads as the command does, and does nothing with what it reads. */
const FLOOR = `
const { readdirSync, readFileSync } = require("node:fs");
const { join } = require("node:path");
let bytes = 0;
const walk = (folder) => {
  for (const e of readdirSync(folder, { withFileTypes: true })) {
    const path = join(folder, e.name);
    if (e.isDirectory()) walk(path);
    else bytes += readFileSync(path).length;
  }
};
walk(process.argv[1]);
console.log(bytes);
`;

/** `share` is how many of the files hold annotated arrays; the others are code. */
export function treeRows(rows: Row[], share: number, what: string): void {
  const folder = mkdtempSync(join(tmpdir(), "dotwright-tree-"));
  try {
    const art = firmware(BYTES, "");
    const plain = code(BYTES);
    for (let i = 0; i < FILES; i++) {
      const path = join(folder, `part${i % 40}`, `file${i}.${i % 2 ? "h" : "cpp"}`);
      mkdirSync(dirname(path), { recursive: true });
      writeFileSync(path, i % 100 < share * 100 ? art : plain);
    }
    writeFileSync(join(folder, "board.h"), "// @panel lantern 9x9 gray8 cap=255\n");
    const floors: number[] = [];
    const checks: number[] = [];
    for (let round = 0; round < ROUNDS; round++) {
      floors.push(timed(["-e", FLOOR, folder]));
      checks.push(timed(["dist/cli.js", "check", "--json", folder]));
    }
    const [floor, check] = [middle(floors), middle(checks)];
    rows.push(
      row(
        `\`check\` of 2,000 files, 50 MB, ${what}`,
        `${(check / 1000).toFixed(2)} s; only reading them ${(floor / 1000).toFixed(2)} s`,
        "≤ 3 s",
        check <= 3000,
      ),
    );
  } finally {
    rmSync(folder, { recursive: true });
  }
}

/** Milliseconds of a run of Node, its start with it. */
function timed(args: readonly string[]): number {
  const begun = performance.now();
  const { status, stderr } = spawnSync(process.execPath, args, { encoding: "utf8", maxBuffer: 1 << 28 });
  if (status === null || status > 1) throw new Error(`the run failed: ${stderr}`);
  return performance.now() - begun;
}

function middle(times: number[]): number {
  return times.sort((a, b) => a - b)[times.length >> 1] as number;
}
