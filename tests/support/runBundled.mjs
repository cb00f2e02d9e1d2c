// Bundles a program of the tests and runs it with the arguments given; the figures that it writes get the house's form.
import { spawnSync } from "node:child_process";
import { fileURLToPath } from "node:url";
import { build } from "esbuild";

const root = fileURLToPath(new URL("../../", import.meta.url));

/** `name` is that of the program and of its folder below `tests/`. */
export async function runBundled(name) {
  const outfile = `dist/${name}.cjs`;
  await build({
    absWorkingDir: root,
    entryPoints: [`tests/${name}/${name}.ts`],
    outfile,
    bundle: true,
    platform: "node",
    target: "node20",
    format: "cjs",
    packages: "external",
    loader: { ".h": "text", ".css": "text" },
    logLevel: "warning",
  });
  const args = [outfile, ...process.argv.slice(2)];
  process.exitCode = spawnSync(process.execPath, args, { cwd: root, stdio: "inherit" }).status ?? 1;
  spawnSync("npx", ["biome", "format", "--write", `tests/${name}/RESULTS.md`], { cwd: root, stdio: "ignore" });
}
