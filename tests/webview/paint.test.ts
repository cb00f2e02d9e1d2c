/** Painting with the pointer and the keyboard, and what is sent for it. */
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, beforeEach, expect, test } from "vitest";
import {
  afresh,
  bundle,
  type Code,
  centreOf,
  colourAt,
  drag,
  edits,
  launch,
  type Opened,
  openPage,
  painted,
  setLevel,
  settled,
} from "../support/page.ts";
import { drop, mono } from "../support/pictures.ts";
import { until } from "../support/until.ts";

let browser: Browser;
let code: Code;
let open: Opened;
beforeAll(async () => {
  [browser, code] = await Promise.all([launch(), bundle()]);
  open = await openPage(browser, code, drop());
});
afterAll(() => browser.close());
beforeEach(() => afresh(open, drop()));

/** The strokes so far as `x,y before>value`. */
const sent = () =>
  open.paints.map(({ changes }) => changes.map(({ x, y, before, value }) => `${x},${y} ${before}>${value}`));
const note = () => open.page.locator(".note").textContent();
const press = async (...keys: string[]) => {
  for (const key of keys) await open.page.keyboard.press(key);
};

test("one pixel is one stroke with its value before, version and identity", async () => {
  const { version, bitmap } = open.shown;
  await drag(open, [[0, 0]]);
  await until(() => expect(open.paints).toHaveLength(1));
  expect(open.paints[0]).toEqual({
    version,
    identity: bitmap.identity,
    changes: [{ frame: 0, x: 0, y: 0, value: 64, before: 0 }],
  });
  expect(await colourAt(open, 0, 0)).toEqual(await colourAt(open, 4, 2));
});

test("drawing fills the gaps between where the pointer was seen, and leaves out pixels that have the value", async () => {
  await drag(open, [
    [0, 2],
    [5, 2],
  ]);
  await until(() => expect(sent()).toEqual([["0,2 0>64", "1,2 0>64", "2,2 0>64", "3,2 26>64", "5,2 26>64"]]));
});

test("a line is shown before release and sent after it", async () => {
  await press("l");
  await drag(
    open,
    [
      [0, 0],
      [4, 0],
      [2, 2],
    ],
    true,
  );
  expect(await colourAt(open, 1, 1)).toEqual(await colourAt(open, 4, 2));
  expect(open.paints).toEqual([]);
  await open.page.mouse.up();
  await until(() => expect(sent()).toEqual([["0,0 0>64", "1,1 0>64", "2,2 0>64"]]));
});

test("a box, and an eraser", async () => {
  await press("b");
  await drag(open, [
    [6, 0],
    [8, 2],
  ]);
  await until(() =>
    expect(sent()[0]?.sort()).toEqual([
      "6,0 0>64",
      "6,1 0>64",
      "6,2 0>64",
      "7,0 0>64",
      "7,2 0>64",
      "8,0 0>64",
      "8,1 0>64",
      "8,2 0>64",
    ]),
  );
  await press("e");
  await drag(open, [
    [4, 2],
    [4, 1],
  ]);
  await until(() => expect(sent()[1]).toEqual(["4,2 64>0", "4,1 42>0"]));
});

test("filling takes one region, picking takes its level and gives the tool back", async () => {
  await setLevel(open, "0x07");
  await press("f");
  await drag(open, [[3, 4]]);
  await until(() =>
    expect(sent()[0]?.sort()).toEqual([
      "2,5 64>7",
      "2,6 64>7",
      "3,3 64>7",
      "3,4 64>7",
      "3,5 64>7",
      "4,2 64>7",
      "4,3 64>7",
      "4,4 64>7",
    ]),
  );
  await press("p");
  await drag(open, [[4, 1]]);
  await until(async () => expect(await open.page.locator(".ladder input").inputValue()).toBe("42"));
  expect(await open.page.locator(".tool[aria-pressed=true]").textContent()).toBe("Fill");
  expect(open.paints).toHaveLength(1);
});

