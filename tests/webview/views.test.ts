/** The picture as lit and as cells, turned and in every size: what is hit, moved and seen must agree. */
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, beforeEach, expect, test } from "vitest";
import {
  afresh,
  bundle,
  type Code,
  centreOf,
  colourAt,
  drag,
  launch,
  type Opened,
  openPage,
  settled,
} from "../support/page.ts";
import { drop, dropOn, falling, faultyDrop, glyphs, mono, wedge } from "../support/pictures.ts";
import { until } from "../support/until.ts";

let browser: Browser;
let code: Code;
let open: Opened;
beforeAll(async () => {
  [browser, code] = await Promise.all([launch(), bundle()]);
  open = await openPage(browser, code, drop());
});
afterAll(() => browser.close());
beforeEach(async () => {
  await open.page.setViewportSize({ width: 420, height: 900 });
  await afresh(open, drop());
  await word("As lit").click();
  await word("Fit").click();
  await open.page.locator("[role=gridcell]").focus();
});

const word = (name: string) => open.page.getByRole("button", { name, exact: true });
const cell = (name: string) => open.page.locator("[role=gridcell]").getAttribute(name);
const sent = () => open.paints.map(({ changes }) => changes.map(({ x, y }) => `${x},${y}`).join(" "));
/** Presses keys, until what they change is drawn. */
const press = async (...keys: string[]) => {
  for (const key of keys) await open.page.keyboard.press(key);
  await settled(open);
};
/** The side of a pixel, by the cursor. */
const side = async () => open.page.evaluate(() => document.querySelector<HTMLElement>(".cursor")?.offsetWidth ?? 0);

test("levels are drawn as seen, or in proportion to the duty, and that is kept", async () => {
  // 15 of the cap of 64 in the tint #ffb84d: a fourth of the duty, which looks like half of the light.
  await word("As cells").click();
  await settled(open);
  const seen = await colourAt(open, 4, 0);
  await press("Shift+A");
  expect(await word("As driven").getAttribute("aria-pressed")).toBe("true");
  const driven = await colourAt(open, 4, 0);
  const [red, green, blue] = [255, 0xb8, 0x4d].map((channel) => Math.round((15 / 64) * channel));
  expect(driven.slice(0, 3)).toEqual([red, green, blue]);
  // Linear light 15/64 is code 133 of red (IEC 61966-2-1).
  expect(seen[0]).toBe(133);
  const again = await openPage(browser, code, drop(), { kept: await open.kept() });
  expect(await again.page.getByRole("button", { name: "As driven" }).getAttribute("aria-pressed")).toBe("true");
  await again.close();
  await word("As seen").click();
  await settled(open);
  expect(await colourAt(open, 4, 0)).toEqual(seen);
});

test("a picture of one bit looks alike either way", async () => {
  await afresh(open, mono(8, 4));
  expect(await word("As driven").isVisible()).toBe(false);
});

test("a diamond lattice is drawn, hit and marked on its corner; as cells it stands upright, and that is kept", async () => {
  const [lit, dark] = [await colourAt(open, 4, 2), await colourAt(open, 0, 8)];
  expect(lit).not.toEqual(dark);
  await drag(open, [[0, 8]]);
  await until(() => expect(sent()).toEqual(["0,8"]));
  expect(await colourAt(open, 0, 8)).toEqual(lit);
  // A lamp is round: the corner of its pixel stays dark.
  expect(await colourAt(open, 0, 8, 0.08, 0.08)).toEqual(await colourAt(open, 8, 8, 0.08, 0.08));
  const middle = await centreOf(open, 0, 8);
  const box = await open.page.locator("[role=gridcell]").boundingBox();
  expect(Math.abs((box?.x ?? 0) + (box?.width ?? 0) / 2 - middle.x)).toBeLessThan(1);
  expect(Math.abs((box?.y ?? 0) + (box?.height ?? 0) / 2 - middle.y)).toBeLessThan(1);
  await press("a");
  await until(async () => expect(await word("As cells").getAttribute("aria-pressed")).toBe("true"));
  await drag(open, [[8, 0]]);
  await until(() => expect(sent()).toEqual(["0,8", "8,0"]));
  expect(await colourAt(open, 8, 0, 0.08, 0.08)).toEqual(lit);
  expect(await open.kept()).toMatchObject({ view: "cells" });
  const again = await openPage(browser, code, drop(), { kept: await open.kept() });
  const kept = again.page.getByRole("button", { name: "As cells" });
  expect(await kept.getAttribute("aria-pressed")).toBe("true");
  await again.close();
});

