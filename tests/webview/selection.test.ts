/** Selecting pixels, moving them and changing them, by pointer and keyboard. */
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, beforeEach, expect, test } from "vitest";
import {
  afresh,
  bundle,
  type Code,
  centreOf,
  changeTheme,
  colourAt,
  drag,
  launch,
  type Opened,
  openPage,
  settled,
} from "../support/page.ts";
import { drop, dropOn, falling, mono, wedge } from "../support/pictures.ts";
import type { ThemeName } from "../support/themes.ts";
import { until } from "../support/until.ts";

let browser: Browser;
let open: Opened;
beforeAll(async () => {
  let code: Code;
  [browser, code] = await Promise.all([launch(), bundle()]);
  open = await openPage(browser, code, drop());
});
afterAll(() => browser.close());
beforeEach(async () => {
  await press("Escape", "Escape");
  await afresh(open, wedge());
});

const note = () => open.page.locator(".note").textContent();
const says = (words: string) => until(async () => expect(await note()).toBe(words));
const press = async (...keys: string[]) => {
  for (const key of keys) await open.page.keyboard.press(key);
};
const word = (name: string) => open.page.locator(".selecting").getByRole("button", { name, exact: true });
const row = () => open.page.locator(".selecting");
/** Of the groups in the row one is open; a word of another one needs it first. */
const group = async (name: string) => {
  if ((await word(name).count()) > 0) await word(name).click();
};
const outline = () => open.page.locator(".outline path.above");
/** The picture as the document has it after all strokes: rows of text. */
const rows = (width = 6) => {
  const pixels = open.shown.frames[0] ?? [];
  return Array.from({ length: pixels.length / width }, (_, y) => pixels.slice(y * width, (y + 1) * width).join(" "));
};

test("the row of words is there only with the tool or a selection", async () => {
  expect(await row().isVisible()).toBe(false);
  await press("s");
  await row().waitFor();
  expect(await open.page.locator(".selecting .what").textContent()).toBe("the whole frame");
  await press("d");
  await row().waitFor({ state: "hidden" });
  await press("Control+a");
  await row().waitFor();
});

test("of the groups of words one is open, and stays so; one with nothing to do makes room", async () => {
  await press("s");
  await word("Copy").waitFor();
  const opened = () => row().locator(".opened > div:visible").getAttribute("aria-label");
  for (const name of ["Turn", "Mirror", "Shift", "Size"]) {
    await word(name).click();
    expect(await opened()).toBe(name);
    expect(await word(name).getAttribute("aria-pressed")).toBe("true");
  }
  expect(await word("Copy").isVisible()).toBe(false);
  await press("Escape", "d", "s");
  await until(async () => expect(await opened()).toBe("Size"));
  // What floats has no size to change: the words for the clipboard stand there meanwhile.
  await open.page.locator("[role=gridcell]").focus();
  await press("Control+a", "Enter");
  await until(async () => expect([await opened(), await word("Size").isVisible()]).toEqual(["Clipboard", false]));
  await press("Escape");
  await until(async () => expect(await opened()).toBe("Size"));
});

test.each([
  [360, 8],
  [500, 5],
  [800, 4],
])("at %i px the row takes %i lines at most", async (width, most) => {
  await open.page.setViewportSize({ width, height: 900 });
  await afresh(open, drop());
  await press("s");
  await drag(open, [
    [2, 2],
    [5, 4],
  ]);
  const tops = await row()
    .locator("button:visible")
    .evaluateAll((all) => new Set(all.map((one) => Math.round(one.getBoundingClientRect().bottom))).size);
  expect(tops).toBeLessThanOrEqual(most);
  await open.page.setViewportSize({ width: 700, height: 900 });
  await press("Escape");
});