test("Escape drops a stroke: nothing is sent and the picture is as before", async () => {
  const dark = await colourAt(open, 8, 8);
  await drag(
    open,
    [
      [6, 0],
      [8, 0],
    ],
    true,
  );
  expect(await colourAt(open, 7, 0)).not.toEqual(dark);
  await press("Escape");
  await open.page.mouse.up();
  await settled(open);
  expect(await colourAt(open, 7, 0)).toEqual(dark);
  expect(open.paints).toEqual([]);
});

test("the keyboard alone draws pixels, a line between two presses, and steps the level", async () => {
  await press("ArrowRight", "Space", "ArrowDown", "Enter");
  await until(() => expect(sent()).toEqual([["1,0 0>64"], ["1,1 0>64"]]));
  await press("l", "Home", "Control+Home", "[", "Space", "ArrowDown", "ArrowDown", "ArrowDown", "Enter");
  await until(() => expect(sent()[2]).toEqual(["0,0 0>45", "0,1 0>45", "0,2 0>45", "0,3 0>45"]));
  await press("Control+End", "Space", "Home", "Escape");
  await settled(open);
  expect(open.paints).toHaveLength(3);
  expect(await open.page.locator("[role=gridcell]").getAttribute("aria-colindex")).toBe("1");
});

test("the pixel cursor has the keyboard from the start, and again where nothing else has it", async () => {
  const other = await openPage(browser, code, drop());
  const cursor = other.page.locator("[role=gridcell]");
  await other.page.locator("[role=gridcell]:focus").waitFor();
  await cursor.blur();
  await other.page.keyboard.press("ArrowRight");
  await other.page.locator("[role=gridcell][aria-colindex='2']:focus").waitFor();
  await other.close();
});

test("a typed level is taken by Enter, left by Escape, and the pixel cursor goes on; nonsense does not stay", async () => {
  const field = open.page.locator(".exact > input");
  const cursor = open.page.locator("[role=gridcell]:focus");
  await press("#");
  await open.page.keyboard.type("40");
  await press("Enter");
  await cursor.waitFor();
  await press("Space");
  await until(() => expect(sent()).toEqual([["0,0 0>40"]]));
  await press("#", "9", "Escape");
  await cursor.waitFor();
  expect(await field.inputValue()).toBe("40");
  await press("#", "x", "Enter");
  await until(async () => expect(await note()).toContain("x"));
  await open.page.locator("[role=gridcell]").focus();
  expect(await field.inputValue()).toBe("40");
});

test("a refused stroke is told in words and taken off the picture", async () => {
  open.answer = () => Promise.reject(new Error("drop_icon has changed its shape"));
  const dark = await colourAt(open, 8, 8);
  await drag(open, [[0, 0]]);
  await until(async () => expect(await note()).toBe("Not painted: drop_icon has changed its shape"));
  expect(await open.page.locator("[role=status]").count()).toBe(1);
  expect(await colourAt(open, 0, 0)).toEqual(dark);
});

test("strokes queue while a call is under way: in order, each with the newest shown version", async () => {
  const answers: (() => Promise<void>)[] = [];
  open.answer = (paint) =>
    new Promise((resolve) => {
      answers.push(async () => resolve(await edits(paint, open)));
    });
  const first = open.shown.version;
  await drag(open, [[0, 0]]);
  await drag(open, [[1, 0]]);
  await press("e");
  await drag(open, [[0, 0]]);
  await until(() => expect(answers).toHaveLength(1));
  await settled(open);
  expect(open.paints).toHaveLength(1);
  expect(await colourAt(open, 1, 0)).toEqual(await colourAt(open, 4, 2));
  for (let i = 0; i < 3; i++) {
    await until(() => expect(answers).toHaveLength(i + 1));
    await answers[i]?.();
  }
  expect(open.paints.map((p) => p.version)).toEqual([first, first + 1, first + 2]);
  expect(sent()).toEqual([["0,0 0>64"], ["1,0 0>64"], ["0,0 64>0"]]);
});

