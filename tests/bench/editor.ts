/** Figures of the real editor: how long a person waits between doing something and seeing it, from event to page. */
import { statSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import type { Locator, Page } from "playwright-core";
import type { Editor } from "../support/editor.ts";
import { startEditor } from "../support/editor.ts";
import { drag, paint, paintPage } from "../support/paintEditor.ts";
import { activation } from "../support/workbench.ts";
import type { Row } from "./measure.ts";
import { row } from "./measure.ts";

const FILE = "bench_art.h";
const ART = `// @bitmap 9x9 gray8 cap=64
const unsigned char bench_icon[81] = {
${"  0x00, 0x00, 0x00, 0x00, 0x00, 0x00, 0x00, 0x00, 0x00,\n".repeat(8)}  1, 2, 3, 4, 5, 6, 7, 8, 9,
};
`;
const RUNS = 20;
/** Text and picture are to be one: well below what passes as at once (100 ms: R. B. Miller, AFIPS 1968). */
const STROKE = 30;
const KEY = 50;
const ACTIVATION = 100;
const SIZE = 700_000;

export async function editorRows(): Promise<Row[]> {
  const editor = await startEditor({}, { prepare: (folder) => writeFileSync(join(folder, FILE), ART) });
  try {
    const starts: number[] = [];
    for (let i = 0; i < 3; i++) {
      if (i > 0) await editor.visit(editor.folder);
      await editor.open(FILE, 2, 1);
      await editor.page.locator(".codelens-decoration").filter({ hasText: "bench_icon" }).waitFor();
      starts.push(await activation(editor));
    }
    await editor.open(FILE, 2, 1);
    const start = middle(starts);
    const stroke = middle(await strokes(editor));
    const key = middle(await keystrokes(editor));
    const { size } = statSync(editor.served.packed);
    return [
      row(
        "Pointer released after a stroke, to the text beside it",
        `${stroke.toFixed(0)} ms`,
        `≤ ${STROKE} ms`,
        stroke <= STROKE,
      ),
      row("A key pressed in the text, to the picture beside it", `${key.toFixed(0)} ms`, `≤ ${KEY} ms`, key <= KEY),
      row("Activation, as the editor tells", `${start} ms`, `≤ ${ACTIVATION} ms`, start <= ACTIVATION),
      row("Size of the VSIX", `${Math.round(size / 1000)} kB`, `≤ ${SIZE / 1000} kB`, size <= SIZE),
    ];
  } finally {
    await editor.stop();
  }
}

const middle = (times: readonly number[]) => [...times].sort((a, b) => a - b)[times.length >> 1] ?? Number.NaN;

const source = (page: Page) => page.locator(".editor-group-container").first().locator(".view-lines");

/** Draws and erases one pixel in turn. */
async function strokes(editor: Editor): Promise<number[]> {
  const { page } = editor;
  const grid = await paint(editor, "bench_icon");
  const times: number[] = [];
  for (let i = 0; i < RUNS; i++) {
    await page.keyboard.press(i % 2 ? "e" : "d");
    const released = await moment(paintPage(page).locator("body"), { event: "pointerup" });
    const written = await moment(source(page), { shows: i % 2 ? "{  0x00," : "{  0x40," });
    await drag(page, grid, [0, 0], [0, 0]);
    times.push((await written()) - (await released()));
  }
  return times;
}

/** Types a second digit of a number and takes it away again in turn. */
async function keystrokes({ page }: Editor): Promise<number[]> {
  await source(page).getByText("5", { exact: true }).first().dblclick();
  await page.keyboard.press("ArrowRight");
  const body = paintPage(page).locator("body");
  await body.locator("[role=gridcell][aria-label*='level 5 of']").waitFor();
  const times: number[] = [];
  for (let i = 0; i < RUNS; i++) {
    const pressed = await moment(page.locator("body"), { event: "keydown" });
    const drawn = await moment(body, { shows: i % 2 ? "level 5 of" : "level 51 of" });
    await page.keyboard.press(i % 2 ? "Backspace" : "1");
    times.push((await drawn()) - (await pressed()));
  }
  return times;
}

type Wanted = { readonly event: string } | { readonly shows: string };

/**
 * Begins to wait for an event anywhere in the page, or until an element shows words as text or label. What is returned
 * gives the time of it in milliseconds, by a clock that all frames share.
 */
async function moment(where: Locator, awaited: Wanted): Promise<() => Promise<number>> {
  const seen = await where.evaluateHandle((element, wanted) => {
    const now = () => performance.timeOrigin + performance.now();
    const time = new Promise<number>((resolve) => {
      if ("event" in wanted) {
        window.addEventListener(wanted.event, () => resolve(now()), { capture: true, once: true });
        return;
      }
      const observer = new MutationObserver(() => {
        const labels = [...element.querySelectorAll("[aria-label]")].map((e) => e.getAttribute("aria-label"));
        const words = [element.textContent, ...labels].join("\n").replaceAll("\u00a0", " ");
        if (!words.includes(wanted.shows)) return;
        observer.disconnect();
        resolve(now());
      });
      observer.observe(element, { subtree: true, childList: true, characterData: true, attributes: true });
    });
    // In a record, as a promise by itself would be waited for here.
    return { time };
  }, awaited);
  return () => seen.evaluate(({ time }) => time);
}
