/** The server of the real editor: code-server from `.editor/` with packed extensions, on a free loopback port. */
import type { ChildProcess } from "node:child_process";
import { execFileSync, spawn } from "node:child_process";
import { mkdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";

/** Tests and bench are started in the project's folder; the bench is bundled, so its own place says nothing. */
export const ROOT = process.cwd();
const SERVER = join(ROOT, ".editor/node_modules/code-server/out/node/entry.js");
const PACKER = join(ROOT, "node_modules/@vscode/vsce/vsce");

interface Given {
  /** A fresh folder for all that the editor keeps. */
  readonly temporary: string;
  readonly settings: Readonly<Record<string, unknown>>;
  /** Folders of extensions to pack and install beside ours. */
  readonly extensions: readonly string[];
  /** Ask whether a folder is trusted, as the editor does unless told otherwise. */
  readonly asksForTrust: boolean;
}

export interface Served {
  readonly url: string;
  /** The file of the packed extension. */
  readonly packed: string;
  /** Where extensions may keep files of their own. */
  readonly storage: string;
  /** Ends the server and all that it started, by its process group. */
  end(): Promise<void>;
}

/** Packs and installs the built extension, and starts the server in a process group of its own. */
export async function serveEditor({ temporary, settings, extensions, asksForTrust }: Given): Promise<Served> {
  execFileSync(process.execPath, [join(ROOT, ".ci/editor.mjs")], { stdio: ["ignore", "inherit", "inherit"] });
  const data = join(temporary, "data");
  mkdirSync(join(data, "User"), { recursive: true });
  writeFileSync(join(data, "User/settings.json"), JSON.stringify(settings));
  const env = { ...process.env, HOME: temporary, XDG_CONFIG_HOME: temporary, XDG_DATA_HOME: temporary };
  const run = (program: string, args: readonly string[], cwd: string) =>
    execFileSync(process.execPath, [program, ...args], { cwd, env, stdio: ["ignore", "pipe", "pipe"] });
  const packed = join(temporary, "dotwright.vsix");
  run(join(ROOT, ".ci/pack.mjs"), [packed], ROOT);
  const further = extensions.map((_, i) => join(temporary, `further-${i}.vsix`));
  for (const [i, cwd] of extensions.entries()) {
    run(PACKER, ["package", "--no-dependencies", "--skip-license", "--out", further[i] ?? ""], cwd);
  }
  const config = join(temporary, "config.yaml");
  writeFileSync(config, "auth: none\n");
  const common = ["--config", config, "--user-data-dir", data, "--extensions-dir", join(temporary, "extensions")];
  run(SERVER, [...common, ...[packed, ...further].flatMap((file) => ["--install-extension", file])], temporary);
  const quiet = [
    "--disable-telemetry",
    "--disable-update-check",
    ...(asksForTrust ? [] : ["--disable-workspace-trust"]),
  ];
  const args = [SERVER, ...common, "--auth", "none", "--bind-addr", "127.0.0.1:0", ...quiet];
  const child = spawn(process.execPath, args, {
    cwd: temporary,
    env,
    detached: true,
    stdio: ["ignore", "pipe", "pipe"],
  });
  try {
    const storage = join(data, "User/globalStorage");
    return { url: await listening(child), packed, storage, end: () => end(child) };
  } catch (error) {
    await end(child);
    throw error;
  }
}

/** The address that the server says it listens at. */
function listening(child: ChildProcess): Promise<string> {
  return new Promise((resolve, reject) => {
    let said = "";
    const hear = (chunk: Buffer) => {
      said += chunk;
      const [, url] = /listening on (http:\/\/127\.0\.0\.1:\d+\/)/.exec(said) ?? [];
      if (url) resolve(url);
    };
    child.stdout?.on("data", hear);
    child.stderr?.on("data", hear);
    child.on("exit", (code) => reject(new Error(`code-server ended with ${code}:\n${said}`)));
  });
}

function end(child: ChildProcess): Promise<void> {
  return new Promise((resolve) => {
    if (child.exitCode !== null || child.pid === undefined) {
      resolve();
      return;
    }
    child.on("exit", () => resolve());
    // The whole group: the server starts the extension host and others below it.
    process.kill(-child.pid, "SIGTERM");
  });
}