test("beside a diamond nothing is hit", async () => {
  const box = await open.page.locator("[role=grid]").boundingBox();
  await open.page.mouse.click((box?.x ?? 0) + 5, (box?.y ?? 0) + 5);
  await settled(open);
  expect(open.paints).toEqual([]);
});

test.each([
  [90, "round"],
  [180, "square"],
  [270, "round"],
] as const)("mounted at %i° with %s lamps, arrows go where they point and rows are those seen", async (mount, dot) => {
  await afresh(open, wedge({ mount, dot }), "20");
  const here = async () => {
    const box = await open.page.locator("[role=gridcell]").boundingBox();
    return { x: box?.x ?? 0, y: box?.y ?? 0 };
  };
  const start = await here();
  await press("ArrowRight");
  const right = await here();
  await press("ArrowDown");
  const down = await here();
  expect([right.x > start.x, right.y - start.y, down.x - right.x, down.y > right.y]).toEqual([true, 0, 0, true]);
  expect([await cell("aria-colindex"), await open.page.locator("[role=row]").getAttribute("aria-rowindex")]).toEqual([
    "2",
    "2",
  ]);
  const sizes = { 90: ["6", "4"], 180: ["4", "6"], 270: ["6", "4"] }[mount];
  const grid = open.page.locator("[role=grid]");
  expect([await grid.getAttribute("aria-rowcount"), await grid.getAttribute("aria-colcount")]).toEqual(sizes);
  await drag(open, [[5, 3]]);
  await until(() => expect(sent()).toEqual(["5,3"]));
  // A square lamp reaches further to its corners than a round one.
  const corner = await colourAt(open, 5, 3, 0.2, 0.2);
  expect(String(corner) === String(await colourAt(open, 5, 3))).toBe(dot === "square");
});

test("Closer, Farther and Fit, keys and the wheel with Ctrl change the size and nothing else", async () => {
  await press("a");
  await settled(open);
  const fitted = await side();
  await press("+");
  await until(async () => expect(await side()).toBeGreaterThan(fitted));
  expect(await word("Fit").getAttribute("aria-pressed")).toBe("false");
  await word("Farther").click();
  await word("Farther").click();
  await until(async () => expect(await side()).toBeLessThan(fitted));
  await until(async () => expect(await open.kept()).toMatchObject({ zoom: await side() }));
  await open.page.locator("[role=gridcell]").focus();
  await press("0");
  await until(async () => expect(await side()).toBe(fitted));
  const at = await centreOf(open, 6, 6);
  await open.page.mouse.move(at.x, at.y);
  await open.page.keyboard.down("Control");
  for (let i = 0; i < 4; i++) await open.page.mouse.wheel(0, -100);
  await open.page.keyboard.up("Control");
  await until(async () => expect(await side()).toBeGreaterThan(40));
  // The column that was under the pointer still is; upwards there is nothing to scroll.
  await open.page.mouse.move(at.x, at.y + 1);
  await until(async () => expect(await open.page.locator(".readout").textContent()).toContain("column 6,"));
  expect(open.paints).toEqual([]);
});

test.each([
  [128, 64, 300],
  [128, 32, 320],
  [320, 240, 300],
])(
  "%i×%i in a page of %i pixels: only the grid scrolls, the rulers stay, and the cursor comes into view",
  async (columns, rows, width) => {
    await open.page.setViewportSize({ width, height: 900 });
    await afresh(open, mono(columns, rows));
    const { page } = open;
    const overflow = await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
    expect([overflow <= 0, await side()]).toEqual([true, 2]);
    const scrolled = () => page.evaluate(() => document.querySelector(".pane")?.scrollLeft ?? 0);
    expect(await scrolled()).toBe(0);
    const canvas = page.locator(".sheet canvas");
    const before = await canvas.boundingBox();
    await press("Control+End");
    await until(async () => expect(await scrolled()).toBeGreaterThan(0));
    await settled(open);
    const [after, pane] = [await canvas.boundingBox(), await page.locator(".pane").boundingBox()];
    expect([after?.x, after?.width]).toEqual([before?.x, before?.width]);
    const cursor = await page.locator("[role=gridcell]").boundingBox();
    // Left of the right ruler, and above the lower one.
    expect((cursor?.x ?? 0) + 2).toBeLessThanOrEqual((pane?.x ?? 0) + (pane?.width ?? 0) - 26);
    expect(await colourAt(open, columns - 1, rows - 1)).not.toEqual(await colourAt(open, columns - 2, rows - 2));
    await page.mouse.move((pane?.x ?? 0) + (pane?.width ?? 0) - 10, (cursor?.y ?? 0) + 1);
    await until(async () => expect(await page.locator(".readout").textContent()).toContain(`row ${rows - 1}, line`));
    // At the far end a click hits what is seen there.
    await press("e");
    await drag(open, [[columns - 1, rows - 1]]);
    await until(() => expect(sent()).toEqual([`${columns - 1},${rows - 1}`]));
  },
);

