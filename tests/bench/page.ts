/** The paint editor's page in Chromium: how long it takes from a move of the pointer to the picture, and to start. */
import type { Browser } from "playwright-core";
import type { Shown } from "../../shared/protocol/webview.ts";
import { bundle, type Code, drag, launch, type Opened, openPage, restructured, settled } from "../support/page.ts";
import { drop, mono, rings, sky } from "../support/pictures.ts";
import { galleryRows } from "./gallery.ts";
import { type Row, row } from "./measure.ts";
import { memoryRows } from "./memory.ts";

/** Moves of the pointer to time; the target is one frame of a screen with 60 a second. */
const MOVES = 240;
const FRAME_MS = 16;
const STARTS = 9;
const START_MS = 100;

/** Rows for the table of results. Servers are not needed: the page is served from memory. */
export async function benchPage(): Promise<Row[]> {
  const [browser, code] = await Promise.all([launch(), bundle()]);
  const rows: Row[] = [];
  try {
    const three = restructured(rings(320, 240), { kind: "frames", order: [0, "dark", 0] });
    const pictures: readonly (readonly [string, Shown, ...string[]])[] = [
      ["128×64 of 1 bit", mono(128, 64)],
      ["128×64 of 8 bits", rings(128, 64)],
      ["320×240 of 8 bits", rings(320, 240)],
      ["320×240 in 16-bit colours", sky(320, 240, "rgb565")],
      ["320×240 in 24-bit colours", sky(320, 240, "rgb888")],
      ["320×240 with the ghost of a frame, and changes marked", three, "PageDown", "h", "c"],
    ];
    for (const [what, shown, ...keys] of pictures) {
      const open = await openPage(browser, code, shown, { width: 700 });
      for (const key of keys) await open.page.keyboard.press(key);
      const time = quantile(await strokeCosts(open), 0.95);
      await open.close();
      rows.push(row(`Pointer move to drawn pixels, ${what}, p95`, ms(time), `≤ ${FRAME_MS} ms`, time <= FRAME_MS));
    }
    for (const [what, keys] of [
      ["a gradient", ["g"]],
      ["a brush of 16 in all four quarters", ["m", "m", "m", ...new Array<string>(15).fill("w")]],
      ["a selection", ["s"]],
      ["all pixels moved", ["Control+a", "s", "Enter"]],
    ] as const) {
      const open = await openPage(browser, code, rings(320, 240), { width: 700 });
      await open.page.locator("[role=gridcell]").focus();
      for (const key of keys) await open.page.keyboard.press(key);
      const time = quantile(await moveCosts(open), 0.95);
      await open.close();
      rows.push(row(`… 320×240 of 8 bits, ${what}, p95`, ms(time), `≤ ${FRAME_MS} ms`, time <= FRAME_MS));
    }
    const starts: number[] = [];
    rows.push(...(await memoryRows(browser, code)), ...(await galleryRows(browser)));
    for (let i = 0; i < STARTS; i++) starts.push(await firstPicture(browser, code));
    const start = quantile(starts, 0.5);
    rows.push(row("Start of the page's script to its first picture", ms(start), `≤ ${START_MS} ms`, start <= START_MS));
  } finally {
    await browser.close();
  }
  return rows;
}

/**
 * A stroke all over the picture: what each move costs the page, in milliseconds, from the event to drawn pixels. The
 * wait for the screen's next frame, in which the page draws, is not its cost and left out.
 */
async function strokeCosts(open: Opened): Promise<number[]> {
  await drag(open, [[0, 0]]);
  return moveCosts(open);
}

/** The same with whatever the pointer does at the moment. */
async function moveCosts(open: Opened): Promise<number[]> {
  await settled(open);
  return open.page.evaluate(async (moves) => {
    const grid = document.querySelector("[role=grid]");
    const pane = document.querySelector(".pane");
    const context = document.querySelector("canvas")?.getContext("2d");
    if (!grid || !pane || !context) throw new Error("the page has no grid");
    const box = pane.getBoundingClientRect();
    Element.prototype.setPointerCapture = () => undefined;
    const fire = (type: string, i: number) => {
      // A quick scribble: about 15 CSS pixels from one move to the next, all over the picture.
      const clientX = box.x + box.width * (0.5 + 0.35 * Math.sin(i / 14));
      const clientY = box.y + box.height * (0.5 + 0.3 * Math.sin(i / 23));
      grid.dispatchEvent(new PointerEvent(type, { pointerId: 7, button: 0, bubbles: true, clientX, clientY }));
    };
    const native = window.requestAnimationFrame.bind(window);
    let spent = 0;
    window.requestAnimationFrame = (callback) =>
      native((time) => {
        const from = performance.now();
        callback(time);
        // Asks for a pixel back, so that what was drawn is there and not only queued.
        context.getImageData(0, 0, 1, 1);
        spent += performance.now() - from;
      });
    const costs: number[] = [];
    fire("pointerdown", 0);
    for (let i = 1; i <= moves; i++) {
      // The page's own frame comes first in the next one, this one after it.
      await new Promise((done) => native(() => native(done)));
      spent = 0;
      const from = performance.now();
      fire("pointermove", i);
      spent += performance.now() - from;
      await new Promise((done) => native(done));
      costs.push(spent);
    }
    fire("pointerup", moves + 1);
    window.requestAnimationFrame = native;
    return costs;
  }, MOVES);
}

/**
 * From the start of the page's script until its picture is drawn, in milliseconds; the page is told it at once. Each
 * page has a process of its own. That process has shown a frame before the clock starts, as in the editor, where our
 * page is in a frame of another page.
 */
async function firstPicture(browser: Browser, { script, style }: Code): Promise<number> {
  const page = await browser.newPage();
  await page.setContent(`<style>${style}</style><main id="dotwright"></main>`);
  await page.evaluate(() => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done))));
  const time = await page.evaluate(
    async ({ script, shown }) => {
      const host = {
        postMessage: ({ dotwright, id, method }: { dotwright: string; id: number; method: string }) => {
          if (dotwright !== "request" || method !== "ready") return;
          window.postMessage({ dotwright: "request", id: 1, method: "show", params: shown }, "*");
          window.postMessage({ dotwright: "reply", id, ok: {} }, "*");
        },
        getState: () => undefined,
        setState: () => undefined,
      };
      Object.assign(window, { acquireVsCodeApi: () => host });
      const from = performance.now();
      const element = document.createElement("script");
      element.type = "module";
      element.textContent = script;
      document.body.append(element);
      while (performance.getEntriesByName("first picture").length === 0)
        await new Promise((done) => requestAnimationFrame(done));
      return (performance.getEntriesByName("first picture")[0]?.startTime ?? Number.NaN) - from;
    },
    { script, shown: drop() },
  );
  await page.close();
  return time;
}

function quantile(times: readonly number[], share: number): number {
  const sorted = [...times].sort((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.floor(sorted.length * share))] ?? Number.NaN;
}

function ms(value: number): string {
  return `${value.toFixed(1)} ms`;
}
