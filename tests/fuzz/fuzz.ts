/**
 * `npm run fuzz -- [documents] [seed]`: mutated documents through reading, every feature and writing, on all cores.
 * Prints the first document of each kind of failure. The figures of a whole run go to tests/fuzz/RESULTS.md.
 */
import { spawn } from "node:child_process";
import { mkdirSync, writeFileSync } from "node:fs";
import { availableParallelism, cpus } from "node:os";
import { seeded } from "../oracle/corpus/random.ts";
import { askAll } from "./ask.ts";
import { mutate } from "./mutate.ts";
import { seeds } from "./seeds.ts";

const USUAL = 100_000;
/** Longer than this is a wait that one notices. */
const HANG_MS = 200;
/** A slow answer is asked for again this often: the machine may have been busy with something else. */
const AGAIN = 4;

interface Total {
  readonly bitmaps: number;
  readonly painted: number;
  readonly refused: number;
  readonly actions: number;
  readonly bytes: number;
  /** Answers that took longer than a hang the first time. */
  readonly slow: number;
  readonly worst: { readonly ms: number; readonly what: string; readonly seed: number };
  /** How often each kind of failure came. */
  readonly failures: Readonly<Record<string, number>>;
}

/** Runs the documents of some seeds. */
function part(first: number, documents: number): Total {
  const texts = seeds(process.cwd());
  const total = { bitmaps: 0, painted: 0, refused: 0, actions: 0, bytes: 0, slow: 0 };
  const failures: Record<string, number> = {};
  let worst = { ms: 0, what: "", seed: 0 };
  for (let seed = first; seed < first + documents; seed++) {
    const { file, text } = make(seed, texts);
    try {
      const run = () => askAll(seeded(seed ^ 0x5bd1e995), file, text);
      const asked = run();
      let { slowest } = asked;
      if (slowest.ms > HANG_MS) {
        total.slow++;
        for (let i = 0; i < AGAIN && slowest.ms > HANG_MS; i++) slowest = run().slowest;
        if (slowest.ms > HANG_MS) throw new Error(`${slowest.what} takes ${slowest.ms.toFixed(0)} ms`);
      }
      if (slowest.ms > worst.ms) worst = { ...slowest, seed };
      total.bitmaps += asked.bitmaps;
      total.painted += asked.painted;
      total.refused += asked.refused;
      total.actions += asked.actions;
      total.bytes += text.length;
    } catch (error) {
      const words = error instanceof Error ? (error.stack ?? error.message) : String(error);
      const kind = words.replace(/\d+/g, "0").split("\n").slice(0, 3).join(" ");
      failures[kind] = (failures[kind] ?? 0) + 1;
      if (failures[kind] !== 1) continue;
      mkdirSync("tests/out", { recursive: true });
      writeFileSync(`tests/out/fuzz-${seed}-${file}`, text);
      process.stderr.write(`seed ${seed}, kept in tests/out/fuzz-${seed}-${file}: ${words}\n`);
    }
  }
  return { ...total, worst, failures };
}

/** The document of a seed. */
function make(seed: number, texts: ReturnType<typeof seeds>) {
  const random = seeded(seed);
  // The first numbers of neighbouring seeds are alike.
  for (let i = 0; i < 8; i++) random.int(0, 1);
  const { file, text } = random.pick(texts);
  return { file: file.replace(/.*[/\\]/, ""), text: mutate(random, text, random.pick(texts).text) };
}

/** The same in a process of its own. */
function apart(first: number, documents: number): Promise<Total> {
  const args = [process.argv[1] as string, "part", String(first), String(documents)];
  const child = spawn(process.execPath, args, { stdio: ["ignore", "pipe", "inherit"] });
  let out = "";
  child.stdout.setEncoding("utf8").on("data", (piece: string) => {
    out += piece;
  });
  return new Promise((resolve, reject) => {
    child.on("error", reject);
    child.on("close", (code) =>
      code === 0 ? resolve(JSON.parse(out)) : reject(new Error(`a part ended with ${code}`)),
    );
  });
}

async function main(documents: number, first: number): Promise<number> {
  const begun = performance.now();
  const each = Math.ceil(documents / availableParallelism());
  const parts: Promise<Total>[] = [];
  for (let at = 0; at < documents; at += each) parts.push(apart(first + at, Math.min(each, documents - at)));
  const totals = await Promise.all(parts);
  const sum = (of: (total: Total) => number) => totals.reduce((all, total) => all + of(total), 0);
  const worst = totals.map((total) => total.worst).reduce((a, b) => (b.ms > a.ms ? b : a));
  const seconds = (performance.now() - begun) / 1000;
  const lines = [
    `${documents} documents (seeds ${first} to ${first + documents - 1}), ${(sum((t) => t.bytes) / 1e6).toFixed(0)} MB, in ${seconds.toFixed(0)} s`,
    `${sum((t) => t.bitmaps)} bitmaps in them; ${sum((t) => t.painted)} strokes written and read back, ${sum((t) => t.refused)} refused or not to be painted; ${sum((t) => t.actions)} code actions applied`,
    `slowest single answer: ${worst.ms.toFixed(0)} ms (${worst.what}, seed ${worst.seed}); ${sum((t) => t.slow)} answers took over ${HANG_MS} ms once and less when asked again`,
  ];
  process.stdout.write(`${lines.join("\n")}\n`);
  const failures = totals.flatMap((total) => Object.entries(total.failures));
  for (const [kind, count] of failures) process.stdout.write(`${count} failures like: ${kind}\n`);
  if (failures.length > 0) return 1;
  if (documents >= USUAL) {
    const machine = `${cpus().length} × ${cpus()[0]?.model.trim()}, Node ${process.version}`;
    const day = new Date().toISOString().slice(0, 10);
    const list = lines.map((line) => `- ${line}`).join("\n");
    writeFileSync(
      "tests/fuzz/RESULTS.md",
      `# Fuzz results\n\nWritten by \`npm run fuzz\` on ${day}; ${machine}. No failure.\n\n${list}\n`,
    );
  }
  return 0;
}

const [mode, ...given] = process.argv.slice(2);
if (mode === "part") {
  const [first = 1, documents = 0] = given.map(Number);
  process.stdout.write(JSON.stringify(part(first, documents)));
} else {
  main(Number(mode ?? USUAL), Number(given[0] ?? 1)).then((code) => {
    process.exitCode = code;
  });
}