test("on a screen of two device pixels to one, 128 columns fit 300 pixels", async () => {
  const fine = await openPage(browser, code, mono(128, 64), { width: 300, ratio: 2 });
  const pane = await fine.page.evaluate(() => {
    const element = document.querySelector(".pane");
    return element ? element.scrollWidth - element.clientWidth : undefined;
  });
  expect(pane).toBe(0);
  await fine.close();
});

test("a row with findings is marked on its ruler, told there in words and to screen readers, and found from the list", async () => {
  await press("a");
  await open.show({ ...faultyDrop(), version: open.shown.version + 1 });
  await settled(open);
  const { page } = open;
  const pane = await page.locator(".pane").boundingBox();
  const row = async (y: number) => (await centreOf(open, 0, y)).y;
  /** Colours in the part of the left ruler where markers are. */
  const marks = async (y: number) => {
    const at = (await row(y)) - (pane?.y ?? 0);
    return page.evaluate((top) => {
      const canvas = document.querySelector<HTMLCanvasElement>(".sheet canvas");
      const data = canvas?.getContext("2d")?.getImageData(27, Math.round(top) - 3, 7, 6).data ?? [];
      return new Set(Array.from({ length: 42 }, (_, i) => [...data.slice(i * 4, i * 4 + 3)].join())).size;
    }, at);
  };
  expect([(await marks(2)) > 1, (await marks(5)) > 1]).toEqual([true, false]);
  await page.mouse.move((pane?.x ?? 0) + 12, await row(2));
  const words = "row 2, line 16, light 11 % of full; warning: Pixel 4,2 is 200, over the cap of 64.";
  await until(async () => expect(await page.locator(".readout").textContent()).toBe(words));
  expect(await page.locator(".sheet").getAttribute("title")).toBe("warning: Pixel 4,2 is 200, over the cap of 64.");
  await page.getByRole("button", { name: "line 17 warning" }).click();
  await until(async () =>
    expect(await cell("aria-label")).toBe(
      "row 3 column 4, level 90 of 255, line 17, over the cap; warning: Pixel 4,3 is 90, over the cap of 64.",
    ),
  );
  expect(await page.locator(".rung.found .value").allTextContents()).toEqual(["194", "88"]);
});

test("findings of frames are told at the strip, and each frame tells how many it has", async () => {
  const findings = [
    { severity: "warning", message: "It flashes.", place: { on: "frame", frame: 3 } },
    { severity: "error", message: "Too large.", place: { on: "pixels", frame: 3, pixels: [4] } },
  ] as const;
  await afresh(open, falling({}, { findings }));
  const list = open.page.getByRole("list", { name: "Findings about frames" });
  expect(await list.getByRole("listitem").allTextContents()).toEqual(["frame 3 warning It flashes."]);
  await press("PageDown", "PageDown", "PageDown");
  const strip = open.page.getByRole("slider", { name: "Frame" });
  await until(async () =>
    expect(await strip.getAttribute("aria-valuetext")).toBe("frame 3 of 0–5, 0.15 s, 2 findings"),
  );
  expect(await open.page.getByRole("button", { name: "Too large." }).count()).toBe(1);
});

