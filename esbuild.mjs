// Bundles every part of the extension into dist/. `node esbuild.mjs --watch` rebuilds on change.
import { rm } from "node:fs/promises";
import { context } from "esbuild";

const watch = process.argv.includes("--watch");
const node = {
  bundle: true,
  platform: "node",
  target: "node20",
  minify: true,
  sourcemap: false,
  legalComments: "linked",
  loader: { ".h": "text" },
};

const parts = [
  { ...node, entryPoints: { server: "server/main.ts" }, format: "cjs" },
  { ...node, entryPoints: { cli: "server/cli/main.ts" }, format: "cjs", banner: { js: "#!/usr/bin/env node" } },
];

if (!watch) await rm("dist", { recursive: true, force: true });
const contexts = await Promise.all(parts.map((part) => context({ ...part, outdir: "dist", logLevel: "warning" })));
if (watch) await Promise.all(contexts.map((c) => c.watch()));
else {
  await Promise.all(contexts.map((c) => c.rebuild()));
  await Promise.all(contexts.map((c) => c.dispose()));
}
