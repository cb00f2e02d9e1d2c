/**
 * The real editor with the packaged extension in it: code-server from `.editor/` on a free loopback port, with fresh
 * folders, driven in Chromium. Everything it starts is ended by its process number.
 */
import type { ChildProcess } from "node:child_process";
import { execFileSync, spawn } from "node:child_process";
import { cpSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import type { Browser, FrameLocator, Page } from "playwright-core";
import { chromium } from "playwright-core";

const ROOT = fileURLToPath(new URL("../../", import.meta.url));
const SERVER = join(ROOT, ".editor/node_modules/code-server/out/node/entry.js");
const PICTURES = join(ROOT, "tests/out");
const BROWSER = [
  "--no-sandbox",
  "--disable-gpu",
  "--disable-quic",
  "--no-first-run",
  "--disable-background-networking",
  "--disable-component-update",
  "--disable-sync",
];
const SETTINGS = {
  "workbench.startupEditor": "none",
  "workbench.tips.enabled": false,
  "workbench.secondarySideBar.defaultVisibility": "hidden",
  "extensions.ignoreRecommendations": true,
  "files.autoSave": "off",
  "editor.minimap.enabled": false,
};

export interface Editor {
  readonly page: Page;
  /** The copy of the sample workspace that is open. */
  readonly folder: string;
  /** Opens a file with the text cursor at a place, both from 1. */
  open(name: string, line?: number, column?: number): Promise<void>;
  /** Runs a command of the palette by its title. */
  command(title: string): Promise<void>;
  /** Saves the active editor and waits until its tab is no longer dirty. */
  save(): Promise<void>;
  /** The text of a file on the disk. */
  onDisk(name: string): Buffer;
  /** The page in the only webview: two frames deep. */
  readonly webview: FrameLocator;
  /** Keeps a picture of the window in `tests/out`. */
  picture(name: string): Promise<void>;
  stop(): Promise<void>;
}

export async function startEditor(settings: Readonly<Record<string, unknown>> = {}): Promise<Editor> {
  execFileSync(process.execPath, [join(ROOT, ".ci/editor.mjs")], { stdio: ["ignore", "inherit", "inherit"] });
  const temporary = mkdtempSync(join(tmpdir(), "dotwright-editor-"));
  const folder = join(temporary, "workspace");
  const data = join(temporary, "data");
  cpSync(join(ROOT, "sample-workspace"), folder, { recursive: true });
  mkdirSync(join(data, "User"), { recursive: true });
  writeFileSync(join(data, "User/settings.json"), JSON.stringify({ ...SETTINGS, ...settings }));
  let child: ChildProcess | undefined;
  let browser: Browser | undefined;
  const stop = async () => {
    await browser?.close();
    if (child) await end(child);
    rmSync(temporary, { recursive: true, force: true });
  };
  try {
    child = serve(temporary, data, folder);
    const url = await listening(child);
    browser = await chromium.launch({ executablePath: "/usr/bin/chromium", args: BROWSER });
    const page = await browser.newPage({ viewport: { width: 1400, height: 900 } });
    page.setDefaultTimeout(20_000);
    await page.goto(`${url}?folder=${encodeURIComponent(folder)}`);
    await page.locator(".explorer-folders-view .monaco-list-row").first().waitFor({ timeout: 60_000 });
    return { ...driving(page, folder), stop };
  } catch (error) {
    await stop();
    throw error;
  }
}

/** Packs the built extension, installs it, and starts the server in a process group of its own. */
function serve(temporary: string, data: string, folder: string): ChildProcess {
  const packed = join(temporary, "dotwright.vsix");
  const run = (program: string, args: readonly string[], cwd: string) =>
    execFileSync(process.execPath, [program, ...args], { cwd, env, stdio: ["ignore", "pipe", "pipe"] });
  const env = { ...process.env, HOME: temporary, XDG_CONFIG_HOME: temporary, XDG_DATA_HOME: temporary };
  run(join(ROOT, ".ci/pack.mjs"), [packed], ROOT);
  const config = join(temporary, "config.yaml");
  writeFileSync(config, "auth: none\n");
  const common = ["--config", config, "--user-data-dir", data, "--extensions-dir", join(temporary, "extensions")];
  run(SERVER, [...common, "--install-extension", packed], temporary);
  const quiet = ["--disable-telemetry", "--disable-update-check", "--disable-workspace-trust"];
  const args = [SERVER, ...common, "--auth", "none", "--bind-addr", "127.0.0.1:0", ...quiet, folder];
  return spawn(process.execPath, args, { cwd: temporary, env, detached: true, stdio: ["ignore", "pipe", "pipe"] });
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

function driving(page: Page, folder: string): Omit<Editor, "stop"> {
  const quickInput = page.locator(".quick-input-widget");
  const quick = async (key: string, text: string, row: RegExp | string) => {
    await page.keyboard.press(key);
    await quickInput.locator("input[type=text]").fill(text);
    await quickInput.locator(".monaco-list-row.focused").filter({ hasText: row }).waitFor();
    await page.keyboard.press("Enter");
    await quickInput.waitFor({ state: "hidden" });
  };
  return {
    page,
    folder,
    async open(name, line = 1, column = 1) {
      await quick("Control+p", `${name}:${line}:${column}`, name);
      await page.locator(`.tab.active[data-resource-name="${name}"]`).waitFor();
      await page.locator(`.statusbar-item:has-text("Ln ${line}, Col ${column}")`).first().waitFor();
    },
    command: (title) => quick("F1", `>${title}`, title),
    async save() {
      await page.keyboard.press("Control+s");
      await page.waitForFunction(() => document.querySelector(".tab.dirty") === null);
    },
    onDisk: (name) => readFileSync(join(folder, name)),
    webview: page.frameLocator("iframe.webview.ready").frameLocator("#active-frame"),
    async picture(name) {
      mkdirSync(PICTURES, { recursive: true });
      await page.screenshot({ path: join(PICTURES, `${name}.png`) });
    },
  };
}
