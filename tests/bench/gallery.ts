/** The gallery's page with 2,000 bitmaps in Chromium: what scrolling and filtering cost it. */
import type { Browser, Page } from "playwright-core";
import type { GalleryToHost, GalleryToPage } from "../../shared/protocol/galleryPage.ts";
import { galleryFiles, galleryPicture } from "../support/galleryFiles.ts";
import { openSmallPage } from "../support/smallPage.ts";
import { type Row, row } from "./measure.ts";

const STEPS = 240;
const FRAME_MS = 16;
/** As long as a picture beside the text may take to follow a key. */
const KEY_MS = 50;
const [FILES, EACH] = [40, 50];

/** Rows for the table of results. */
export async function galleryRows(browser: Browser): Promise<Row[]> {
  const picture = await galleryPicture("file:///greenhouse/lantern_art.h", "drop_icon");
  const { page } = await openSmallPage<GalleryToHost, GalleryToPage>(
    browser,
    "gallery",
    (rpc) => ({
      ready: async () => {
        await rpc().call("files", { files: galleryFiles(FILES, EACH), gone: [], left: 0 });
        return {};
      },
      pictures: ({ wanted }) => ({ pictures: wanted.map(() => picture) }),
      open: () => ({}),
      paint: () => ({}),
    }),
    { width: 300, height: 900 },
  );
  await page.locator("li img").first().waitFor();
  const costs = async (what: "scroll" | "filter") => quantile(await costsOf(page, what), 0.95);
  const [scroll, filter] = [await costs("scroll"), await costs("filter")];
  await page.context().close();
  const all = FILES * EACH;
  return [
    row(
      `The gallery of ${all} bitmaps, a turn of the wheel to drawn rows, p95`,
      ms(scroll),
      `≤ ${FRAME_MS} ms`,
      scroll <= FRAME_MS,
    ),
    row("… a key in its filter to drawn rows, p95", ms(filter), `≤ ${KEY_MS} ms`, filter <= KEY_MS),
  ];
}

/** What each step costs the page, in milliseconds: its handlers, what it draws in the next frame, and the layout of that. */
function costsOf(page: Page, what: "scroll" | "filter"): Promise<number[]> {
  return page.evaluate(
    async ([kind, steps]) => {
      const pane = document.querySelector(".pane");
      const filter = document.querySelector("input");
      if (!pane || !filter) throw new Error("the page has no list");
      const native = window.requestAnimationFrame.bind(window);
      let spent = 0;
      window.requestAnimationFrame = (callback) =>
        native((time) => {
          const from = performance.now();
          callback(time);
          // Asks for a place, so that the rows are laid out and not only put there.
          pane.querySelector("li:last-child")?.getBoundingClientRect();
          spent += performance.now() - from;
        });
      const costs: number[] = [];
      for (let i = 1; i <= steps; i++) {
        await new Promise((done) => native(() => native(done)));
        spent = 0;
        const from = performance.now();
        if (kind === "scroll") pane.scrollTop = (i * 483) % (pane.scrollHeight - pane.clientHeight);
        else {
          filter.value = i % 2 ? `icon_${i % 40}` : "icon";
          filter.dispatchEvent(new Event("input"));
          pane.querySelector("li:last-child")?.getBoundingClientRect();
        }
        spent += performance.now() - from;
        await new Promise((done) => native(() => native(done)));
        costs.push(spent);
      }
      window.requestAnimationFrame = native;
      return costs;
    },
    [what, STEPS] as const,
  );
}

function quantile(times: readonly number[], share: number): number {
  const sorted = [...times].sort((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.floor(sorted.length * share))] ?? Number.NaN;
}

function ms(value: number): string {
  return `${value.toFixed(1)} ms`;
}