test("a dragged rectangle is outlined, told and selected in the text; Escape lets it go", async () => {
  await press("s");
  await drag(open, [
    [1, 1],
    [4, 3],
  ]);
  await says("4×3 pixels selected at column 1, row 1");
  expect(await open.page.locator("[role=status]").textContent()).toContain("4×3 pixels selected");
  await until(async () => expect(await outline().getAttribute("d")).toBe("M1 1h4v3h-4z"));
  await until(() => expect(open.selected).toEqual([[7, 8, 9, 10, 13, 14, 15, 16, 19, 20, 21, 22]]));
  const [first, last] = [await centreOf(open, 1, 1), await centreOf(open, 4, 3)];
  const box = await outline().boundingBox();
  expect(box && [box.x < first.x, box.y < first.y, box.x + box.width > last.x]).toEqual([true, true, true]);
  await press("Escape");
  await says("nothing is selected");
  await open.page.locator(".outline").waitFor({ state: "hidden" });
  await until(() => expect(open.selected.at(-1)).toEqual([]));
  expect(open.paints).toEqual([]);
});

test("Escape while a rectangle is drawn drops it", async () => {
  await press("s");
  await drag(
    open,
    [
      [1, 1],
      [4, 3],
    ],
    true,
  );
  await until(async () => expect(await outline().getAttribute("d")).toBe("M1 1h4v3h-4z"));
  await press("Escape");
  await open.page.mouse.up();
  await says("selection dropped");
  await open.page.locator(".outline").waitFor({ state: "hidden" });
});

test("the keyboard alone: Shift and arrows, all, the level, two presses of Space", async () => {
  await press("ArrowRight", "Shift+ArrowRight", "Shift+ArrowDown");
  await says("2×2 pixels selected at column 1, row 0");
  await press("Control+a");
  await says("6×4 pixels selected at column 0, row 0");
  await press("Escape", "Control+Home", "v");
  await says("1 pixel of level 0 selected");
  await press("Escape", "s", "ArrowDown", "Space");
  await says("Select starts here: move and press Space again");
  await press("ArrowRight", "ArrowRight", "Space");
  await says("3×1 pixels selected at column 0, row 1");
});

test.each([
  ["r", "Turn right"],
  ["Shift+R", "Turn left"],
  ["u", "Mirror columns"],
  ["Shift+U", "Mirror rows"],
  ["i", "Invert"],
  ["Delete", "Erase it"],
  ["Control+ArrowLeft", "Shift left"],
  ["Control+ArrowRight", "Shift right"],
  ["Control+ArrowUp", "Shift up"],
  ["Control+ArrowDown", "Shift down"],
])("%s does what the word “%s” does, as one stroke", async (key, name) => {
  const select = async () => {
    await press("Control+Home", "ArrowRight", "ArrowDown", "Shift+ArrowRight", "Shift+ArrowDown");
    await says("2×2 pixels selected at column 1, row 1");
  };
  await select();
  await press(key);
  await until(() => expect(open.paints).toHaveLength(1));
  await settled(open);
  const byKey = rows();
  expect(byKey).not.toEqual(["0 1 2 3 4 5", "6 7 8 9 10 11", "12 13 14 15 16 17", "18 19 20 21 22 23"]);
  await press("Escape");
  await afresh(open, wedge());
  await select();
  if (name.includes(" ")) await group(name.split(" ")[0] ?? "");
  await word(name).click();
  await until(() => expect(open.paints).toHaveLength(1));
  await settled(open);
  expect(rows()).toEqual(byKey);
});

test("fill takes the level at hand, and the row says which", async () => {
  await open.page.locator(".ladder input").fill("20");
  await open.page.locator(".ladder input").press("Enter");
  await open.page.locator("[role=gridcell]").focus();
  await press("Shift+ArrowRight");
  await word("Fill with 20").click();
  await until(() => expect(rows()[0]).toBe("20 20 2 3 4 5"));
});

test("shifting all frames is one stroke over all of them", async () => {
  await press("Escape");
  const shown = falling();
  await afresh(open, shown);
  await press("s");
  await word("in all frames").click();
  await group("Shift");
  await word("Shift down").click();
  await until(() => expect(open.paints).toHaveLength(1));
  await settled(open);
  for (const [frame, pixels] of shown.frames.entries())
    expect(open.shown.frames[frame]).toEqual([...pixels.slice(72), ...pixels.slice(0, 72)]);
  await word("in all frames").click();
});

