/** What the paint editor's page keeps of strokes: its heap after a thousand of them, and after ten thousand. */
import type { Browser, CDPSession, Page } from "playwright-core";
import type { Shown } from "../../shared/protocol/webview.ts";
import type { Code } from "../support/page.ts";
import { rings } from "../support/pictures.ts";
import { type Row, row } from "./measure.ts";

const WARM = 1_000;
const STROKES = 10_000;
const MOST = 1_000_000;

/** Rows for the table of results. */
export async function memoryRows(browser: Browser, code: Code): Promise<Row[]> {
  const page = await browser.newPage({ viewport: { width: 700, height: 900 } });
  await start(page, code, rings(32, 32));
  const session = await page.context().newCDPSession(page);
  await draw(page, WARM);
  const before = await heap(session);
  await draw(page, STROKES - WARM);
  const after = await heap(session);
  const painted = await page.evaluate(() => Number(document.documentElement.dataset.painted));
  if (painted < STROKES * 0.9) throw new Error(`only ${painted} of ${STROKES} strokes changed a pixel`);
  await page.close();
  const grown = after - before;
  return [
    row(
      `Heap of the page after ${WARM} strokes, and how it has grown after ${STROKES}`,
      `${megabytes(before)}, ${grown < 0 ? "−" : "+"}${megabytes(Math.abs(grown))}`,
      `≤ +${megabytes(MOST)}`,
      grown <= MOST,
    ),
  ];
}

const megabytes = (bytes: number) => `${(bytes / 1e6).toFixed(2)} MB`;

/** Bytes in use once all that nothing holds any more is gone. */
async function heap(session: CDPSession): Promise<number> {
  await session.send("HeapProfiler.collectGarbage");
  return (await session.send("Runtime.getHeapUsage")).usedSize;
}

/** The page with a stand-in for the extension in it, which keeps but the newest version of the document. */
async function start(page: Page, { script, style }: Code, shown: Shown): Promise<void> {
  await page.setContent(`<style>${style}</style><main id="dotwright"></main>`);
  await page.evaluate(
    ({ script, shown }) => {
      type Change = { x: number; y: number; value: number };
      type Request = { dotwright: string; id: number; method: string; params: { changes: Change[] } };
      let last = shown;
      let asked = 0;
      const post = (message: unknown) => window.postMessage(message, "*");
      const show = () => post({ dotwright: "request", id: ++asked, method: "show", params: last });
      const host = {
        postMessage: ({ dotwright, id, method, params }: Request) => {
          if (dotwright !== "request") return;
          if (method === "paint") {
            const [pixels = []] = last.frames.map((frame) => [...frame]);
            for (const { x, y, value } of params.changes) pixels[y * last.bitmap.width + x] = value;
            last = { ...last, version: last.version + 1, frames: [pixels] };
          }
          if (method === "paint" || method === "ready") show();
          post({ dotwright: "reply", id, ok: { version: last.version } });
          if (method !== "paint") return;
          document.documentElement.dataset.painted = String(last.version - shown.version);
          window.dispatchEvent(new Event("painted"));
        },
        getState: () => undefined,
        setState: () => undefined,
      };
      Object.assign(window, { acquireVsCodeApi: () => host });
      const element = document.createElement("script");
      element.type = "module";
      element.textContent = script;
      document.body.append(element);
    },
    { script, shown },
  );
  await page.locator("[role=gridcell][aria-label]").waitFor();
  await page.evaluate(() => {
    Element.prototype.setPointerCapture = () => undefined;
  });
}

/** Short strokes all over the picture, each sent before the next begins, in the levels of the ladder in turn. */
async function draw(page: Page, strokes: number): Promise<void> {
  await page.evaluate(async (count) => {
    const grid = document.querySelector("[role=grid]");
    if (!grid) throw new Error("the page has no grid");
    const box = grid.getBoundingClientRect();
    const fire = (type: string, i: number) => {
      const clientX = box.x + box.width * (0.5 + 0.45 * Math.sin(i / 7));
      const clientY = box.y + box.height * (0.5 + 0.45 * Math.sin(i / 11));
      grid.dispatchEvent(new PointerEvent(type, { pointerId: 7, button: 0, bubbles: true, clientX, clientY }));
    };
    for (let i = 0; i < count; i++) {
      // Up and down by turns, or soon no pixel would change.
      const key = i % 16 < 8 ? "[" : "]";
      grid.dispatchEvent(new KeyboardEvent("keydown", { key, bubbles: true }));
      const sent = new Promise((done) => window.addEventListener("painted", done, { once: true }));
      fire("pointerdown", i);
      for (let step = 1; step <= 4; step++) fire("pointermove", i + step / 2);
      fire("pointerup", i + 2);
      const frame = new Promise((done) => requestAnimationFrame(done));
      await (i % 10 === 0 ? Promise.all([sent, frame]) : Promise.race([sent, frame]));
    }
    // What is on its way is answered and drawn.
    for (let i = 0; i < 10; i++) await new Promise((done) => requestAnimationFrame(done));
  }, strokes);
}
