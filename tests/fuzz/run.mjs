// Builds the fuzzer and runs it; the figures go to tests/fuzz/RESULTS.md with date and machine.
import { spawnSync } from "node:child_process";
import { fileURLToPath } from "node:url";
import { build } from "esbuild";

const root = fileURLToPath(new URL("../../", import.meta.url));
await build({
  absWorkingDir: root,
  entryPoints: ["tests/fuzz/fuzz.ts"],
  outfile: "dist/fuzz.cjs",
  bundle: true,
  platform: "node",
  target: "node20",
  format: "cjs",
  packages: "external",
  loader: { ".h": "text" },
  logLevel: "warning",
});
process.exitCode =
  spawnSync(process.execPath, ["dist/fuzz.cjs", ...process.argv.slice(2)], { cwd: root, stdio: "inherit" }).status ?? 1;
// The list in the house's form.
spawnSync("npx", ["biome", "format", "--write", "tests/fuzz/RESULTS.md"], { cwd: root, stdio: "ignore" });
