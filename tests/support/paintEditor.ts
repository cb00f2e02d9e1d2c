/** The paint editor's page in the real editor: where it is, and strokes with the mouse. */
import type { FrameLocator, Locator, Page } from "playwright-core";
import type { Editor } from "./editor.ts";

type Cell = readonly [number, number];

/** The page of one of the webviews in view, in the order in which they were opened: two frames deep. */
export function paintPage(page: Page, index = 0): FrameLocator {
  return page.locator("iframe.webview.ready").nth(index).contentFrame().frameLocator("#active-frame");
}

/** The grid of a bitmap. */
export const gridOf = (view: FrameLocator, name: string): Locator =>
  view.locator(`[role=grid][aria-label="Pixels of ${name}"]`);

/** Shows the pixels as the panel hangs, or as cells in upright rows and columns. */
export async function show(grid: Locator, how: "As lit" | "As cells"): Promise<void> {
  const button = grid.locator("xpath=ancestor::body").getByRole("button", { name: how });
  if ((await button.count()) === 0 || (await button.getAttribute("aria-pressed")) === "true") return;
  await button.click();
  await grid.locator(`xpath=ancestor::body//button[@aria-pressed="true" and normalize-space()="${how}"]`).waitFor();
}

/** Drags from the middle of one cell to that of another, in the view of upright cells. */
export async function drag(page: Page, grid: Locator, from: Cell, to: Cell): Promise<void> {
  await show(grid, "As cells");
  const box = await grid.boundingBox();
  if (!box) throw new Error("the grid is not in view");
  const columns = Number(await grid.getAttribute("aria-colcount"));
  const rows = Number(await grid.getAttribute("aria-rowcount"));
  const middle = ([x, y]: Cell) =>
    [box.x + ((x + 0.5) * box.width) / columns, box.y + ((y + 0.5) * box.height) / rows] as const;
  await page.mouse.move(...middle(from));
  await page.mouse.down();
  await page.mouse.move(...middle(to), { steps: 8 });
  await page.mouse.up();
}

/** Opens the paint editor of the bitmap whose lens this is. */
export async function paint(editor: Editor, name: string, index = 0): Promise<Locator> {
  const lens = editor.page.locator(".codelens-decoration").filter({ hasText: name });
  await lens.locator("a").filter({ hasText: "Paint" }).first().click();
  const grid = gridOf(paintPage(editor.page, index), name);
  await grid.waitFor();
  return grid;
}

/** Gives the keyboard to the pixel cursor; the browser tells a frame that it has the focus only a moment later. */
export async function focusPixel(view: FrameLocator): Promise<void> {
  const cell = view.locator("[role=gridcell]");
  await cell.focus();
  await cell.evaluate(
    (element) =>
      new Promise<void>((resolve) => {
        const look = () => (element.ownerDocument.hasFocus() ? resolve() : requestAnimationFrame(look));
        look();
      }),
  );
}
