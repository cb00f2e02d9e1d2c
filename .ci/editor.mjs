// Sets up the real editor for the editor tests and the demo: code-server, the VS Code workbench and extension host
// served to a browser, in `.editor/`. Its own post-install wants the network beyond the npm registry, so its steps are
// done here one by one. Does nothing where the editor is ready.
import { execFileSync } from "node:child_process";
import { existsSync, mkdirSync, readFileSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { ensurePackages, where } from "./debian.mjs";

const version = "4.100.3";
const root = dirname(dirname(fileURLToPath(import.meta.url)));
const folder = join(root, ".editor");
const stamp = join(folder, "ready");
const top = join(folder, "node_modules", "code-server");
const workbench = join(top, "lib", "vscode");

/** What each program is in Debian. */
const needed = [
  ["rg", "ripgrep"],
  ["g++", "g++"],
  ["make", "make"],
  ["python3", "python3"],
];

function fail(message) {
  console.error(message);
  process.exit(1);
}

/** Runs npm in a folder; its output is shown only where it fails. */
function npm(title, cwd, args, extra = {}) {
  console.log(`  ${title}`);
  // npm hands its settings down to what it starts; those of this project are not meant for the editor's folders.
  const own = Object.entries(process.env).filter(
    ([key]) => !/^npm_(package|lifecycle|config_(local_prefix|prefix))/.test(key),
  );
  const env = { ...Object.fromEntries(own), ...extra };
  try {
    execFileSync("npm", [...args, "--no-audit", "--no-fund"], { cwd, env, stdio: ["ignore", "pipe", "pipe"] });
  } catch (error) {
    fail(`npm ${args.join(" ")} failed in ${cwd}:\n${error.stdout ?? ""}${error.stderr ?? error.message}`);
  }
}

function link(target, path, type) {
  rmSync(path, { recursive: true, force: true });
  mkdirSync(dirname(path), { recursive: true });
  symlinkSync(target, path, type);
}

function install() {
  console.log(`Setting up code-server ${version} in .editor (about a minute):`);
  rmSync(folder, { recursive: true, force: true });
  mkdirSync(folder, { recursive: true });
  writeFileSync(join(folder, "package.json"), '{ "private": true }\n');
  npm("1/6 code-server", folder, ["install", `code-server@${version}`, "--ignore-scripts"]);
  npm("2/6 workbench", workbench, ["install", "--ignore-scripts", "--omit=dev", "--force"]);
  npm("3/6 its extensions", join(workbench, "extensions"), ["install", "--ignore-scripts", "--omit=dev"]);
  npm("4/6 its native parts", workbench, ["rebuild", "@vscode/spdlog", "native-watchdog"]);
  npm("5/6 its terminal", workbench, ["rebuild", "node-pty"], { npm_config_yes: "true" });
  npm("6/6 its server", folder, ["rebuild", "argon2", "--build-from-source"]);
  link("node_modules", join(workbench, "node_modules.asar"), "dir");
  link(where("rg"), join(workbench, "node_modules", "@vscode", "ripgrep", "bin", "rg"), "file");
  writeFileSync(stamp, `${version}\n`);
  console.log("The editor is ready.");
}

ensurePackages("the editor", needed);
if (!existsSync(stamp) || readFileSync(stamp, "utf8").trim() !== version) install();
