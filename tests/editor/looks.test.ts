/**
 * Every state in the four themes of the editor: what should be seen is there and readable, and a picture of it is kept
 * in `tests/out` to be looked at.
 */
import { writeFileSync } from "node:fs";
import { join } from "node:path";
import type { Locator } from "playwright-core";
import { afterAll, afterEach, beforeAll, expect, test } from "vitest";
import { contrast } from "../support/contrast.ts";
import type { Editor } from "../support/editor.ts";
import { SOON, startEditor } from "../support/editor.ts";
import { drag, gridOf, paint, paintPage, show } from "../support/paintEditor.ts";
import type { EditorTheme } from "../support/workbench.ts";
import { EDITOR_THEMES, marksOfLine, poorTexts, thumbnailIn, useTheme } from "../support/workbench.ts";

const THEMES = Object.keys(EDITOR_THEMES) as EditorTheme[];
/** WCAG 2.2, 1.4.3: least contrast of text, and 1.4.11: of what is needed to understand graphics. */
const TEXT = 4.5;
const GRAPHICS = 3;

let editor: Editor;
beforeAll(async () => {
  const settings = { "files.readonlyInclude": { "**/status_screen.h": true } };
  editor = await startEditor(settings, {
    prepare: (folder) => writeFileSync(join(folder, "plain.h"), "int nothing_to_paint;\n"),
  });
});
afterAll(() => editor?.stop());
afterEach(async ({ task }) => {
  if (task.result?.state === "fail") await editor.picture(`failed-${task.name.replace(/\W+/g, "-")}`);
});

const page = () => paintPage(editor.page);
const lineOf = (file: string, piece: string) =>
  (editor.onDisk(file).toString().split(piece)[0] ?? "").split("\n").length;

/** Brings the editor to a state and checks what is seen there. */
type Look = (theme: EditorTheme) => Promise<void>;

/** Looks at the states in each theme, one after the other: to change the theme takes longer than to go from one to the next. */
async function inEveryTheme(states: Readonly<Record<string, Look>>): Promise<void> {
  for (const theme of THEMES) {
    await useTheme(editor, theme);
    for (const [state, look] of Object.entries(states)) {
      await look(theme);
      await editor.picture(`editor-${state}-${theme}`);
      // A hover or a menu that is open would take the keys that come next.
      await editor.page.keyboard.press("Escape");
    }
  }
}

/** Opens a file alone with the text cursor on the line of a piece of its text. */
async function alone(file: string, piece: string): Promise<number> {
  await editor.command("View: Close All Editors");
  await editor.page.locator(".tab").first().waitFor({ state: "detached" });
  const line = lineOf(file, piece);
  await editor.open(file, line, 1);
  return line;
}

/** The page of the paint editor has the theme's colours, all its text can be read, and the picture is drawn. */
async function pageIn(theme: EditorTheme): Promise<void> {
  const body = page().locator("body");
  await expect
    .poll(() => body.getAttribute("class"), SOON)
    .toMatch(new RegExp(`(^| )${EDITOR_THEMES[theme].kind}( |$)`));
  const own = () => body.evaluate((b) => getComputedStyle(b).backgroundColor);
  const wanted = await editor.page
    .locator(".monaco-editor .view-lines")
    .first()
    .evaluate(
      (lines) => getComputedStyle(lines.closest(".monaco-editor-background, .monaco-editor") ?? lines).backgroundColor,
    );
  await expect.poll(own, SOON).toBe(wanted);
  expect.soft(await poorTexts(page(), TEXT), theme).toEqual([]);
}

/** How many colours the picture is drawn in. */
const coloursOf = (canvas: Locator) =>
  canvas.first().evaluate((element) => {
    const { width, height } = element as HTMLCanvasElement;
    const data = (element as HTMLCanvasElement).getContext("2d")?.getImageData(0, 0, width, height).data ?? [];
    const seen = new Set<number>();
    for (let i = 0; i < data.length; i += 4)
      seen.add(((data[i] ?? 0) << 16) | ((data[i + 1] ?? 0) << 8) | (data[i + 2] ?? 0));
    return seen.size;
  });

