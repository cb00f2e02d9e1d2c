// `npm start`: packs the extension, installs it in VS Code and opens the sample workspace. Uses `code` where it is on the
// PATH and no port is asked for; else a VS Code served to the browser, set up in `.editor/` at the first start.
import { execFileSync, spawn, spawnSync } from "node:child_process";
import { once } from "node:events";
import { existsSync, mkdirSync, writeFileSync } from "node:fs";
import { createServer } from "node:net";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { parseArgs } from "node:util";
import { where } from "./debian.mjs";

const root = fileURLToPath(new URL("../", import.meta.url));
const workspace = join(root, "sample-workspace");
const packed = join(root, "dotwright.vsix");

function fail(message) {
  console.error(message);
  process.exit(1);
}

const { values } = (() => {
  try {
    return parseArgs({ options: { port: { type: "string" } } });
  } catch (error) {
    return fail(`${error.message}\nUsage: npm start -- [--port N]`);
  }
})();
// The system picks a free port for 0.
const port = Number(values.port ?? 0);
if (!/^\d{1,5}$/.test(values.port ?? "0") || port > 65535)
  fail(`--port takes a number from 0 to 65535, not ${values.port}`);
const desktop = values.port === undefined && where("code");
// Told before the work, not after it.
if (!desktop) await ensureFree();

console.log("Packing the extension …");
execFileSync(process.execPath, [join(root, ".ci/pack.mjs"), packed], { stdio: ["ignore", "ignore", "inherit"] });

if (desktop) {
  const run = (args) => spawnSync("code", args, { stdio: "inherit" }).status ?? 1;
  const failed = run(["--install-extension", packed, "--force"]) || run([workspace]);
  if (failed) fail("VS Code did not open; see its message above. In a browser instead: npm start -- --port 8080");
  console.log("The sample workspace is open in VS Code. Open lantern_art.h and choose Paint above an array.");
} else serveToBrowser();

async function ensureFree() {
  const probe = createServer();
  try {
    await once(probe.listen(port, "127.0.0.1"), "listening");
  } catch ({ code, message }) {
    const why = code === "EADDRINUSE" ? "is taken by another program" : `can't be used: ${message}`;
    fail(`Port ${port} ${why}. Choose another one: npm start -- --port N`);
  }
  probe.close();
}

function serveToBrowser() {
  const set = spawnSync(process.execPath, [join(root, ".ci/editor.mjs")], { stdio: "inherit" });
  if (set.status !== 0) process.exit(set.status ?? 1);
  const entry = join(root, ".editor/node_modules/code-server/out/node/entry.js");
  const home = join(root, ".editor/demo");
  const data = join(home, "data");
  mkdirSync(join(data, "User"), { recursive: true });
  const settings = join(data, "User/settings.json");
  if (!existsSync(settings)) writeFileSync(settings, '{ "workbench.startupEditor": "none" }\n');
  const config = join(home, "config.yaml");
  writeFileSync(config, "auth: none\n");
  const env = { ...process.env, XDG_CONFIG_HOME: home, XDG_DATA_HOME: home };
  const common = ["--config", config, "--user-data-dir", data, "--extensions-dir", join(home, "extensions")];
  console.log("Installing the extension …");
  execFileSync(process.execPath, [entry, ...common, "--install-extension", packed, "--force"], {
    env,
    stdio: ["ignore", "ignore", "inherit"],
  });
  const quiet = ["--disable-telemetry", "--disable-update-check", "--disable-workspace-trust"];
  const args = [entry, ...common, "--auth", "none", "--bind-addr", `127.0.0.1:${port}`, ...quiet, workspace];
  const child = spawn(process.execPath, args, { env, detached: true, stdio: ["ignore", "pipe", "pipe"] });
  let said = "";
  const hear = (chunk) => {
    said += chunk;
    const [, url] = /listening on (http:\/\/127\.0\.0\.1:\d+\/)/.exec(said) ?? [];
    if (!url) return;
    child.stdout.off("data", hear);
    child.stderr.off("data", hear);
    child.stdout.resume();
    child.stderr.resume();
    console.log(`\nThe sample workspace is open at:\n\n  ${url}?folder=${encodeURIComponent(workspace)}\n`);
    console.log("Open lantern_art.h and choose Paint above an array. Ctrl+C ends it.");
  };
  child.stdout.on("data", hear);
  child.stderr.on("data", hear);
  let ending = false;
  const end = () => {
    if (ending) return;
    ending = true;
    // The server has processes of its own below it; they form one group.
    process.kill(-child.pid, "SIGTERM");
  };
  for (const signal of ["SIGINT", "SIGTERM", "SIGHUP"]) process.on(signal, end);
  child.on("exit", (code) => {
    if (ending) process.exit(0);
    fail(`The editor ended with ${code}:\n${said}`);
  });
}
