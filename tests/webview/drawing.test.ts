/** The drawing tools and their options: live before the release, dropped by Escape, one stroke each. */
import type { Browser, Locator } from "playwright-core";
import { afterAll, beforeAll, beforeEach, expect, test, vi } from "vitest";
import { glyphsFrom } from "../support/glyphSets.ts";
import { afresh, bundle, type Code, colourAt, drag, launch, type Opened, openPage, settled } from "../support/page.ts";
import { dropOn } from "../support/pictures.ts";
import { until } from "../support/until.ts";

let browser: Browser;
let code: Code;
let open: Opened;
const blank = () => dropOn({ lattice: "square" }, { frames: [new Array(81).fill(0)] });
beforeAll(async () => {
  [browser, code] = await Promise.all([launch(), bundle()]);
  open = await openPage(browser, code, blank());
});
afterAll(() => browser.close());
beforeEach(async () => {
  await afresh(open, blank());
  for (const [name, value] of [
    ["width", "1"],
    ["strength", "100"],
  ] as const)
    await amount(name).fill(value);
  for (const [group, word] of [
    ["symmetry", "off"],
    ["pixels", "set"],
  ] as const)
    await choose(group, word);
  await open.page.locator("[role=gridcell]").focus();
});

const options = () => open.page.locator(".options");
const amount = (name: string): Locator => options().getByLabel(name, { exact: true });
const choose = (group: string, word: string) =>
  options().getByRole("group", { name: group }).getByRole("button", { name: word, exact: true }).click();
const press = async (...keys: string[]) => {
  for (const key of keys) await open.page.keyboard.press(key);
};
const note = () => open.page.locator(".note").textContent();
/** Whatever is typed now is text. */
const typing = async () =>
  expect(await open.page.locator("input.typed").evaluate((field) => field === document.activeElement)).toBe(true);
/** The last stroke that was sent, as a picture of digits: tens of the new values, `.` where nothing changed. */
const picture = (at = -1) => {
  const rows = Array.from({ length: 9 }, () => new Array<string>(9).fill("."));
  for (const { x, y, value } of open.paints.at(at)?.changes ?? [])
    (rows[y] as string[])[x] = String(Math.floor(value / 10));
  return rows.map((row) => row.join(""));
};
const isLit = async (x: number, y: number) => {
  const dark = String(await colourAt(open, 8, 8));
  return String(await colourAt(open, x, y)) !== dark;
};

test("an oval is seen before the release, and sent as one stroke after it", async () => {
  await press("o");
  await drag(
    open,
    [
      [0, 0],
      [4, 4],
    ],
    true,
  );
  expect([await isLit(2, 0), await isLit(0, 2), await isLit(2, 2), await isLit(0, 0)]).toEqual([
    true,
    true,
    false,
    false,
  ]);
  expect(open.paints).toEqual([]);
  // Filled while it is under way: the preview follows.
  await open.page.evaluate(() => {
    const words = [...document.querySelectorAll<HTMLElement>(".options button")];
    words.find((word) => word.textContent === "filled")?.click();
  });
  expect(await isLit(2, 2)).toBe(true);
  await open.page.mouse.up();
  await until(() => expect(open.paints).toHaveLength(1));
  expect(picture().slice(0, 5)).toEqual([".666.....", "66666....", "66666....", "66666....", ".666....."]);
  await choose("form", "outline");
});

test.each([
  ["o", "Oval"],
  ["b", "Box"],
  ["l", "Line"],
  ["g", "Gradient"],
])("%s by keyboard: %s begins with one press and ends with the second; Escape drops it", async (key, word) => {
  await press(key, "Space");
  await until(async () => expect(await note()).toBe(`${word} starts here: move and press Space again`));
  await press("ArrowRight", "ArrowRight", "ArrowDown", "ArrowDown");
  expect(await isLit(1, key === "g" ? 1 : key === "l" ? 1 : 0)).toBe(true);
  await press("Escape");
  await settled(open);
  expect([await isLit(1, 0), open.paints.length, await note()]).toEqual([false, 0, "stroke dropped"]);
  await press("Control+Home", "Space", "ArrowRight", "ArrowRight", "ArrowDown", "ArrowDown", "Enter");
  await until(() => expect(open.paints).toHaveLength(1));
});

test("a gradient goes from the level to the second one, which is typed in the page", async () => {
  await press("g");
  await amount("Level or colour at the far end").fill("0x20");
  await amount("Level or colour at the far end").press("Enter");
  await drag(open, [
    [0, 0],
    [8, 0],
  ]);
  await until(() => expect(open.paints).toHaveLength(1));
  expect(open.paints[0]?.changes.slice(0, 9).map(({ value }) => value)).toEqual([64, 60, 56, 52, 48, 44, 40, 36, 32]);
  await amount("Level or colour at the far end").fill("999");
  await amount("Level or colour at the far end").press("Enter");
  await until(async () => expect(await note()).toBe("999 is above 255, the highest value"));
  await until(async () => expect(await amount("Level or colour at the far end").inputValue()).toBe("32"));
  await amount("Level or colour at the far end").fill("0");
  await amount("Level or colour at the far end").press("Enter");
});

