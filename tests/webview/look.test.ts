/** How the page looks in four themes and several widths; the screenshots go to tests/out for a person to look at. */
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import type { Shown } from "../../shared/protocol/webview.ts";
import { faintWords, overflow } from "../support/faint.ts";
import {
  afresh,
  bundle,
  type Code,
  changeTheme,
  colourAt,
  launch,
  type Opened,
  openPage,
  settled,
} from "../support/page.ts";
import {
  COLOUR_STATES,
  LEVEL_STATES,
  leaveState,
  SELECTION_STATES,
  type State,
  showState,
} from "../support/pageStates.ts";
import { drop, falling, faultyDrop, glyphs, mono } from "../support/pictures.ts";
import type { ThemeName } from "../support/themes.ts";

let browser: Browser;
let code: Code;
let open: Opened;
beforeAll(async () => {
  [browser, code] = await Promise.all([launch(), bundle()]);
  open = await openPage(browser, code, drop());
});
afterAll(() => browser.close());

async function look(shown: Shown, theme: ThemeName, width: number): Promise<void> {
  await changeTheme(open, theme);
  await open.page.setViewportSize({ width, height: 900 });
  await afresh(open, shown);
}

const LOOKS = (["dark", "light", "contrast", "contrastLight"] as const).flatMap((theme) =>
  [320, 700].map((width) => [theme, width] as const),
);

test.each<State>([...LEVEL_STATES, ...SELECTION_STATES])(
  "%s, in every theme, narrow and wide: nothing is wider than the page or too faint to read",
  async (...state) => {
    await changeTheme(open, "dark");
    await open.page.setViewportSize({ width: 700, height: 900 });
    await showState(open, state);
    for (const [theme, width] of LOOKS) {
      await changeTheme(open, theme);
      await open.page.setViewportSize({ width, height: 900 });
      await settled(open);
      expect([theme, width, await overflow(open)]).toEqual([theme, width, []]);
      expect([theme, await faintWords(open)]).toEqual([theme, []]);
      await open.screenshot(`${state[0]}-${theme}-${width}`);
    }
    await leaveState(open);
  },
);

test("the brightest level within the cap has the panel's own colour, in a high-contrast theme the foreground", async () => {
  // #ffb84d over a face that is nearly black: no channel is off by more than the face's own light.
  await look(drop(), "dark", 420);
  const [r = 0, g = 0, b = 0] = await colourAt(open, 4, 2);
  expect([r, Math.abs(g - 0xb8) < 4, Math.abs(b - 0x4d) < 4]).toEqual([255, true, true]);
  await changeTheme(open, "contrast");
  expect(await colourAt(open, 4, 2)).toEqual([255, 255, 255]);
  expect(await colourAt(open, 0, 0)).toEqual([0, 0, 0]);
});

test("half the light of the cap is shown as half the light, not as half the code value", async () => {
  // IEC 61966-2-1: linear .5 is code 188. White tint; the face adds a little.
  const shown = drop();
  const frames = [shown.frames[0]?.map((value) => (value === 42 ? 32 : value)) ?? []];
  const { tint: _, ...bitmap } = shown.bitmap;
  await look({ ...shown, frames, bitmap }, "dark", 420);
  const [r = 0] = await colourAt(open, 4, 1);
  expect(Math.abs(r - 188)).toBeLessThanOrEqual(3);
});

test("pixels over the cap have a corner cut off, pixels that are not written are hatched, both also without colour", async () => {
  await look(faultyDrop(), "contrast", 420);
  // Pixel 4,2 is over the cap: its square is filled but for the upper right corner.
  expect(await colourAt(open, 4, 2, 0.3, 0.7)).toEqual([255, 255, 255]);
  expect(await colourAt(open, 4, 2, 0.85, 0.12)).toEqual([0, 0, 0]);
  // Pixel 4,4 is at the cap: a dot, whose corners are all dark.
  expect(await colourAt(open, 4, 4, 0.1, 0.9)).toEqual([0, 0, 0]);
  // As cells, which have nothing else inside.
  await open.page.keyboard.press("a");
  const row = async (y: number) => {
    const colours = new Set<string>();
    for (let i = 2; i < 7; i++) colours.add(String(await colourAt(open, 8, y, i / 11, 0.5)));
    return colours.size;
  };
  expect([await row(8), await row(0)].map((n) => n > 1)).toEqual([true, false]);
  await open.page.keyboard.press("a");
});

