/** All the ways to the paint editor, in the real editor: each ends with the picture beside its source. */
import { afterAll, afterEach, beforeAll, beforeEach, expect, test } from "vitest";
import type { Editor } from "../support/editor.ts";
import { SOON, startEditor } from "../support/editor.ts";
import { focusPixel, gridOf, paint, paintPage } from "../support/paintEditor.ts";

const FILE = "lantern_art.h";

let editor: Editor;
beforeAll(async () => {
  editor = await startEditor();
});
afterAll(() => editor?.stop());
beforeEach(async () => {
  await editor.command("View: Close All Editors");
  await editor.page.locator(".tab").first().waitFor({ state: "detached" });
});
afterEach(async ({ task }) => {
  if (task.result?.state === "fail") await editor.picture(`failed-${task.name.replace(/\W+/g, "-")}`);
});

const group = (index: number) => editor.page.locator(".editor-group-container").nth(index);
const tabs = () =>
  editor.page
    .locator(".editor-group-container")
    .evaluateAll((groups) => groups.map((g) => g.querySelectorAll(".tab").length));
/** The menu takes no click right after it opens, but keys. */
async function choose(name: string): Promise<void> {
  await menuItem(name).hover();
  await editor.page.locator(".monaco-menu .action-item.focused").filter({ hasText: name }).waitFor();
  await editor.page.keyboard.press("Enter");
}
const menuItem = (name: string) => editor.page.locator(".monaco-menu").getByText(name, { exact: true });
/** The picture of a bitmap in the second group, its source in the first. */
async function isBeside(name: string): Promise<void> {
  await gridOf(paintPage(editor.page), name).waitFor();
  await group(0).locator(".view-lines").waitFor();
  expect(await tabs()).toEqual([1, 1]);
}

test("a file of the explorer, with its source if that is not in view", async () => {
  const { page } = editor;
  const row = page.locator(".explorer-folders-view .monaco-list-row").filter({ hasText: FILE });
  // The window is there before it knows what extensions add to its menus.
  const offered = async () => {
    await page.keyboard.press("Escape");
    await row.click({ button: "right" });
    await menuItem("Copy Path").waitFor();
    return menuItem("Paint").count();
  };
  await expect.poll(offered, SOON).toBe(1);
  await choose("Paint");
  await isBeside("drop_icon");
  await page
    .locator(".explorer-folders-view .monaco-list-row")
    .filter({ hasText: "README.md" })
    .click({ button: "right" });
  await menuItem("Copy Path").waitFor();
  expect(await menuItem("Paint").count()).toBe(0);
  await page.keyboard.press("Escape");
});

test("the link of a hover", async () => {
  const { page } = editor;
  await editor.open(FILE, 28, 18);
  await page.locator(".codelens-decoration").filter({ hasText: "sun_icon" }).waitFor();
  await page.keyboard.press("Control+k");
  await page.keyboard.press("Control+i");
  await page.locator(".monaco-hover a").getByText("Paint", { exact: true }).click();
  await isBeside("sun_icon");
});

test("the command palette, for the bitmap at the text cursor", async () => {
  await editor.open(FILE, 44, 5);
  await editor.command("Dotwright: Paint");
  await isBeside("thermometer_icon");
});

test("the context menu of the text", async () => {
  await editor.open(FILE, 58, 5);
  await group(0).locator(".view-line").filter({ hasText: "leaf_icon" }).first().click({ button: "right" });
  await choose("Paint");
  await isBeside("leaf_icon");
});

test("the button of the title, also where it is open already: it stays where it is", async () => {
  await editor.open(FILE, 15, 5);
  await paint(editor, "drop_icon");
  await group(0).locator(".view-line").filter({ hasText: "0x1A" }).first().click();
  await gridOf(paintPage(editor.page), "sun_icon").waitFor();
  await group(0).locator(".editor-actions").getByRole("button", { name: "Paint" }).click();
  await expect.poll(() => editor.page.locator(".editor-group-container.active .view-lines").count(), SOON).toBe(0);
  await isBeside("sun_icon");
});

test("an open one shows a new bitmap, under whose name the text cursor is put", async () => {
  const { page } = editor;
  await editor.open(FILE, 15, 5);
  await paint(editor, "drop_icon");
  await page.keyboard.press("Control+1");
  const quickInput = page.locator(".quick-input-widget");
  await editor.command("Dotwright: New Bitmap");
  for (const asked of ["Panel or size", "Number of frames", "Name of the array"]) {
    await quickInput
      .getByText(asked)
      .or(quickInput.locator(`input[placeholder="${asked}"]`))
      .first()
      .waitFor();
    await page.keyboard.press("Enter");
  }
  await gridOf(paintPage(page), "picture").waitFor();
  await page.keyboard.press("Control+z");
  await page.locator(".tab.dirty").first().waitFor({ state: "detached" });
});

test("a file that is opened while the paint editor has the focus opens beside it, and a second one shares its column", async () => {
  const { page } = editor;
  await editor.open(FILE, 15, 5);
  await paint(editor, "drop_icon");
  await focusPixel(paintPage(page));
  await expect.poll(() => group(1).evaluate((element) => element.classList.contains("active")), SOON).toBe(true);
  await editor.open("status_screen.h", 1, 1);
  expect(await tabs()).toEqual([2, 1]);
  await gridOf(paintPage(page), "drop_icon").waitFor();
  await editor.picture("locked-column");
  // From the explorer too.
  await focusPixel(paintPage(page));
  await page.locator(".explorer-folders-view .monaco-list-row").filter({ hasText: "board.h" }).dblclick();
  await page.locator('.tab.active[data-resource-name="board.h"]').first().waitFor();
  expect(await tabs()).toEqual([3, 1]);
  await editor.open("colour_grid.h", 15, 5);
  await editor.command("Dotwright: Paint");
  await expect.poll(tabs, SOON).toEqual([4, 2]);
  await expect
    .poll(async () => {
      const shown = [0, 1].map((index) => gridOf(paintPage(page, index), "seedling").count());
      return Math.max(...(await Promise.all(shown)));
    }, SOON)
    .toBe(1);
});
