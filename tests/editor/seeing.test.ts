/** What the text shows of its bitmaps in the real editor: rows, zero-filled ends, the cap, in four kinds of theme. */
import { mkdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { afterAll, afterEach, beforeAll, expect, test } from "vitest";
import type { Editor } from "../support/editor.ts";
import { startEditor } from "../support/editor.ts";

const BEDS = `#include <stdint.h>
// @panel lantern 9x9 gray8 cap=64 tint=#ffb84d
// @bitmap lantern 5x4
const uint8_t seedling[20] = {
   0,  7, 64,  7,  0, /* leaf */
   0,  0, 96, 26,  0, // stem
   0,  0, 26,  0,  0,
};
// @bitmap 4x3 gray8
const uint8_t beds[3][4] = {
  {1, 2},
  {3, 4, 5, 6},
  {7, 8, 9},
};
`;
/** Lines of that file, from 1. */
const LEAF = 5;
const STEM = 6;
const SEEDLING_END = 8;

const THEMES = {
  dark: "Default Dark Modern",
  light: "Default Light Modern",
  "contrast-dark": "Default High Contrast",
  "contrast-light": "Default High Contrast Light",
};
type Theme = keyof typeof THEMES;

let editor: Editor;
beforeAll(async () => {
  editor = await startEditor({}, { prepare: (folder) => writeFileSync(join(folder, "beds.h"), BEDS) });
});
afterAll(() => editor?.stop());
afterEach(async ({ task }) => {
  if (task.result?.state === "fail") await editor.picture(`failed-${task.name.replace(/\W+/g, "-")}`);
});

/** Settings of the open folder; the editor takes them as soon as the file is written. */
function settings(theme: Theme, own: Readonly<Record<string, unknown>>): void {
  mkdirSync(join(editor.folder, ".vscode"), { recursive: true });
  const all = { "workbench.colorTheme": THEMES[theme], ...own };
  writeFileSync(join(editor.folder, ".vscode/settings.json"), JSON.stringify(all));
}

/** The class of the window tells the kind of theme. */
const themed = (kind: string) => editor.page.locator(`.monaco-workbench.${kind}`).waitFor();

/** What stands before or after the text of a line in view: words, and pictures as data URIs. */
const beside = (line: number, where: "::before" | "::after") =>
  editor.page.evaluate(
    ([wanted, pseudo]) => {
      const number = [...document.querySelectorAll(".line-numbers")].find((e) => e.textContent?.trim() === `${wanted}`);
      const top = (number?.parentElement as HTMLElement | null)?.style.top;
      const row = [...document.querySelectorAll<HTMLElement>(".view-line")].find((e) => e.style.top === top);
      return [...(row?.querySelectorAll("span[class*='ced-']") ?? [])].flatMap((span) => {
        const { content, borderTopWidth, borderTopColor } = getComputedStyle(span, pseudo);
        if (content === "none" || content === "normal") return [];
        const uri = /url\("(.*)"\)/.exec(content)?.[1];
        return [{ words: uri ? "" : content.replace(/^"|"$/g, ""), uri, edge: `${borderTopWidth} ${borderTopColor}` }];
      });
    },
    [line, where] as const,
  );

const pictureAfter = async (line: number) => (await beside(line, "::after")).find((b) => b.uri)?.uri ?? "";
/** Words about zero-filled ends, before or after a brace. */
const words = async (line: number) =>
  [...(await beside(line, "::before")), ...(await beside(line, "::after"))]
    .map((b) => b.words.replaceAll("\u00a0", " ").trim())
    .filter((w) => w !== "");

/** The colours that a picture has on the screen along its middle, one for each of `cells` equal parts. */
const across = (uri: string, cells: number) =>
  editor.page.evaluate(
    async ([source, count]) => {
      const image = new Image();
      image.src = source;
      await image.decode();
      const canvas = document.createElement("canvas");
      canvas.width = image.width;
      canvas.height = image.height;
      const context = canvas.getContext("2d") as CanvasRenderingContext2D;
      context.drawImage(image, 0, 0);
      return Array.from({ length: count }, (_, i) => {
        const at = Math.floor(((i + 0.5) * image.width) / count);
        const [r = 0, g = 0, b = 0] = context.getImageData(at, Math.floor(image.height / 2), 1, 1).data;
        return `#${[r, g, b].map((c) => c.toString(16).padStart(2, "0")).join("")}`;
      });
    },
    [uri, cells] as const,
  );

/** Decorations of the numbers of a line from left to right. */
const marks = (line: number) =>
  editor.page.evaluate((wanted) => {
    const number = [...document.querySelectorAll(".line-numbers")].find((e) => e.textContent?.trim() === `${wanted}`);
    const top = (number?.parentElement as HTMLElement | null)?.style.top;
    const rows = [...document.querySelectorAll<HTMLElement>(".view-overlays > div")].filter((e) => e.style.top === top);
    const found = rows.flatMap((row) => [...row.querySelectorAll<HTMLElement>(".cdr[class*='ced-']")]);
    found.sort((a, b) => a.offsetLeft - b.offsetLeft);
    return found.map((mark) => {
      const { borderLeftStyle, borderLeftWidth, borderBottomWidth, backgroundColor } = getComputedStyle(mark);
      const dotted = borderLeftStyle === "dotted" && Number.parseFloat(borderLeftWidth) > 0;
      return { dotted, thickness: Number.parseFloat(borderBottomWidth), ground: backgroundColor };
    });
  }, line);

const underlines = async (line: number) => (await marks(line)).filter((m) => !m.dotted).map((m) => m.thickness);

test("no row pictures unless they are asked for", async () => {
  settings("light", {});
  await editor.open("beds.h", LEAF, 1);
  // 7, 64 and 7 of a cap of 64: a brighter number has a thicker line. The extension starts with this file.
  await expect.poll(() => underlines(LEAF), { timeout: 60_000 }).toHaveLength(3);
  const [left = 0, middle = 0, right = 0] = await underlines(LEAF);
  expect([left, right]).toEqual([right, left]);
  expect(middle).toBeGreaterThan(left);
  expect(await pictureAfter(LEAF)).toBe("");
});

test("a row's picture stands after all that its line holds, with the row's pixels", async () => {
  settings("light", { "dotwright.rowPictures": true });
  await expect.poll(() => pictureAfter(LEAF), { timeout: 20_000 }).not.toBe("");
  const [dark, , full, , end] = await across(await pictureAfter(LEAF), 5);
  expect([dark, full, end]).toEqual(["#000000", "#ffb84d", "#000000"]);
  await editor.picture("rows-light");
});

test("typing a number changes its row's picture and its colour", async () => {
  await editor.open("beds.h", LEAF, 4);
  await editor.page.keyboard.press("Shift+ArrowRight");
  await editor.page.keyboard.type("64");
  await expect.poll(async () => (await across(await pictureAfter(LEAF), 5))[0], { timeout: 20_000 }).toBe("#ffb84d");
  await expect.poll(() => underlines(LEAF), { timeout: 20_000 }).toHaveLength(4);
  await editor.page.keyboard.press("Control+z");
  await expect.poll(async () => (await across(await pictureAfter(LEAF), 5))[0], { timeout: 20_000 }).toBe("#000000");
});

test("what the compiler fills up is told in words at the brace", async () => {
  expect(await words(SEEDLING_END)).toEqual(["+ 5 × 0"]);
  expect(await words(11)).toEqual(["+ 2 × 0"]);
  expect(await words(12)).toEqual([]);
  expect(await words(13)).toEqual(["+ 1 × 0"]);
  await editor.open("beds.h", SEEDLING_END, 1);
  await editor.page.keyboard.press("Control+k");
  await editor.page.keyboard.press("Control+i");
  await editor.page.locator(".monaco-hover").filter({ hasText: "The compiler fills 5 elements with 0." }).waitFor();
  await editor.page.keyboard.press("Escape");
});

test("typing what was missing takes the words away", async () => {
  await editor.open("beds.h", SEEDLING_END, 1);
  await editor.page.keyboard.type("0,0,0,0,0");
  await expect.poll(() => words(SEEDLING_END), { timeout: 20_000 }).toEqual([]);
  await editor.page.keyboard.press("Control+z");
  await expect.poll(() => words(SEEDLING_END), { timeout: 20_000 }).toEqual(["+ 5 × 0"]);
});

test.each([
  ["dark", "vs-dark"],
  ["contrast-dark", "hc-black"],
  ["contrast-light", "hc-light"],
  ["light", "vs"],
] as const)("in %s the cap, the level and the pictures are told without colour", async (theme, kind) => {
  const contrast = theme.startsWith("contrast");
  settings(theme, { "dotwright.rowPictures": true });
  await themed(kind);
  await editor.open("beds.h", 1, 1);
  await expect.poll(async () => (await marks(STEM)).filter((m) => m.dotted).length, { timeout: 20_000 }).toBe(1);
  const grounds = async () => (await marks(STEM)).filter((m) => !m.dotted).map((m) => m.ground !== "rgba(0, 0, 0, 0)");
  // In high contrast nothing lies behind the digits.
  await expect.poll(grounds, { timeout: 20_000 }).toEqual([!contrast, !contrast]);
  const edged = async () => (await beside(LEAF, "::after")).filter((b) => b.uri).map((b) => b.edge.startsWith("1px"));
  await expect.poll(edged, { timeout: 20_000 }).toEqual([contrast]);
  await editor.picture(`seeing-${theme}`);
  await editor.open("lantern_art.h", 30, 1);
  await expect.poll(() => pictureAfter(30), { timeout: 20_000 }).not.toBe("");
  await editor.picture(`seeing-art-${theme}`);
});

test("scrolling shows what comes into view: the columns of a glyph as the glyph", async () => {
  await editor.open("font5x7.h", 1, 1);
  await expect.poll(() => pictureAfter(12), { timeout: 20_000 }).not.toBe("");
  await editor.open("font5x7.h", 90, 1);
  await expect.poll(() => pictureAfter(90), { timeout: 20_000 }).not.toBe("");
  await editor.picture("rows-font");
  await editor.open("status_screen.h", 34, 1);
  await expect.poll(() => pictureAfter(19), { timeout: 20_000 }).not.toBe("");
  await editor.picture("rows-bands");
});