/** The editor's hover on a place of the source, with these words in it. */
async function hover(line: number, column: number, words: string, pictures: number): Promise<void> {
  await editor.open("lantern_art.h", line, column);
  await editor.page.keyboard.press("Control+k");
  await editor.page.keyboard.press("Control+i");
  const shown = editor.page.locator(".monaco-hover").filter({ hasText: words }).first();
  await shown.waitFor();
  expect(await shown.locator("img[src^='data:image/png']").count()).toBe(pictures);
  const [ink = "", paper = ""] = await shown.evaluate((e) => [
    getComputedStyle(e).color,
    getComputedStyle(e).backgroundColor,
  ]);
  expect(contrast(ink, [paper])).toBeGreaterThanOrEqual(TEXT);
}

test("source with heat, thumbnail and lens, and hovers on a name and on a number", async () => {
  const line = await alone("lantern_art.h", "drop_icon[81]");
  await inEveryTheme({
    source: async () => {
      // Row 2 of the drop holds 0 0 0 26 64 26 0 0 0. Marks are made anew after the theme has changed.
      const brightest = async () => {
        const [, mark, ...more] = await marksOfLine(editor.page, line + 3);
        const editorBox = editor.page.locator(".monaco-editor").first();
        const paper = await editorBox.evaluate((e) => getComputedStyle(e).backgroundColor);
        return mark && more.length === 1 ? contrast(mark.colour, [paper]) : 0;
      };
      await expect.poll(brightest, SOON).toBeGreaterThanOrEqual(GRAPHICS);
      await expect.poll(() => thumbnailIn(editor.page), SOON).not.toBe("");
      await editor.page.locator(".codelens-decoration").filter({ hasText: "81 bytes" }).first().waitFor();
    },
    "hover-name": () => hover(line, "const uint8_t drop".length, "9×9 gray8", 1),
    // The first 26 of row 2.
    "hover-number": () => hover(line + 3, "   0,  0,  0, 2".length, "Pixel x 3, y 2", 0),
  });
});

test("findings in Problems and a fix offered", async () => {
  const line = await alone("mistakes.h", "missing_row[25]");
  await editor.page.keyboard.press("Control+Shift+m");
  await editor.page.locator(".markers-panel .monaco-list-row").filter({ hasText: "missing_row" }).first().waitFor();
  await inEveryTheme({
    problems: async () => {
      await editor.open("mistakes.h", line + 5, 1);
      await editor.page.keyboard.press("Control+.");
      await editor.page.locator(".action-widget").filter({ hasText: "Write the missing zeros out" }).waitFor();
    },
  });
  await editor.command("View: Hide Panel");
});

test("the paint editor beside the code after a stroke, and the frames of an animation", async () => {
  await alone("lantern_art.h", "drop_icon[81]");
  const grid = await paint(editor, "drop_icon");
  await drag(editor.page, grid, [0, 0], [2, 0]);
  await editor.page.locator(".tab.dirty").first().waitFor();
  await show(grid, "As lit");
  const choose = async (name: string) => {
    await page().getByRole("combobox", { name: "Bitmap of this file" }).selectOption(name);
    await gridOf(page(), name).waitFor();
  };
  await inEveryTheme({
    paint: async (theme) => {
      await choose("drop_icon");
      await pageIn(theme);
      expect(await coloursOf(page().locator(".sheet canvas"))).toBeGreaterThan(8);
    },
    frames: async (theme) => {
      await choose("drip");
      await pageIn(theme);
      expect(await coloursOf(page().locator("canvas.strip"))).toBeGreaterThan(8);
    },
  });
  await editor.page.keyboard.press("Control+z");
  await editor.page.locator(".tab.dirty").first().waitFor({ state: "detached" });
});

test("a display of 128×32 that must not be written", async () => {
  await alone("status_screen.h", "status_screen[512]");
  const grid = await paint(editor, "status_screen");
  await inEveryTheme({
    "status-read-only": async (theme) => {
      await pageIn(theme);
      await page().locator("header").getByText("read only").waitFor();
      expect(await grid.getAttribute("aria-readonly")).toBe("true");
      expect(await coloursOf(page().locator(".sheet canvas"))).toBeGreaterThan(2);
    },
  });
});

test("findings where they are painted", async () => {
  await alone("mistakes.h", "glaring_centre[25]");
  await paint(editor, "glaring_centre");
  await inEveryTheme({
    findings: async (theme) => {
      await pageIn(theme);
      await page().getByText("over the cap").first().waitFor();
    },
  });
});

test("nothing to paint", async () => {
  await alone("plain.h", "int nothing");
  await editor.command("Dotwright: Paint");
  await page().getByText("This file holds no bitmap").filter({ visible: true }).first().waitFor();
  await inEveryTheme({ nothing: pageIn });
  expect(await gridOf(page(), "").count()).toBe(0);
});
