/** Colours in the page: drawn as in a hover, chosen exactly, painted and replaced as levels are. */
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, beforeEach, expect, test } from "vitest";
import { COLOUR_ART } from "../support/colourArt.ts";
import {
  afresh,
  bundle,
  type Code,
  colourAt,
  drag,
  launch,
  type Opened,
  openPage,
  setLevel,
  settled,
} from "../support/page.ts";
import { drop, falling, mono } from "../support/pictures.ts";
import { hoverColours, shownFrom } from "../support/shownFrom.ts";
import { until } from "../support/until.ts";

let browser: Browser;
let code: Code;
let open: Opened;
const art = (name: string) => shownFrom(COLOUR_ART, name);
beforeAll(async () => {
  [browser, code] = await Promise.all([launch(), bundle()]);
  open = await openPage(browser, code, drop());
});
afterAll(() => browser.close());
beforeEach(async () => {
  await open.page.setViewportSize({ width: 420, height: 900 });
});

const begin = (name: string, level: string) => afresh(open, art(name), level);
const cell = (name: string) => open.page.locator("[role=gridcell]").getAttribute(name);
const field = () => open.page.locator(".exact > input");
const told = () => open.page.locator(".told").textContent();
const note = () => open.page.locator(".note").textContent();
const group = (name: string) => open.page.getByRole("radiogroup", { name, exact: true });
const checked = (name: string) => group(name).locator("[aria-checked=true]").getAttribute("aria-label");
const button = (name: string | RegExp) => open.page.getByRole("button", { name });
const sent = () =>
  open.paints.map(({ changes }) =>
    changes.map(({ frame, x, y, before, value }) => `${frame}: ${x},${y} ${before}>${value}`),
  );
const press = async (...keys: string[]) => {
  for (const key of keys) await open.page.keyboard.press(key);
  await settled(open);
};

test.each([
  ["dawn", "rgb565 under a cap"],
  ["seedling", "palette2 of a palette in rgb565"],
  ["petals", "rgb888 with a tint"],
  ["berries", "rgb332"],
  ["unnamed", "palette4 without a palette"],
  ["lamp", "gray8 under a cap, in the panel's tint"],
  ["fog", "gray4 whose levels are code values"],
])("%s, %s: every pixel has the colour that the hover shows, as cells, as lamps and small", async (name) => {
  const wanted = hoverColours(COLOUR_ART, name);
  await begin(name, "1");
  const { width, height } = open.shown.bitmap;
  const seen = async () => {
    const all: number[][] = [];
    for (let y = 0; y < height; y++) for (let x = 0; x < width; x++) all.push(await colourAt(open, x, y, 0.4, 0.6));
    return all;
  };
  await press("a");
  expect(await seen()).toEqual(wanted);
  await press("a");
  expect(await seen()).toEqual(wanted);
  for (let i = 0; i < 12; i++) await open.page.keyboard.press("-");
  await settled(open);
  expect((await open.page.locator(".cursor").boundingBox())?.width).toBeLessThan(6);
  expect(await seen()).toEqual(wanted);
  await press("0");
});

test("thumbnails in the strip of frames have the same colours", async () => {
  await begin("seedling", "1");
  const wanted = [0, 1].map((frame) => new Set(hoverColours(COLOUR_ART, "seedling", frame).map(String)));
  const seen = await open.page.evaluate(() => {
    const strip = document.querySelector<HTMLCanvasElement>("canvas.strip");
    const { width = 0 } = strip ?? {};
    const data = strip?.getContext("2d")?.getImageData(0, 0, width, 40).data ?? [];
    const colours = new Set<string>();
    for (let i = 0; i < data.length; i += 4)
      if (data[i + 3] === 255) colours.add(`${data[i]},${data[i + 1]},${data[i + 2]}`);
    return [...colours];
  });
  for (const colour of [...(wanted[0] ?? []), ...(wanted[1] ?? [])]) expect(seen).toContain(colour);
});

test("frames of the strip stand apart by a dark margin, whatever is lit at their edge", async () => {
  await begin("seedling", "1");
  const seen = await open.page.evaluate(() => {
    const strip = document.querySelector<HTMLCanvasElement>("canvas.strip");
    const ratio = window.devicePixelRatio;
    // A row through the middle of the frames: dark up to the first, and after a gap of the page again.
    const data = strip?.getContext("2d")?.getImageData(0, 20 * ratio, 6 * ratio, 1).data ?? [];
    return [...data].filter((_, i) => i % 4 === 3);
  });
  expect([seen[1], seen[4]]).toEqual([0, 255]);
});