test("on a turned display a shift goes where it points on the screen", async () => {
  await afresh(open, wedge({ mount: 90 } as never));
  await press("s", "Control+ArrowRight");
  // The display hangs turned right: its rows run down, so right on the screen is up in the bitmap.
  await until(() => expect(rows()[0]).toBe("6 7 8 9 10 11"));
});

test("dragging inside moves the pixels with a live picture, over what stays until release; one stroke", async () => {
  await press("s");
  await drag(open, [
    [4, 3],
    [5, 3],
  ]);
  const bright = await colourAt(open, 5, 3);
  const under = await colourAt(open, 2, 1);
  await drag(
    open,
    [
      [5, 3],
      [2, 1],
    ],
    true,
  );
  expect(await colourAt(open, 2, 1)).toEqual(bright);
  const at = await centreOf(open, 2, 0);
  await open.page.mouse.move(at.x, at.y);
  expect([await colourAt(open, 2, 0), await colourAt(open, 2, 1)]).toEqual([bright, under]);
  expect(open.paints).toEqual([]);
  await open.page.mouse.up();
  await until(() => expect(rows()).toEqual(["0 22 23 3 4 5", "6 7 8 9 10 11", "12 13 14 15 16 17", "18 19 20 21 0 0"]));
  expect(open.paints).toHaveLength(1);
  await says("2×1 pixels at column 1, row 0 put down");
});

test("with a modifier key a copy is moved; Escape drops it", async () => {
  await press("s");
  await drag(open, [
    [4, 3],
    [5, 3],
  ]);
  await open.page.keyboard.down("Control");
  await drag(open, [
    [5, 3],
    [1, 0],
  ]);
  await open.page.keyboard.up("Control");
  await until(() =>
    expect(rows()).toEqual(["22 23 2 3 4 5", "6 7 8 9 10 11", "12 13 14 15 16 17", "18 19 20 21 22 23"]),
  );
  await drag(
    open,
    [
      [0, 0],
      [3, 2],
    ],
    true,
  );
  await press("Escape");
  await open.page.mouse.up();
  await says("move dropped");
  await settled(open);
  expect(open.paints).toHaveLength(1);
});

test("moving by keyboard: Enter takes up and puts down, arrows move", async () => {
  await press("s", "Shift+ArrowRight", "Enter", "ArrowDown", "ArrowDown", "ArrowRight");
  await says("2×1 pixels at column 1, row 2");
  expect(open.paints).toEqual([]);
  await press("Enter");
  await until(() => expect(rows()).toEqual(["0 0 2 3 4 5", "6 7 8 9 10 11", "12 0 1 15 16 17", "18 19 20 21 22 23"]));
});

test("after a word that makes pixels float the arrows move them, and a word that goes gives the focus to the grid", async () => {
  await press("s", "Shift+ArrowRight");
  await word("Move").focus();
  await press("Enter");
  await until(async () => expect(await word("Put down").isVisible()).toBe(true));
  await press("ArrowDown");
  await says("2×1 pixels at column 0, row 1");
  await word("Put down").click();
  await until(() => expect(rows()[1]).toBe("0 1 8 9 10 11"));
  await word("Let go").click();
  await until(async () => expect(await open.page.evaluate(() => document.activeElement?.className)).toBe("cursor"));
});

test("the words of the page are not marked by the editor's own command to select all", async () => {
  await open.page.locator("[role=gridcell]").focus();
  await press("Control+a");
  await says("6×4 pixels selected at column 0, row 0");
  const marked = await open.page.evaluate(() => {
    // The caret may still be in the field for levels, whose text would be all then.
    getSelection()?.removeAllRanges();
    document.execCommand("selectAll");
    return getSelection()?.toString();
  });
  expect(marked).toBe("");
});