test("when a stroke is refused, the next one is sent with what is then under it", async () => {
  const refuse: (() => void)[] = [];
  open.answer = () => new Promise((_, reject) => refuse.push(() => reject(new Error("changed meanwhile"))));
  await drag(open, [[0, 0]]);
  await setLevel(open, "30");
  await drag(open, [[0, 0]]);
  await until(() => expect(refuse).toHaveLength(1));
  open.answer = edits;
  refuse[0]?.();
  await until(() => expect(sent()).toEqual([["0,0 0>64"], ["0,0 0>30"]]));
});

test("painted pixels stay until the document shows them, also when its answer comes first", async () => {
  open.answer = async () => ({ version: open.shown.version + 1 });
  await drag(open, [[0, 0]]);
  await until(() => expect(open.paints).toHaveLength(1));
  await settled(open);
  const [lit, dark] = [await colourAt(open, 4, 2), await colourAt(open, 8, 8)];
  // The version before the stroke is shown again: the stroke stays on it.
  await open.show({ ...open.shown });
  expect(await colourAt(open, 0, 0)).toEqual(lit);
  // A version after it that lacks the pixel (undone): it goes.
  await open.show({ ...open.shown, version: open.shown.version + 2 });
  expect(await colourAt(open, 0, 0)).toEqual(dark);
});

test("a picture shown during a stroke goes under it", async () => {
  await drag(
    open,
    [
      [0, 0],
      [2, 0],
    ],
    true,
  );
  await open.show(
    painted(open.shown, [
      { frame: 0, x: 1, y: 0, value: 42 },
      { frame: 0, x: 8, y: 8, value: 64 },
    ]),
  );
  const lit = await colourAt(open, 4, 2);
  expect([await colourAt(open, 1, 0), await colourAt(open, 8, 8)]).toEqual([lit, lit]);
  const { version } = open.shown;
  await open.page.mouse.up();
  await until(() => expect(sent()).toEqual([["0,0 0>64", "1,0 42>64", "2,0 0>64"]]));
  expect(open.paints[0]?.version).toBe(version);
});

test("a document that can’t be changed is shown only, and says so", async () => {
  await open.show({ ...open.shown, version: open.shown.version + 1, readOnly: true });
  await drag(open, [[0, 0]]);
  await until(async () => expect(await note()).toContain("can’t be changed"));
  expect(open.paints).toEqual([]);
  expect(await open.page.locator("[role=grid]").getAttribute("aria-readonly")).toBe("true");
});

test("a mono picture has two rungs, and painting 128×64 draws only the cells that changed", async () => {
  await afresh(open, mono(128, 64));
  expect(await open.page.locator(".rung .value").allTextContents()).toEqual(["lit", "dark"]);
  await press("e", "Control+End");
  await settled(open);
  await open.page.locator("[role=gridcell]").press("Space");
  await settled(open);
  await until(() => expect(sent()).toEqual([["127,63 1>0"]]));
  const corner = await centreOf(open, 127, 63);
  expect(corner.x).toBeGreaterThan(0);
  // A stroke across the picture while every frame on the screen is timed.
  await press("Control+Home", "d");
  const costs = await open.page.evaluate(async () => {
    const grid = document.querySelector("[role=grid]");
    const box = grid?.getBoundingClientRect();
    if (!grid || !box) return [];
    const fire = (type: string, i: number) =>
      grid.dispatchEvent(
        new PointerEvent(type, {
          pointerId: 1,
          button: 0,
          bubbles: true,
          clientX: box.x + 2 + i * 4,
          clientY: box.y + 10 + ((i * 7) % 200),
        }),
      );
    const drawn: number[] = [];
    const canvas = document.querySelector<HTMLElement>(".sheet canvas");
    Element.prototype.setPointerCapture = () => undefined;
    fire("pointerdown", 0);
    for (let i = 1; i <= 30; i++) {
      fire("pointermove", i);
      await new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done)));
      drawn.push(Number(canvas?.dataset.drawn));
    }
    fire("pointerup", 31);
    return drawn;
  });
  expect(costs).toHaveLength(30);
  expect(Math.max(...costs)).toBeLessThan(200);
  expect(costs.some((cells) => cells > 0)).toBe(true);
});

test("the page never broke its content security policy nor threw", () => {
  expect(open.errors).toEqual([]);
});