test("width by W, strength by its field, and only the options that the tool uses now", async () => {
  const labels = () =>
    options().evaluate((row) =>
      [...row.children]
        .filter((part) => part.checkVisibility())
        .map((part) => part.ariaLabel ?? part.querySelector("input")?.ariaLabel),
    );
  expect(await labels()).toEqual(["width", "strength", "pixels", "symmetry"]);
  await press("w", "w");
  await until(async () => expect(await labels()).toEqual(["width", "tip", "strength", "pixels", "symmetry"]));
  expect(await amount("width").inputValue()).toBe("3");
  await amount("strength").fill("50");
  await amount("strength").press("Enter");
  await drag(open, [
    [1, 1],
    [3, 1],
    [1, 1],
  ]);
  await until(() => expect(open.paints).toHaveLength(1));
  expect(picture().slice(0, 4)).toEqual([".333.....", "33333....", ".333.....", "........."]);
  await press("f");
  await until(async () => expect(await labels()).toEqual(["fills", "strength", "pixels", "symmetry"]));
  await press("p");
  await until(async () => expect(await options().isVisible()).toBe(false));
});

test("numbers are stepped by the arrows of the keyboard, and stay within their bounds", async () => {
  await amount("strength").focus();
  await press("ArrowDown", "ArrowDown");
  await until(async () => expect(await amount("strength").inputValue()).toBe("90"));
  await amount("strength").fill("93");
  await amount("strength").press("Enter");
  await press("ArrowUp", "ArrowUp", "ArrowUp");
  await until(async () => expect(await amount("strength").inputValue()).toBe("100"));
  await amount("width").fill("-4");
  await amount("width").press("Tab");
  await until(async () => expect(await amount("width").inputValue()).toBe("1"));
});

test("Escape in a field drops the stroke under way, then gives the focus back to the picture", async () => {
  await press("b", "Space", "ArrowRight", "ArrowDown");
  await amount("strength").focus();
  await press("Escape");
  await until(async () => expect(await note()).toBe("stroke dropped"));
  expect(await amount("strength").evaluate((field) => field === document.activeElement)).toBe(true);
  await press("Escape");
  expect(await open.page.locator("[role=gridcell]").evaluate((cell) => cell === document.activeElement)).toBe(true);
  expect(open.paints).toEqual([]);
});

test("lighten and darken go by the rungs that the ladder shows", async () => {
  await choose("pixels", "lighten");
  const rungs = (await open.page.locator(".rung .value").allTextContents()).map(Number).reverse();
  await drag(open, [[0, 0]]);
  await drag(open, [[0, 0]]);
  await until(() => expect(open.paints).toHaveLength(2));
  expect(open.paints.map(({ changes }) => changes[0]?.value)).toEqual(rungs.slice(1, 3));
  await choose("pixels", "darken");
  await drag(open, [[0, 0]]);
  await until(() => expect(open.paints[2]?.changes[0]?.value).toBe(rungs[1]));
});

test("M goes round the symmetries; the axes lie in the middle of the picture and are dashed", async () => {
  const axes = () =>
    open.page.evaluate(() => {
      const grid = document.querySelector("[role=grid]");
      if (!grid) return [];
      const { x, y, width, height } = grid.getBoundingClientRect();
      return [...document.querySelectorAll<HTMLElement>(".axis")].map((axis) => {
        const box = axis.getBoundingClientRect();
        const middle = [(box.x + box.width / 2 - x) / width, (box.y + box.height / 2 - y) / height];
        return [axis.dataset.axis, ...middle.map((share) => share.toFixed(2)), box.height > box.width];
      });
    });
  await press("m");
  await until(async () => expect(await note()).toBe("symmetry columns"));
  await until(async () => expect(await axes()).toEqual([["columns", "0.50", "0.50", true]]));
  await press("m");
  await until(async () => expect(await axes()).toEqual([["rows", "0.50", "0.50", false]]));
  await press("m");
  await until(async () => expect(await axes()).toHaveLength(2));
  await drag(open, [
    [0, 1],
    [2, 1],
  ]);
  await until(() => expect(open.paints).toHaveLength(1));
  expect(picture()).toEqual([
    ".........",
    "666...666",
    ".........",
    ".........",
    ".........",
    ".........",
    ".........",
    "666...666",
    ".........",
  ]);
  // What picks has no symmetry.
  await press("p");
  await until(async () => expect(await axes()).toEqual([]));
  await press("d", "m");
  await until(async () => expect(await axes()).toEqual([]));
});