test("the selection stays while frames are changed, and tools paint only what is selected", async () => {
  await press("Escape");
  await afresh(open, falling());
  await press("Shift+ArrowRight", "PageDown");
  await until(() => expect(open.selected.length).toBeGreaterThan(0));
  await until(async () => expect(await outline().getAttribute("d")).toBe("M0 0h2v1h-2z"));
  await press("d");
  await drag(open, [
    [0, 0],
    [5, 0],
  ]);
  await until(() =>
    expect(open.paints.map((p) => p.changes.map(({ frame, x }) => [frame, x]))).toEqual([
      [
        [1, 0],
        [1, 1],
      ],
    ]),
  );
  await drag(open, [[5, 5]]);
  await says("Not painted: it is not selected. Escape lets the selection go");
});

test("a selection in the text selects the pixels and goes with it; one made here stays", async () => {
  const cursor = (pixels?: number[]) =>
    open.rpc.call("cursor", { frame: 0, x: 2, y: 1, ...(pixels ? { pixels } : {}) });
  await cursor([8, 9, 14, 15]);
  await says("2×2 pixels selected at column 2, row 1");
  await until(async () => expect(await outline().getAttribute("d")).toBe("M2 1h2v2h-2z"));
  expect(open.selected).toEqual([]);
  await cursor();
  expect(await outline().isVisible()).toBe(true);
  await cursor([]);
  await open.page.locator(".outline").waitFor({ state: "hidden" });
  await press("Control+a");
  await cursor([]);
  await settled(open);
  expect(await outline().isVisible()).toBe(true);
});

test("the words crop to the selection and extend at a side, as it is seen on the screen", async () => {
  await press("s");
  await drag(open, [
    [1, 1],
    [3, 3],
  ]);
  await group("Size");
  await word("Crop to selection").click();
  await until(() =>
    expect(open.restructures.map((r) => r.change)).toEqual([{ kind: "size", left: -1, top: -1, right: -2, bottom: 0 }]),
  );
  await says("cropped to 3×3");
  expect(open.shown.frames[0]).toEqual([7, 8, 9, 13, 14, 15, 19, 20, 21]);
  await until(async () => expect(await open.page.locator(".what").textContent()).toBe("the whole frame"));
  await press("Escape");
  await afresh(open, wedge({ mount: 90 } as never));
  await press("s");
  await group("Size");
  await word("Extend up").click();
  // Hung turned right, the first column of the bitmap is the row on top.
  await until(() =>
    expect(open.restructures.map((r) => r.change)).toEqual([{ kind: "size", left: 1, top: 0, right: 0, bottom: 0 }]),
  );
});

test("a level that is no rectangle is outlined around its pixels", async () => {
  await press("Escape");
  await afresh(open, mono(8, 4));
  await press("v");
  // Around the outside of the edge of the picture and around its inside.
  await until(async () => expect(((await outline().getAttribute("d")) ?? "").match(/M/g)).toHaveLength(8));
});

const THEME_NAMES: readonly ThemeName[] = ["dark", "light", "contrast", "contrastLight"];

test.each(THEME_NAMES)("how it looks in %s", async (theme) => {
  await changeTheme(open, theme);
  await press("Escape");
  await afresh(open, drop());
  await press("s");
  await drag(open, [
    [2, 2],
    [5, 4],
  ]);
  await settled(open);
  await open.screenshot(`selection-lit-${theme}`);
  await press("a");
  await drag(
    open,
    [
      [3, 3],
      [5, 1],
    ],
    true,
  );
  await settled(open);
  await open.screenshot(`selection-moving-${theme}`);
  await press("Escape");
  await open.page.mouse.up();
  await press("a", "Escape");
  await afresh(open, dropOn({ lattice: "square", mount: 90, dot: "square" }));
  await press("Control+Home", "ArrowDown", "v");
  await settled(open);
  await open.screenshot(`selection-level-${theme}`);
  await press("Escape");
  await changeTheme(open, "dark");
});

test("the page never broke its content security policy nor threw", () => {
  expect(open.errors).toEqual([]);
});