test("what lies over the cap is told in words at the cap, and each finding where it is", async () => {
  await look(faultyDrop(), "light", 420);
  const { page } = open;
  expect(await page.locator(".cap").textContent()).toBe("cap 64 · 2 over");
  expect(await page.locator(".meters dd").first().textContent()).toBe("200 of cap 64, over");
  expect(
    await page.getByRole("list", { name: "Findings", exact: true }).getByRole("listitem").allTextContents(),
  ).toEqual(["information tint is given twice: the second one counts."]);
  const placed = page.getByRole("list", { name: "Findings in the picture" });
  expect(await placed.getByRole("listitem").allTextContents()).toEqual([
    "end of the array warning 72 elements are written, 81 are needed: the last 9 are 0.",
    "line 16 warning Pixel 4,2 is 200, over the cap of 64.",
    "line 17 warning Pixel 4,3 is 90, over the cap of 64.",
  ]);
  expect(await page.locator(".rung.over").count()).toBe(5);
});

describe("at 200 % zoom, a column of half as many CSS pixels", () => {
  let zoomed: Opened;
  beforeAll(async () => {
    zoomed = await openPage(browser, code, drop(), { width: 210, height: 450, ratio: 2 });
  });
  afterAll(() => zoomed.close());

  test.each<State>([...LEVEL_STATES, ...SELECTION_STATES, ...COLOUR_STATES])(
    "%s: nothing is cut off or wider than the page",
    async (...state) => {
      await zoomed.page.setViewportSize({ width: 350, height: 450 });
      await showState(zoomed, state);
      for (const width of [350, 280, 210]) {
        await zoomed.page.setViewportSize({ width, height: 450 });
        await settled(zoomed);
        expect([width, await overflow(zoomed)]).toEqual([width, []]);
      }
      await zoomed.screenshot(`zoomed-${state[0]}`);
      await leaveState(zoomed);
    },
  );

  test("what just happened is in view on a page that is longer than the window", async () => {
    await showState(zoomed, LEVEL_STATES.find(([name]) => name === "refused") as State);
    const { y = 0, height = 999 } = (await zoomed.page.locator(".note").boundingBox()) ?? {};
    const tall = await zoomed.page.evaluate(() => document.documentElement.scrollHeight);
    expect([tall > 450, y > 0, y + height <= 450]).toEqual([true, true, true]);
    await leaveState(zoomed);
    expect(zoomed.errors).toEqual([]);
  });
});

test("nothing under the picture moves while the pointer runs over pixels, rows and columns", async () => {
  const { page } = open;
  for (const [shown, width] of [
    [drop(), 320],
    [falling(), 320],
    [mono(128, 64), 420],
    [glyphs(), 320],
  ] as const) {
    await look(shown, "dark", width);
    const place = () => page.locator(".options").evaluate((element) => element.getBoundingClientRect().y);
    const places = new Set<number>();
    const words = new Set<string | null>();
    const box = (await page.locator(".pane").boundingBox()) as { x: number; y: number; width: number; height: number };
    for (const [fx, fy] of [
      [0.5, 0.5],
      [0.8, 0.8],
      [0.5, 0.3],
      [0.01, 0.5],
      [0.99, 0.99],
      [0.5, 0.01],
    ] as const) {
      await page.mouse.move(box.x + fx * box.width, box.y + fy * box.height);
      await settled(open);
      places.add(await place());
      words.add(await page.locator(".readout").textContent());
    }
    expect([shown.bitmap.name, places.size, words.size > 2]).toEqual([shown.bitmap.name, 1, true]);
  }
  await page.mouse.move(0, 0);
});

test("why the picture is as it last was comes into view and moves nothing", async () => {
  const { page } = open;
  await look(drop(), "dark", 320);
  const places = () =>
    page.locator(".page > *").evaluateAll((all) => all.map((element) => element.getBoundingClientRect().y));
  const before = await places();
  await open.rpc.call("nothing", { why: "drop_icon: a number is missing before the comma on line 17." });
  await settled(open);
  const why = await page.locator(".why").boundingBox();
  expect(why && why.y + why.height <= 900).toBe(true);
  expect(await places()).toEqual(before);
});

test("a file that is only read shows the tools that change nothing, and no options", async () => {
  await look(drop({ readOnly: true }), "dark", 320);
  const tools = open.page.getByRole("group", { name: "Tools" }).getByRole("button");
  expect(await tools.filter({ visible: true }).allTextContents()).toEqual(["Select", "Pick"]);
  expect(await open.page.locator(".options").isVisible()).toBe(false);
});

test("the frame at hand is in view on the strip in any width of the page", async () => {
  await look(glyphs(), "dark", 700);
  const { page } = open;
  await page.locator(".strip").focus();
  await page.keyboard.press("End");
  for (const width of [700, 320, 420]) {
    await page.setViewportSize({ width, height: 900 });
    await settled(open);
    const hidden = await page
      .locator(".strip")
      .evaluate(
        (strip) =>
          strip.getBoundingClientRect().right - (strip.closest(".scroll") ?? strip).getBoundingClientRect().right,
      );
    expect([width, Math.round(hidden)]).toEqual([width, 0]);
  }
});

test("the page never broke its content security policy nor threw", () => {
  expect(open.errors).toEqual([]);
});