test("text is typed on the picture: arrows move it, Enter writes it, one stroke", async () => {
  await press("t");
  await until(typing);
  await open.page.keyboard.type("12d");
  await until(async () => expect(await note()).toBe("digits3x5 has no “d”"));
  await until(async () => expect(await isLit(1, 0)).toBe(true));
  expect(open.paints).toEqual([]);
  await press("Backspace", "ArrowDown", "ArrowDown", "ArrowRight");
  expect(await isLit(1, 0)).toBe(false);
  await press("Enter");
  await until(() => expect(open.paints).toHaveLength(1));
  expect(picture().slice(2, 7)).toEqual(["..6..66..", ".66....6.", "..6...6..", "..6..6...", ".666.666."]);
  // The next text follows behind.
  await until(async () => expect(await open.page.locator("input.typed").inputValue()).toBe(""));
  await open.page.keyboard.type("i");
  await until(async () => expect(await isLit(8, 2)).toBe(true));
  await press("Escape");
  await until(async () => expect(await isLit(8, 2)).toBe(false));
  expect([open.paints.length, await note()]).toEqual([1, "stroke dropped"]);
  await press("Escape");
  expect(await open.page.locator("[role=gridcell]").evaluate((cell) => cell === document.activeElement)).toBe(true);
});

test("a press moves the text, another set is chosen from the list, and its greys are shares of the level", async () => {
  await press("t");
  await open.page.getByLabel("Glyph set").selectOption({ label: "soft3x3 3×3" });
  await drag(open, [[1, 1]]);
  await until(typing);
  await open.page.keyboard.type("o");
  await drag(open, [[5, 5]]);
  await until(async () => expect(await isLit(6, 5)).toBe(true));
  expect(await isLit(2, 1)).toBe(false);
  await open.page.locator("input.typed").press("Enter");
  await until(() => expect(open.paints).toHaveLength(1));
  expect(picture().slice(5, 8)).toEqual([".....363.", ".....6.6.", ".....363."]);
  await open.page.getByLabel("Glyph set").selectOption({ label: "digits3x5 3×5" });
});

test("without a glyph set it is said how to come by one", async () => {
  open.glyphs = glyphsFrom([]);
  await press("t");
  await options().getByText("Text needs a glyph set in this file").waitFor();
  expect(await open.page.locator("input.typed").isVisible()).toBe(false);
  // Words that are typed nevertheless add no frames.
  await press("n", "Shift+N");
  await settled(open);
  expect(open.restructures).toEqual([]);
});

test("what is typed before the glyph sets have come is text already, not keys of the page", async () => {
  const other = await openPage(browser, code, blank());
  let come: () => void = () => undefined;
  const coming = new Promise<void>((resolve) => {
    come = resolve;
  });
  const answer = glyphsFrom();
  const late = (params: Parameters<typeof answer>[0]) => coming.then(() => answer(params));
  other.glyphs = late as unknown as typeof other.glyphs;
  for (const key of ["t", "n", "1", "Space", "j", "2", "Enter"]) await other.page.keyboard.press(key);
  await settled(other);
  come();
  await other.page.locator("input.typed:focus").waitFor();
  expect(await other.page.locator("input.typed").inputValue()).toBe("n1 j2");
  expect(other.restructures).toEqual([]);
  await other.close();
});

test("the options of every tool fit a page of 260 pixels", async () => {
  await open.page.setViewportSize({ width: 260, height: 900 });
  for (const key of ["d", "e", "l", "b", "o", "f", "g", "t"]) {
    await open.page.locator("[role=gridcell]").focus();
    await press(key);
    if (key === "t") await until(typing);
    await settled(open);
    const beyond = await open.page.evaluate(() =>
      [...document.querySelectorAll(".options *")]
        .filter((part) => part.checkVisibility() && part.getBoundingClientRect().right > window.innerWidth)
        .map((part) => part.textContent),
    );
    const overflow = await open.page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
    expect([key, beyond, overflow <= 0]).toEqual([key, [], true]);
    await open.screenshot(`options-${key}-260`);
  }
  await open.page.setViewportSize({ width: 420, height: 900 });
});

test("options are kept with the page, and come back with it", async () => {
  await press("w", "m", "g");
  await choose("shape", "radial");
  await until(async () => expect(await open.kept()).toMatchObject({ options: { width: 2, symmetry: "columns" } }));
  const again = await openPage(browser, code, blank(), { kept: await open.kept() });
  await again.page.locator(".options").getByRole("button", { name: "radial", pressed: true }).waitFor();
  await again.page.keyboard.press("d");
  await vi.waitFor(async () => expect(await again.page.getByLabel("width", { exact: true }).inputValue()).toBe("2"));
  expect(await again.page.locator(".axis").count()).toBe(1);
  expect(again.errors).toEqual([]);
  await again.close();
  await choose("shape", "straight");
});

test("the page never broke its content security policy nor threw", () => {
  expect(open.errors).toEqual([]);
});
