/**
 * `npm run fuzz -- [documents] [seed]`: mutated documents through reading, every feature and writing. Prints the first
 * document of each kind of failure. The figures of a whole run go to tests/fuzz/RESULTS.md.
 */
import { mkdirSync, writeFileSync } from "node:fs";
import { cpus } from "node:os";
import { seeded } from "../oracle/corpus/random.ts";
import { askAll } from "./ask.ts";
import { mutate } from "./mutate.ts";
import { seeds } from "./seeds.ts";

const USUAL = 100_000;
/** Longer than this is a wait that one notices. */
const HANG_MS = 200;
/** A slow answer is asked for again this often: the machine may have been busy with something else. */
const AGAIN = 4;

function main(): number {
  const [documents = USUAL, first = 1] = process.argv.slice(2).map(Number);
  const texts = seeds(process.cwd());
  const total = { bitmaps: 0, painted: 0, refused: 0, actions: 0, bytes: 0, slow: 0 };
  const failures = new Map<string, number>();
  let worst = { ms: 0, what: "", seed: 0 };
  const begun = performance.now();
  for (let n = 0; n < documents; n++) {
    const seed = first + n;
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
      failures.set(kind, (failures.get(kind) ?? 0) + 1);
      if (failures.get(kind) !== 1) continue;
      mkdirSync("tests/out", { recursive: true });
      writeFileSync(`tests/out/fuzz-${seed}-${file}`, text);
      process.stderr.write(`seed ${seed}, kept in tests/out/fuzz-${seed}-${file}: ${words}\n`);
    }
    if (process.stderr.isTTY && n % 500 === 0) process.stderr.write(`\r${n} of ${documents}`);
  }
  const seconds = (performance.now() - begun) / 1000;
  const lines = [
    `${documents} documents (seeds ${first} to ${first + documents - 1}), ${(total.bytes / 1e6).toFixed(0)} MB, in ${seconds.toFixed(0)} s`,
    `${total.bitmaps} bitmaps in them; ${total.painted} strokes written and read back, ${total.refused} refused or not to be painted; ${total.actions} code actions applied`,
    `slowest single answer: ${worst.ms.toFixed(0)} ms (${worst.what}, seed ${worst.seed}); ${total.slow} answers over ${HANG_MS} ms, none of them when asked again`,
  ];
  process.stdout.write(`${lines.join("\n")}\n`);
  for (const [kind, count] of failures) process.stdout.write(`${count} failures like: ${kind}\n`);
  if (failures.size > 0) return 1;
  if (documents >= USUAL) {
    const machine = `${cpus().length} × ${cpus()[0]?.model.trim()}, Node ${process.version}`;
    const day = new Date().toISOString().slice(0, 10);
    const list = lines.map((line) => `- ${line}`).join("\n");
    writeFileSync(
      "tests/fuzz/RESULTS.md",
      `# Fuzz results\n\nWritten by \`npm run fuzz\` on ${day}; ${machine}.\n\n${list}\n`,
    );
  }
  return 0;
}

/** The document of a seed. */
function make(seed: number, texts: ReturnType<typeof seeds>) {
  const random = seeded(seed);
  // The first numbers of neighbouring seeds are alike.
  for (let i = 0; i < 8; i++) random.int(0, 1);
  const { file, text } = random.pick(texts);
  return { file: file.replace(/.*[/\\]/, ""), text: mutate(random, text, random.pick(texts).text) };
}

process.exitCode = main();