test("a pixel is told by its colour and raw value, an index by its colour too; what is over the cap says so", async () => {
  await begin("dawn", "0");
  expect(await cell("aria-label")).toBe("row 0 column 0, #000010, raw 0x0002, line 4");
  await press("Control+End");
  expect(await cell("aria-label")).toBe("row 3 column 3, #ffff00, raw 0xFFE0, line 7, over the cap");
  await begin("seedling", "0");
  await press("ArrowDown", "ArrowRight");
  expect(await cell("aria-label")).toBe("row 1 column 1, index 3, #7b5100, line 12, frame 0");
  await begin("unnamed", "0");
  expect(await cell("aria-label")).toBe("row 0 column 0, index 1, line 23");
});

test("a colour over the cap has a corner cut off, one that is not written is hatched", async () => {
  await begin("dawn", "0");
  await press("a");
  // The last pixel is #ffff00, the one before is black, and not written is what is after them.
  expect(await colourAt(open, 3, 3, 0.3, 0.7)).toEqual([255, 255, 0]);
  expect(await colourAt(open, 3, 3, 0.9, 0.08)).not.toEqual([255, 255, 0]);
  expect(await open.page.locator(".meters dd").first().textContent()).toBe("255 of cap 127, over");
  await afresh(open, shownFrom(COLOUR_ART.replace(/0x0140, .*/, ""), "dawn"), "0");
  const across = new Set<string>();
  for (let i = 1; i < 20; i++) across.add(String(await colourAt(open, 1, 3, i / 20, 0.5)));
  expect(across.size).toBeGreaterThan(1);
  await press("Control+End");
  expect(await cell("aria-label")).toBe("row 3 column 3, #000000, raw 0x0000, not written");
  await press("a");
});

test("a colour is typed in any spelling, and what the format can hold of it is shown", async () => {
  await begin("dawn", "0");
  for (const [typed, shown] of [
    // Rounding to the nearest of 31, 63 and 31 steps.
    ["#123456", "#123456 → #103552 0x11AA"],
    ["#fff", "#ffffff 0xFFFF, over the cap"],
    ["0x1260", "#104d00 0x1260"],
    ["2570", "#084152 0x0A0A"],
    ["50% 25% 0%", "#844100 0x8200, over the cap"],
    ["25%", "#424142 0x4208"],
  ] as const) {
    await field().fill(typed);
    await field().press("Enter");
    await settled(open);
    expect([typed, await told()]).toEqual([typed, shown]);
  }
  // Seen while it is typed, too.
  await field().fill("#abcdef");
  expect(await told()).toBe("#abcdef → #adceef 0xAE7D, over the cap");
  await field().fill("pink");
  await field().press("Enter");
  await until(async () => expect(await note()).toContain("“pink” is not a colour"));
  expect(await told()).toBe("#424142 0x4208");
  await open.page.locator("[role=gridcell]").focus();
  await press("#");
  expect(await field().evaluate((e) => e === document.activeElement)).toBe(true);
});

