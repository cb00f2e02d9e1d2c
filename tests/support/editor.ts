/**
 * The real editor with the packed extension in it, driven in Chromium on a copy of the sample workspace, with fresh
 * folders. Everything it starts is ended by its process number.
 */
import { cpSync, mkdirSync, mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Browser, FrameLocator, Page } from "playwright-core";
import { chromium } from "playwright-core";
import { ROOT, type Served, serveEditor } from "./editorServer.ts";

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
  // Its lines lie over the text: what is clicked could be under them.
  "editor.stickyScroll.enabled": false,
};

/** How long to wait for what the editor should show: long, as a loaded machine starts its processes late. */
export const SOON = { timeout: 30_000 };

export interface Editor {
  readonly page: Page;
  /** The copy of the sample workspace that is open. */
  readonly folder: string;
  readonly served: Served;
  /** Opens a file with the text cursor at a place, both from 1. */
  open(name: string, line?: number, column?: number): Promise<void>;
  /** Presses a key that asks for a choice, types into it, and takes the row that then holds these words. */
  pick(key: string, typed: string, row: string): Promise<void>;
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
  /** Leaves the folder that is open for another: a path or a URI. */
  visit(folder: string): Promise<void>;
  stop(): Promise<void>;
}

interface Options {
  /** Folders of extensions to pack and install beside ours. */
  readonly extensions?: readonly string[];
  /** Ask whether a folder is trusted, as the editor does unless told otherwise. */
  readonly asksForTrust?: boolean;
  /** Adds files to the copy of the sample workspace before it is opened. */
  prepare?(folder: string): void;
}

export async function startEditor(
  settings: Readonly<Record<string, unknown>> = {},
  { extensions = [], asksForTrust = false, prepare }: Options = {},
): Promise<Editor> {
  const temporary = mkdtempSync(join(tmpdir(), "dotwright-editor-"));
  const folder = join(temporary, "workspace");
  cpSync(join(ROOT, "sample-workspace"), folder, { recursive: true });
  let served: Served | undefined;
  let browser: Browser | undefined;
  const stop = async () => {
    await browser?.close();
    await served?.end();
    rmSync(temporary, { recursive: true, force: true });
  };
  try {
    prepare?.(folder);
    served = await serveEditor({ temporary, settings: { ...SETTINGS, ...settings }, extensions, asksForTrust });
    const { url } = served;
    browser = await chromium.launch({ executablePath: "/usr/bin/chromium", args: BROWSER });
    const page = await browser.newPage({ viewport: { width: 1400, height: 900 } });
    page.setDefaultTimeout(SOON.timeout);
    const visit = async (to: string) => {
      await page.goto(`${url}?folder=${encodeURIComponent(to)}`, { timeout: 60_000 });
      await page.locator(".explorer-folders-view .monaco-list-row").first().waitFor({ timeout: 60_000 });
    };
    await visit(folder);
    return { ...driving(page, folder), served, visit, stop };
  } catch (error) {
    await stop();
    throw error;
  }
}

function driving(page: Page, folder: string): Omit<Editor, "served" | "visit" | "stop"> {
  const quickInput = page.locator(".quick-input-widget");
  const pick = async (key: string, text: string, row: string) => {
    await page.keyboard.press(key);
    await quickInput.locator("input[type=text]").fill(text);
    await quickInput.locator(".monaco-list-row.focused").filter({ hasText: row }).waitFor();
    await page.keyboard.press("Enter");
    await quickInput.waitFor({ state: "hidden" });
  };
  return {
    page,
    folder,
    pick,
    async open(name, line = 1, column = 1) {
      await pick("Control+p", `${name}:${line}:${column}`, name);
      await page.locator(`.tab.active[data-resource-name="${name}"]`).waitFor();
      await page.locator(`.statusbar-item:has-text("Ln ${line}, Col ${column}")`).first().waitFor();
    },
    command: (title) => pick("F1", `>${title}`, title),
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
