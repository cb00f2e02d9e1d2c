/** Pen and touch: pointer events as Chromium makes them from fingers and a pen. */
import type { Browser, CDPSession } from "playwright-core";
import { afterAll, beforeAll, beforeEach, expect, test } from "vitest";
import { afresh, bundle, type Code, centreOf, launch, type Opened, openPage, settled } from "../support/page.ts";
import { dropOn } from "../support/pictures.ts";
import { until } from "../support/until.ts";

let browser: Browser;
let open: Opened;
let cdp: CDPSession;
const blank = () => dropOn({ lattice: "square" }, { frames: [new Array(81).fill(0)] });
beforeAll(async () => {
  let code: Code;
  [browser, code] = await Promise.all([launch(), bundle()]);
  open = await openPage(browser, code, blank());
  cdp = await open.page.context().newCDPSession(open.page);
  await cdp.send("Emulation.setTouchEmulationEnabled", { enabled: true, maxTouchPoints: 5 });
});
afterAll(() => browser.close());
beforeEach(() => afresh(open, blank()));

type Cell = readonly [x: number, y: number];
type Fingers = Readonly<Record<number, Cell>>;

/** Fingers by their number, on the middle of a pixel each; one that is left out of a move is lifted. */
async function touch(type: "touchStart" | "touchMove" | "touchEnd", fingers: Fingers): Promise<void> {
  const touchPoints = await Promise.all(
    Object.entries(fingers).map(async ([id, [x, y]]) => ({
      ...(await centreOf(open, x, y)),
      id: Number(id),
      force: 0.3,
    })),
  );
  await cdp.send("Input.dispatchTouchEvent", { type, touchPoints });
}

const sent = () => open.paints.map(({ changes }) => changes.map(({ x, y }) => `${x},${y}`).join(" "));

test("a finger draws a line, and the page does not scroll under it", async () => {
  await open.page.setViewportSize({ width: 420, height: 300 });
  await touch("touchStart", { 1: [0, 0] });
  await touch("touchMove", { 1: [0, 2] });
  await touch("touchMove", { 1: [0, 4] });
  await touch("touchEnd", {});
  await until(() => expect(sent()).toEqual(["0,0 0,1 0,2 0,3 0,4"]));
  expect(await open.page.evaluate(() => [window.scrollX, window.scrollY])).toEqual([0, 0]);
  await open.page.setViewportSize({ width: 420, height: 900 });
});

test("a second finger does not draw, nor end the stroke of the first", async () => {
  await touch("touchStart", { 1: [0, 0] });
  await touch("touchStart", { 1: [0, 0], 2: [8, 8] });
  await touch("touchMove", { 1: [1, 0], 2: [6, 8] });
  await touch("touchMove", { 1: [1, 0] });
  await touch("touchMove", { 1: [2, 0] });
  await settled(open);
  expect(open.paints).toEqual([]);
  await touch("touchEnd", {});
  await until(() => expect(sent()).toEqual(["0,0 1,0 2,0"]));
});

test("when the first finger is lifted, the second still does not draw", async () => {
  await touch("touchStart", { 1: [0, 0] });
  await touch("touchStart", { 1: [0, 0], 2: [8, 8] });
  await touch("touchMove", { 2: [8, 8] });
  await touch("touchMove", { 2: [5, 8] });
  await touch("touchEnd", {});
  await until(() => expect(sent()).toEqual(["0,0"]));
  await settled(open);
  expect(open.paints).toHaveLength(1);
});

test("a finger that the system takes away drops its stroke", async () => {
  await touch("touchStart", { 1: [0, 0] });
  await touch("touchMove", { 1: [4, 0] });
  await cdp.send("Input.dispatchTouchEvent", { type: "touchCancel", touchPoints: [] });
  await until(async () => expect(await open.page.locator(".note").textContent()).toBe("stroke dropped"));
  expect(open.paints).toEqual([]);
});

test("a pen draws whatever its pressure, and hovering does not", async () => {
  const pen = async (type: "mouseMoved" | "mousePressed" | "mouseReleased", [x, y]: Cell, force: number) =>
    cdp.send("Input.dispatchMouseEvent", {
      type,
      ...(await centreOf(open, x, y)),
      button: type === "mouseMoved" && force === 0 ? "none" : "left",
      buttons: force > 0 ? 1 : 0,
      clickCount: 1,
      force,
      tiltX: 20,
      pointerType: "pen",
    });
  const kinds = open.page.evaluate(
    () =>
      new Promise<string>((done) => {
        document.addEventListener("pointerdown", (event) => done(`${event.pointerType} ${event.pressure.toFixed(1)}`), {
          once: true,
        });
      }),
  );
  await pen("mouseMoved", [3, 3], 0);
  await pen("mouseMoved", [5, 3], 0);
  await pen("mousePressed", [5, 3], 0.1);
  await pen("mouseMoved", [6, 3], 0.9);
  await pen("mouseMoved", [7, 3], 0.2);
  await pen("mouseReleased", [7, 3], 0);
  expect(await kinds).toBe("pen 0.1");
  await until(() => expect(sent()).toEqual(["5,3 6,3 7,3"]));
});

test("the page never broke its content security policy nor threw", () => {
  expect(open.errors).toEqual([]);
});
