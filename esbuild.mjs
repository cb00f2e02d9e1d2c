// Bundles every part of the extension into dist/. `node esbuild.mjs --watch` rebuilds on change.
import { existsSync } from "node:fs";
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

const page = { bundle: true, platform: "browser", target: "es2022", minify: true, legalComments: "linked" };

const parts = [
  { ...node, entryPoints: { client: "client/extension.ts" }, format: "cjs", external: ["vscode"] },
  { ...node, entryPoints: { server: "server/main.ts" }, format: "cjs" },
  { ...node, entryPoints: { cli: "server/cli/main.ts" }, format: "cjs", banner: { js: "#!/usr/bin/env node" } },
  { ...page, entryPoints: { webview: "webview/main.ts" }, format: "iife" },
  { ...page, entryPoints: { webview: "webview/style.css" } },
].filter(({ entryPoints }) => Object.values(entryPoints).every((file) => existsSync(file)));

if (!watch) await rm("dist", { recursive: true, force: true });
const contexts = await Promise.all(parts.map((part) => context({ ...part, outdir: "dist", logLevel: "warning" })));
if (watch) await Promise.all(contexts.map((c) => c.watch()));
else {
  await Promise.all(contexts.map((c) => c.rebuild()));
  await Promise.all(contexts.map((c) => c.dispose()));
}
