/** What `package.json` declares, in the real editor: the languages that start us, the walkthrough, the licences, the translations. */
import { mkdirSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import type { FrameLocator } from "playwright-core";
import { afterAll, afterEach, beforeAll, describe, expect, test } from "vitest";
import type { Editor } from "../support/editor.ts";
import { startEditor } from "../support/editor.ts";
import { ROOT } from "../support/editorServer.ts";
import { paintPage } from "../support/paintEditor.ts";
import type { EditorTheme } from "../support/workbench.ts";
import { EDITOR_THEMES, thumbnailIn } from "../support/workbench.ts";

const read = (name: string) => JSON.parse(readFileSync(join(ROOT, name), "utf8"));
const [walkthrough] = read("package.json").contributes.walkthroughs;
const words: Record<string, string> = read("package.nls.json");
const worded = (key: string) => words[key.slice(1, -1)] ?? key;

/** What the themes are called in the settings. */
const SETTING: Readonly<Record<EditorTheme, string>> = {
  dark: "Default Dark Modern",
  light: "Default Light Modern",
  "hc-dark": "Default High Contrast",
  "hc-light": "Default High Contrast Light",
};

/** A pot, in the file format of X bitmaps. */
const XBM = `#define pot_width 8
#define pot_height 4
static unsigned char pot_bits[] = {
  0x81, 0x7e, 0x3c, 0x3c };
`;
const SKETCH = "// @bitmap 3x1 gray8\nconst byte soil[3] = { 0, 128, 255 };\n";

let editor: Editor;
beforeAll(async () => {
  editor = await startEditor(
    {},
    {
      prepare(folder) {
        writeFileSync(join(folder, "pot.xbm"), XBM);
        writeFileSync(join(folder, "soil.pde"), SKETCH);
      },
    },
  );
});
afterAll(() => editor?.stop());
afterEach(async ({ task }) => {
  if (task.result?.state === "fail") await editor.picture(`failed-${task.name.replace(/\W+/g, "-")}`);
});

/** The folder of the extension as it was unpacked. */
function installed(): string {
  const extensions = join(editor.folder, "../extensions");
  return join(extensions, readdirSync(extensions).find((name) => name.startsWith("dotwright.")) ?? "");
}

describe("the languages", () => {
  const language = (name: RegExp) => editor.page.locator("[id='status.editor.mode']").filter({ hasText: name });

  // The first file of this window: nothing else starts the extension.
  test("an X bitmap alone starts the extension, as C", async () => {
    await editor.open("pot.xbm");
    await language(/^C$/).waitFor();
    await expect.poll(() => thumbnailIn(editor.page), { timeout: 60_000 }).toContain("data:image/svg+xml");
    await editor.page.locator(".codelens-decoration").filter({ hasText: "8×4 mono1" }).waitFor({ timeout: 60_000 });
    await editor.picture("xbm");
  });

  test("a sketch of the older ending is C++, for the 8-bit target", async () => {
    await editor.open("soil.pde");
    await language(/^C\+\+$/).waitFor();
    await editor.page.locator(".codelens-decoration").filter({ hasText: "3×1 gray8" }).waitFor();
  });
});

describe("the walkthrough", () => {
  const step = (id: string) => editor.page.locator(`.getting-started-step[data-step-id$='#${walkthrough.id}#${id}']`);
  const done = (id: string) => step(id).locator("[role=checkbox]");
  const media = (): FrameLocator =>
    editor.page.frameLocator(".getting-started-media iframe.webview.ready").frameLocator("#active-frame");

  async function openWalkthrough(): Promise<void> {
    const { page } = editor;
    const quickInput = page.locator(".quick-input-widget");
    const take = async (typed: string) => {
      await quickInput.locator("input[type=text]").fill(typed);
      const row = quickInput.locator(".monaco-list-row.focused").filter({ hasText: typed.replace(/^>/, "") });
      await row.waitFor();
      await page.keyboard.press("Enter");
    };
    await page.keyboard.press("F1");
    await take(">Welcome: Open Walkthrough");
    // The list of commands may still stand there: what is typed into it would be lost.
    await quickInput.getByPlaceholder(/walkthrough/i).waitFor();
    await take(worded(walkthrough.title));
    await step(walkthrough.steps[0].id).waitFor();
  }

  async function choose(id: string): Promise<void> {
    // The one that is open already would be closed.
    if ((await step(id).getAttribute("aria-expanded")) !== "true") await step(id).locator("h3").click();
    await expect.poll(() => step(id).getAttribute("aria-expanded")).toBe("true");
  }

  // The theme comes from a file, and the walkthrough stays open: a page that is just being loaded or closed takes the
  // keyboard from whatever list has been opened by a key.
  async function take(theme: EditorTheme): Promise<void> {
    mkdirSync(join(editor.folder, ".vscode"), { recursive: true });
    const settings = { "workbench.colorTheme": SETTING[theme] };
    writeFileSync(join(editor.folder, ".vscode/settings.json"), JSON.stringify(settings));
    await editor.page.locator(`.monaco-workbench[class*="${EDITOR_THEMES[theme].mark}"]`).waitFor();
  }

  test("is opened by its title", async () => {
    await openWalkthrough();
    for (const { id } of walkthrough.steps) await step(id).waitFor();
  });

  test.each(Object.keys(EDITOR_THEMES) as EditorTheme[])("shows each step, in %s", async (theme) => {
    await take(theme);
    for (const { id, title, media: shown } of walkthrough.steps) {
      await choose(id);
      await step(id).getByText(worded(title)).first().waitFor();
      const picture = media().locator(`.${EDITOR_THEMES[theme].kind} svg`);
      await expect.poll(() => picture.getAttribute("aria-label")).toBe(worded(shown.altText));
      // The picture's words have the theme's colour: neither a style that the page's policy drops nor a fallback.
      const [ink, wanted] = await picture.locator("g").evaluate((drawn) => {
        const probe = document.body.appendChild(document.createElement("i"));
        probe.style.color = "var(--vscode-editor-foreground)";
        return [getComputedStyle(drawn).fill, getComputedStyle(probe).color];
      });
      expect(ink).toBe(wanted);
      await editor.picture(`walkthrough-${id}-${theme}`);
    }
  });

  test("a step's button does what it says, and marks the step as done", async () => {
    await choose("fix");
    expect(await done("fix").getAttribute("aria-checked")).toBe("false");
    await step("fix").getByRole("button", { name: "Show Problems" }).click();
    await editor.page.locator(".markers-panel").waitFor();
    await expect.poll(() => done("fix").getAttribute("aria-checked")).toBe("true");
    expect(await done("paint").getAttribute("aria-checked")).toBe("false");
  });
});

describe("the licences of what is bundled", () => {
  const inPackage = /^(.*node_modules\/(?:@[^/]+\/)?[^/]+)\//;

  test("are in the package, each with its package's name, version and whole text", () => {
    const notices = readFileSync(join(installed(), "dist/NOTICES.txt"), "utf8");
    // What the bundler says it took code from, for the bundles that are packed.
    const { outputs } = read("dist/meta.json") as { outputs: Record<string, { inputs: Record<string, unknown> }> };
    const bundles = readdirSync(join(installed(), "dist")).filter((name) => /\.(js|css)$/.test(name));
    expect(bundles.sort()).toEqual([
      "client.js",
      "compare.css",
      "compare.js",
      "gallery.css",
      "gallery.js",
      "import.css",
      "import.js",
      "languageServer.js",
      "server.js",
      "toolkit.js",
      "webview.css",
      "webview.js",
    ]);
    const inputs = bundles.flatMap((name) => Object.entries(outputs[`dist/${name}`]?.inputs ?? {}));
    const taken = inputs.filter(([, input]) => (input as { bytesInOutput: number }).bytesInOutput > 0);
    const folders = [...new Set(taken.flatMap(([path]) => inPackage.exec(path)?.[1] ?? []))];
    const names = folders.map((folder) => folder.replace(/^.*node_modules\//, ""));
    // Those that this project imports itself.
    for (const name of ["vscode-languageclient", "vscode-languageserver", "@vscode/webview-ui-toolkit", "pngjs"])
      expect(names).toContain(name);
    const locked: Record<string, { version: string; license: string }> = read("package-lock.json").packages;
    const plain = (text: string) => text.replace(/\s+/g, " ").trim();
    for (const [i, folder] of folders.entries()) {
      const { version, license } = locked[folder] ?? {};
      const [, own] = notices.split(`\n\n${names[i]} ${version} (${license})\n`);
      expect(own, folder).toBeDefined();
      const [shown = ""] = (own ?? "").split(/^-{80}$/m);
      const file = readdirSync(join(ROOT, folder)).find((name) => /^licen[cs]e(\.\w+)?$/i.test(name));
      // Terms of the MIT licence (SPDX), for the packages that bring no file of their own.
      const terms = file
        ? readFileSync(join(ROOT, folder, file), "utf8")
        : "The above copyright notice and this permission notice shall be included in all copies or substantial portions of the Software.";
      if (!file) expect([license, /^Copyright \(c\) \w/m.test(shown)], folder).toEqual(["MIT", true]);
      expect(plain(shown), folder).toContain(plain(terms.replace(/^\uFEFF/, "")));
    }
  });
});

describe("a translation", () => {
  /** A language for tests: each text in brackets, its places for values kept. */
  const LANGUAGE = "qps-ploc";
  const translated = (texts: Record<string, string>) =>
    JSON.stringify(Object.fromEntries(Object.entries(texts).map(([key, text]) => [key, `⟦${text}⟧`])));

  test("is shown in commands, in the extension's messages and in the paint editor", async () => {
    const packed = installed();
    writeFileSync(join(packed, `package.nls.${LANGUAGE}.json`), translated(words));
    const bundle = read("client/l10n/bundle.l10n.json");
    writeFileSync(join(packed, `client/l10n/bundle.l10n.${LANGUAGE}.json`), translated(bundle));
    // What a language pack makes the workbench set; there is none to install without the network.
    await editor.page.addInitScript((language) => {
      Object.assign(globalThis, { _VSCODE_NLS_LANGUAGE: language });
    }, LANGUAGE);
    editor.page.once("dialog", (dialog) => dialog.accept());
    await editor.visit(editor.folder);
    const { page } = editor;
    await page.locator(".explorer-folders-view .monaco-list-row").filter({ hasText: "lantern_art.h" }).dblclick();
    await editor.page.locator(".codelens-decoration a").filter({ hasText: "Paint" }).first().click();
    await paintPage(editor.page).locator("[role=grid][aria-label='⟦Pixels of drop_icon⟧']").waitFor();
    await paintPage(editor.page).getByText("⟦Draw⟧").first().waitFor();
    await editor.picture("translated");
    await editor.page.keyboard.press("Control+1");
    const quickInput = editor.page.locator(".quick-input-widget");
    await editor.page.keyboard.press("F1");
    await quickInput.locator("input[type=text]").fill(">⟦New Bitmap");
    await quickInput.locator(".monaco-list-row.focused").filter({ hasText: "Dotwright: ⟦New Bitmap…⟧" }).waitFor();
    await editor.page.keyboard.press("Enter");
    await quickInput.locator("input[placeholder='⟦Panel or size⟧']").waitFor();
    await editor.page.keyboard.press("Escape");
  });
});
