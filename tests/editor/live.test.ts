/** Live code in the real editor: the word above the function plays it, and what is typed is played at once. */
import { writeFileSync } from "node:fs";
import { join } from "node:path";
import { afterAll, afterEach, beforeAll, expect, test } from "vitest";
import type { Editor } from "../support/editor.ts";
import { SOON, startEditor } from "../support/editor.ts";

const FILE = "glow.cpp";
const TEXT = `#include <stdint.h>

// @panel bed 3x2 gray8 cap=64
uint8_t lamps[6];

// @motion bed code fps=10 buffer=lamps
void glow(uint8_t t) {
  for (uint8_t i = 0; i < 6; i++) lamps[i] = i + t / 8;
}
`;

let editor: Editor;
beforeAll(async () => {
  editor = await startEditor({}, { prepare: (folder) => writeFileSync(join(folder, FILE), TEXT) });
  await editor.open(FILE, 7, 1);
});
afterAll(() => editor?.stop());
afterEach(async ({ task }) => {
  if (task.result?.state === "fail") await editor.picture(`failed-${task.name.replace(/\W+/g, "-")}`);
});

const cell = (level: number) => editor.webview.locator(`[role=gridcell][aria-label*='level ${level} of']`);
const pressed = () => editor.webview.locator(".play").textContent();

test("the word above the function shows its frames and plays them", async () => {
  await editor.page.getByRole("button", { name: "Play · 3×2 gray8 · 10 frames a second" }).click();
  await expect.poll(() => editor.webview.locator("h1").textContent(), SOON).toContain("drawn\u00a0by\u00a0code");
  await expect.poll(pressed, SOON).toBe("Pause");
  await editor.webview.locator(".play").click();
  await expect.poll(pressed, SOON).toBe("Play");
  expect(await editor.webview.locator(".strip").getAttribute("aria-valuemax")).toBe("119");
  await editor.picture("live-code");
});

test("what is typed in the function is shown", async () => {
  await editor.webview.locator("[role=gridcell]").focus();
  await editor.page.keyboard.press("Control+Home");
  const strip = editor.webview.locator(".strip");
  await strip.focus();
  await editor.page.keyboard.press("Home");
  await cell(0).waitFor();
  await editor.page.locator(".editor-group-container").first().locator(".view-line", { hasText: "lamps[i]" }).click();
  await editor.page.keyboard.press("End");
  await editor.page.keyboard.press("ArrowLeft");
  await editor.page.keyboard.type(" + 40");
  await cell(40).waitFor();
  // A function that is half typed leaves the last picture, and says why.
  await editor.page.keyboard.type(" +");
  await expect.poll(() => editor.webview.locator("body").textContent(), SOON).toMatch(/glow: .*is not expected here/);
  for (let i = 0; i < 2; i++) await editor.page.keyboard.press("Backspace");
  await cell(40).waitFor();
});
