// Builds the bench and runs it; the figures go to tests/bench/RESULTS.md with date and machine.
import { spawnSync } from "node:child_process";
import { fileURLToPath } from "node:url";
import { build } from "esbuild";

const root = fileURLToPath(new URL("../../", import.meta.url));
await build({
  absWorkingDir: root,
  entryPoints: ["tests/bench/bench.ts"],
  outfile: "dist/bench.cjs",
  bundle: true,
  platform: "node",
  target: "node20",
  format: "cjs",
  packages: "external",
  loader: { ".h": "text" },
  logLevel: "warning",
});
process.exitCode = spawnSync(process.execPath, ["dist/bench.cjs"], { cwd: root, stdio: "inherit" }).status ?? 1;
// The table in the house's form.
spawnSync("npx", ["biome", "format", "--write", "tests/bench/RESULTS.md"], { cwd: root, stdio: "ignore" });