/** Where the brightest spot of the second of two small pictures is: shares of its width and height. */
const brightestOfSecond = () =>
  open.page.locator(".strip").evaluate((element) => {
    const canvas = element as HTMLCanvasElement;
    // Five pixels around each picture, and sixteen for the time scale.
    const step = (canvas.width - 5) / 2;
    const [wide, high] = [step - 5, canvas.height - 26];
    const { data } = canvas.getContext("2d")?.getImageData(5 + step, 5, wide, high) ?? { data: [] };
    const light = Array.from({ length: wide * high }, (_, i) => Number(data[i * 4]) + Number(data[i * 4 + 1]));
    const spot = light.flatMap((l, i) => (l > Math.max(...light) * 0.9 ? [i] : []));
    const mean = (of: (i: number) => number) => spot.reduce((sum, i) => sum + of(i) + 0.5, 0) / spot.length;
    return { x: mean((i) => i % wide) / wide, y: mean((i) => Math.floor(i / wide)) / high };
  });

test.each([
  // The pixel at the right end of the first row, turned clockwise.
  [{ mount: 0 }, 5.5 / 6, 0.5 / 4],
  [{ mount: 90 }, 1 - 0.5 / 4, 5.5 / 6],
  [{ mount: 180 }, 0.5 / 6, 1 - 0.5 / 4],
  [{ mount: 270 }, 0.5 / 4, 0.5 / 6],
  // On its corner, columns run down to the right and rows down to the left.
  [{ mount: 0, lattice: "diamond" }, 9 / 10, 6 / 10],
  [{ mount: 90, lattice: "diamond" }, 1 - 6 / 10, 9 / 10],
] as const)("the small pictures are turned as the large one is: %o", async (panel, x, y) => {
  const one = wedge(panel);
  const pixels = Array.from({ length: 24 }, (_, i) => (i === 5 ? 23 : 0));
  const [lines = []] = one.rowLines;
  const two = { frames: [pixels, pixels], rowLines: [lines, lines], unwritten: [[], []] };
  await afresh(open, { ...one, ...two, bitmap: { ...one.bitmap, frames: 2 } }, "20");
  const lit = await brightestOfSecond();
  expect([lit.x, lit.y]).toEqual([expect.closeTo(x, 1), expect.closeTo(y, 1)]);
  await press("a");
  await until(async () => expect(await word("As cells").getAttribute("aria-pressed")).toBe("true"));
  await settled(open);
  const upright = await brightestOfSecond();
  expect([upright.x, upright.y]).toEqual([expect.closeTo(5.5 / 6, 1), expect.closeTo(0.5 / 4, 1)]);
});

test("the strip scrolls to the frame at hand when that is another, and else stays where it was scrolled to", async () => {
  await afresh(open, glyphs());
  const strip = open.page.getByRole("slider", { name: "Frame" });
  /** How far the strip is scrolled, and how much of it is seen. */
  const seen = (at = open) =>
    at.page.evaluate(() => {
      const { scrollLeft = 0, clientWidth = 0, scrollWidth = 0 } = document.querySelector(".frames .scroll") ?? {};
      return { from: scrollLeft, to: scrollLeft + clientWidth, all: scrollWidth };
    });
  const { from, to, all } = await seen();
  expect([from, to < all / 4]).toEqual([0, true]);
  await strip.press("End");
  await until(async () => expect((await seen()).to).toBeGreaterThan(all - 1));
  await strip.press("ArrowLeft");
  await settled(open);
  expect((await seen()).to).toBeGreaterThan(all - 1);
  await strip.evaluate((e) => e.parentElement?.scrollTo(100, 0));
  await open.page.locator("[role=gridcell]").focus();
  // The last column of every glyph is dark.
  await press("End", "Space");
  await until(() => expect(open.paints[0]?.changes[0]).toMatchObject({ frame: 94 }));
  await settled(open);
  expect((await seen()).from).toBe(100);
  await strip.press("Home");
  await until(async () => expect((await seen()).from).toBe(0));
  const kept = { tool: "draw", level: 1, frame: 48, view: "lit", identity: open.shown.bitmap.identity };
  const again = await openPage(browser, code, glyphs(), { kept });
  await until(async () => expect((await seen(again)).to).toBeGreaterThanOrEqual(Math.floor((all * 49) / 96)));
  expect((await seen(again)).from).toBeLessThanOrEqual(Math.ceil((all * 48) / 96));
  await again.close();
});

test("lamps without a lattice stand upright and are round unless the panel says otherwise", async () => {
  await afresh(open, dropOn({ lattice: "square" }));
  expect(await colourAt(open, 4, 2, 0.1, 0.1)).not.toEqual(await colourAt(open, 4, 2));
});

test("the page never broke its content security policy nor threw", () => {
  expect(open.errors).toEqual([]);
});
