// `npm start`: checks the sample workspace and writes its contact sheet as PNG.
import { spawnSync } from "node:child_process";
import { fileURLToPath } from "node:url";

const root = fileURLToPath(new URL("../../", import.meta.url));
const cli = (...args) =>
  spawnSync(process.execPath, ["dist/cli.js", ...args], { cwd: root, stdio: "inherit" }).status ?? 2;

console.log("Findings in the sample workspace (mistakes.h makes each of them on purpose):\n");
const checked = cli("check", "sample-workspace");
if (checked > 1) process.exit(checked);
console.log("");
process.exitCode = cli("sheet", "sample-workspace", "--out", "dist/contact-sheet.png");