test("each channel has a ladder up to the cap and beyond, by keyboard and to screen readers", async () => {
  await begin("dawn", "0x0000");
  // rgb565 with a cap of 127: red and blue of 5 bits to 15, green of 6 to 31.
  const of = async (name: string) => (await group(name).locator(".value").allTextContents()).map(Number);
  const red = await of("Red");
  expect([red[0], red.at(-1), red.includes(15)]).toEqual([31, 0, true]);
  expect((await of("Green")).includes(31)).toBe(true);
  expect(await group("Blue").locator(".cap").count()).toBe(1);
  const over = await group("Green").locator(".rung.over .value").allTextContents();
  expect(over.every((value) => Number(value) > 31)).toBe(true);
  expect(await checked("Red")).toBe("Red 0 of 31");
  await group("Red").locator("[aria-checked=true]").focus();
  await press("ArrowUp", "ArrowRight", "ArrowUp", "ArrowDown");
  const third = red.at(-3);
  expect(await checked("Red")).toBe(`Red ${third} of 31`);
  expect(await open.page.evaluate(() => document.activeElement?.getAttribute("aria-label"))).toBe(`Red ${third} of 31`);
  await group("Blue").locator("[data-value='15']").click();
  await until(async () => expect(await field().inputValue()).toMatch(/^#[\da-f]{2}007b$/));
  await drag(open, [[0, 0]]);
  await until(() => expect(sent()).toEqual([[`0: 0,0 2>${((third ?? 0) << 11) | 15}`]]));
});

test("colours in use can be taken, with their counts; [ and ] go through them, and Pick takes one", async () => {
  await begin("berries", "0xFF");
  const used = group("Colours in use");
  expect(await used.getByRole("radio").count()).toBe(8);
  // White first, black last.
  expect(await used.getByRole("radio").first().getAttribute("aria-label")).toBe("#ffffff, raw 0xFF, 1 pixel");
  await press("[");
  const second = await used.getByRole("radio").nth(1).getAttribute("data-value");
  expect(await used.locator("[aria-checked=true]").getAttribute("data-value")).toBe(second);
  await press("]", "p", "Control+End", "Space");
  await until(async () => expect(await told()).toBe("#00ff00 0x1C"));
  expect(await note()).toBe("#00ff00 picked");
});

test("a palette is a list with index, swatch, colour and count; an index is painted", async () => {
  await begin("seedling", "0");
  const entries = group("Colours of the palette").getByRole("radio");
  expect(await entries.allTextContents()).toEqual(["0#00000010", "1#0065002", "2#4a41002", "3#7b51002"]);
  expect(await entries.nth(1).getAttribute("aria-label")).toBe("index 1, #006500, 2 pixels");
  await entries.nth(2).click();
  await drag(open, [[0, 0]]);
  await until(() => expect(sent()).toEqual([["0: 0,0 0>2"]]));
  await open.page.locator("[role=gridcell]").focus();
  await press("]", "]", "[");
  expect(await checked("Colours of the palette")).toBe("index 2, #4a4100, 3 pixels");
  // The nearest colour of the palette to one that is typed.
  await setLevel(open, "#ff8800");
  await until(async () => expect(await told()).toBe("#ff8800 → 3 #7b5100"));
  await setLevel(open, "7");
  await until(async () => expect(await note()).toBe("7 is above 3, the highest value"));
});

test("the colour of an index is changed in the palette, for every bitmap that has it", async () => {
  await begin("seedling", "3");
  const colour = open.page.getByRole("textbox", { name: "Colour of index 3 in seedling_colours" });
  expect(await colour.inputValue()).toBe("#7b5100");
  expect(await open.page.locator(".recolour p").last().textContent()).toBe("in seedling_colours, so of sprout too");
  const { identity } = open.shown.bitmap;
  const { version } = open.shown;
  await colour.fill("#123456");
  // Told while it is typed, written only after it.
  expect(await open.page.locator(".recolour p").first().textContent()).toBe("#123456 → #103552 0x11AA");
  expect(open.recolours).toEqual([]);
  await colour.press("Enter");
  await until(() => expect(open.recolours).toHaveLength(1));
  // Nearest in rgb565: 2, 13 and 10 of 31, 63 and 31.
  expect(open.recolours[0]).toEqual({ version, identity, index: 3, value: 0x11aa, before: 0x7a80 });
  await until(async () => expect(await colour.inputValue()).toBe("#103552"));
  expect(await note()).toBe("Colour 3 of seedling_colours: #123456 → #103552 0x11AA");
  // Drawn at once, twice as bright as the cap of half allows.
  await press("Escape");
  await until(async () =>
    expect(await colourAt(open, 1, 1)).toEqual([0x10, 0x35, 0x52].map((c) => Math.round((c * 255) / 127))),
  );
  expect(open.paints).toEqual([]);
});

test("a colour that is refused is told in words, and the field shows the palette's again", async () => {
  await begin("seedling", "1");
  open.recolour = () => Promise.reject(new Error("colour 1 of seedling_colours was changed meanwhile"));
  const colour = open.page.getByRole("textbox", { name: "Colour of index 1" });
  await colour.fill("0xF800");
  await colour.press("Enter");
  await until(async () =>
    expect(await note()).toBe("Not recoloured: colour 1 of seedling_colours was changed meanwhile"),
  );
  expect(await colour.inputValue()).toBe("#006500");
});

test("without a palette, or with one that can’t be written, the reason stands in place of the colour", async () => {
  await begin("unnamed", "1");
  const why = open.page.locator(".recolour p").last();
  expect(await why.textContent()).toBe("No palette in this file: indices are shown as greys.");
  const shown = art("seedling");
  const { paletteArray } = shown.bitmap;
  if (!paletteArray) throw new Error("the seedling has a palette");
  const fixed = { ...paletteArray, fixed: "a macro makes all of its elements" };
  await afresh(open, { ...shown, bitmap: { ...shown.bitmap, paletteArray: fixed } }, "1");
  expect(await why.textContent()).toBe("seedling_colours can’t be written: a macro makes all of its elements");
  expect(await open.page.locator(".recolour input").isVisible()).toBe(false);
});

test("one colour is replaced by another everywhere as one stroke, by keyboard", async () => {
  await begin("seedling", "2");
  // Row 1 column 1 has index 3.
  await press("ArrowDown", "ArrowRight", "x");
  await until(async () => expect(await button(/this frame/).textContent()).toBe("this frame ×2"));
  expect(await button(/all frames/).textContent()).toBe("all frames ×5");
  expect(await open.page.evaluate(() => document.activeElement?.tagName)).toBe("SELECT");
  await press("Tab", "Tab", "Enter");
  await until(() => expect(open.paints).toHaveLength(1));
  const changes = open.paints[0]?.changes ?? [];
  const wanted = art("seedling").frames.flatMap((pixels, frame) =>
    pixels.flatMap((value, i) => (value === 3 ? [`${frame} ${i % 4},${Math.floor(i / 4)} 3>2`] : [])),
  );
  expect(changes.map(({ frame, x, y, before, value }) => `${frame} ${x},${y} ${before}>${value}`)).toEqual(wanted);
  expect(new Set(changes.map(({ frame }) => frame))).toEqual(new Set([0, 1]));
  await until(async () => expect(await note()).toBe(`${changes.length} pixels: index 3 replaced by index 2`));
  // Closed again, and the grid has the focus back.
  expect(await open.page.locator(".replacing").isVisible()).toBe(false);
  expect(await open.page.evaluate(() => document.activeElement?.getAttribute("role"))).toBe("gridcell");
});

test("a level is replaced in one frame or in all; Escape closes, and one bit has nothing to replace", async () => {
  await afresh(open, falling(), "20");
  await press("x");
  const select = open.page.getByRole("combobox", { name: "Value to replace" });
  await select.selectOption("64");
  await until(async () => expect(await button(/this frame/).textContent()).toMatch(/^this frame ×\d+$/));
  await button(/this frame/).click();
  await until(() => expect(open.paints).toHaveLength(1));
  const [paint] = open.paints;
  expect(new Set(paint?.changes.map(({ frame, before, value }) => `${frame} ${before}>${value}`))).toEqual(
    new Set(["0 64>20"]),
  );
  await open.page.locator("[role=gridcell]").focus();
  await press("x", "Escape");
  expect(await open.page.locator(".replacing").isVisible()).toBe(false);
  await afresh(open, mono(16, 8));
  await press("x");
  expect(await open.page.locator(".exact").isVisible()).toBe(false);
});

test("with pixels selected the words count those alone, and only they are replaced", async () => {
  await begin("seedling", "2");
  await press("ArrowDown", "ArrowRight");
  // The whole of row 1 from column 1 on.
  await press("Shift+ArrowRight", "Shift+ArrowRight", "x");
  const row = open.page.locator(".replacing");
  await open.page.getByText("in the selection:").waitFor();
  await open.page.getByRole("combobox", { name: "Value to replace" }).selectOption("3");
  const own = (art("seedling").frames[0] ?? []).slice(5, 8).filter((value) => value === 3).length;
  await until(async () => expect(await button(/this frame/).textContent()).toBe(`this frame ×${own}`));
  await button(/this frame/).click();
  await until(() => expect(open.paints).toHaveLength(1));
  expect(open.paints[0]?.changes.map(({ frame, x, y }) => `${frame} ${x},${y}`)).toEqual(
    [1, 2, 3].filter((x) => art("seedling").frames[0]?.[4 + x] === 3).map((x) => `0 ${x},1`),
  );
  await until(async () => expect(await note()).toContain("of the selection: index 3 replaced by index 2"));
  await open.page.locator("[role=gridcell]").focus();
  await press("Escape", "x");
  await until(async () => expect(await row.isVisible()).toBe(true));
  expect(await open.page.getByText("in the selection:").isVisible()).toBe(false);
});

test("a refused replacement is taken off every frame again", async () => {
  await begin("seedling", "2");
  open.answer = () => Promise.reject(new Error("the file changed"));
  const before = await colourAt(open, 1, 1);
  await press("ArrowDown", "ArrowRight", "x");
  await button(/all frames/).click();
  await until(async () => expect(await note()).toBe("Not painted: the file changed"));
  expect(await colourAt(open, 1, 1)).toEqual(before);
  await press("PageDown");
  expect(await colourAt(open, 1, 1)).toEqual(before);
});

test("the value is kept while the page is hidden, but not for a bitmap of another format", async () => {
  await begin("dawn", "0x7A80");
  const kept = await open.kept();
  expect(kept).toMatchObject({ level: 0x7a80, format: "rgb565" });
  const back = await openPage(browser, code, art("dawn"), { kept });
  expect(await back.page.locator(".told").textContent()).toBe("#7b5100 0x7A80");
  await back.close();
  const other = await openPage(browser, code, drop(), { kept });
  expect(await other.page.locator(".exact > input").inputValue()).toBe("64");
  await other.close();
});

test("a document that can’t be changed offers neither replacing nor another colour", async () => {
  const shown = art("seedling");
  await afresh(open, { ...shown, readOnly: true }, "1");
  expect(await button("Exchange").isDisabled()).toBe(true);
  expect(await open.page.locator(".recolour input").isDisabled()).toBe(true);
  await press("x");
  expect(await button(/all frames/).isDisabled()).toBe(true);
  await press("Escape");
});

test("the page never broke its content security policy nor threw", () => {
  expect(open.errors).toEqual([]);
});
