// Packs the built extension: `node .ci/pack.mjs FILE.vsix`.
import { fileURLToPath } from "node:url";
import { createVSIX } from "@vscode/vsce";

await createVSIX({
  cwd: fileURLToPath(new URL("../", import.meta.url)),
  packagePath: process.argv[2] ?? "dotwright.vsix",
  // Everything is bundled; links in the README stay relative, as the project names no host.
  dependencies: false,
  rewriteRelativeLinks: false,
  allowMissingRepository: true,
});
