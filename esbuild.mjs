// Bundles every part of the extension into dist/. `node esbuild.mjs --watch` rebuilds on change.
import { rm, writeFile } from "node:fs/promises";
import { context } from "esbuild";
import { noticesOf } from "./.ci/notices.mjs";

const watch = process.argv.includes("--watch");
const node = {
  bundle: true,
  platform: "node",
  target: "node20",
  minify: true,
  sourcemap: false,
  legalComments: "linked",
  loader: { ".h": "text", ".css": "text" },
};

// What the client imports only later is a bundle of its own, so that activation does not even read it.
const later = {
  name: "later",
  setup: ({ onResolve }) =>
    onResolve({ filter: /\/languageServer\.ts$/ }, ({ kind }) =>
      kind === "dynamic-import" ? { path: "./languageServer.js", external: true } : undefined,
    ),
};
// The editor hands `vscode` out through require, so import() becomes that too.
const client = { ...node, format: "cjs", external: ["vscode"], supported: { "dynamic-import": false } };
const page = { bundle: true, platform: "browser", target: "es2022", minify: true, legalComments: "linked" };

const parts = [
  { ...client, entryPoints: { client: "client/extension.ts" }, plugins: [later] },
  { ...client, entryPoints: { languageServer: "client/languageServer.ts" } },
  { ...node, entryPoints: { server: "server/main.ts" }, format: "cjs" },
  { ...node, entryPoints: { cli: "server/cli/main.ts" }, format: "cjs", banner: { js: "#!/usr/bin/env node" } },
  // What the page imports only later becomes a file of its own, by its name.
  { ...page, entryPoints: { webview: "webview/main.ts" }, format: "esm", splitting: true, chunkNames: "[name]" },
  { ...page, entryPoints: { webview: "webview/style.css" } },
  { ...page, entryPoints: { compare: "webview/compare/main.ts" }, format: "esm" },
  { ...page, entryPoints: { compare: "webview/compare/style.css" } },
  { ...page, entryPoints: { import: "webview/import/main.ts" }, format: "esm" },
  { ...page, entryPoints: { import: "webview/import/style.css" } },
  { ...page, entryPoints: { gallery: "webview/gallery/main.ts" }, format: "esm" },
  { ...page, entryPoints: { gallery: "webview/gallery/style.css" } },
];

if (!watch) await rm("dist", { recursive: true, force: true });
const common = { outdir: "dist", logLevel: "warning", metafile: true };
const contexts = await Promise.all(parts.map((part) => context({ ...part, ...common })));
if (watch) await Promise.all(contexts.map((c) => c.watch()));
else {
  const metafiles = (await Promise.all(contexts.map((c) => c.rebuild()))).map(({ metafile }) => metafile);
  await Promise.all(contexts.map((c) => c.dispose()));
  await writeFile("dist/NOTICES.txt", await noticesOf(metafiles));
  // What is in which bundle, for the tests and for esbuild's own analysis; it is not packed.
  const merged = (key) => Object.assign({}, ...metafiles.map((metafile) => metafile[key]));
  await writeFile("dist/meta.json", JSON.stringify({ inputs: merged("inputs"), outputs: merged("outputs") }));
}
