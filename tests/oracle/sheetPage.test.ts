/** The contact sheet as a page, in a browser: its pictures, its links, and whether it can be read in light and dark. */
import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { runCli } from "../support/cli.ts";
import { launch } from "../support/page.ts";

const SAMPLE = fileURLToPath(new URL("../../sample-workspace", import.meta.url));
const folder = mkdtempSync(join(tmpdir(), "dotwright-sheet-"));
const page = join(folder, "sheet.html");
let browser: Browser;
/** Those of the sample workspace. */
let bitmaps = 0;
beforeAll(async () => {
  const [made, listed, started] = await Promise.all([
    runCli(["sheet", "--out", page, SAMPLE]),
    runCli(["list", "--json", SAMPLE]),
    launch(),
  ]);
  browser = started;
  bitmaps = (JSON.parse(listed.stdout) as { arrays: unknown[] }).arrays.length;
  expect(made).toMatchObject({ code: 0, stderr: "" });
});
afterAll(async () => {
  await browser.close();
  rmSync(folder, { recursive: true });
});

test.each(["light", "dark"] as const)(
  "in %s all pictures are there, and all words can be read",
  async (colorScheme) => {
    const context = await browser.newContext({ colorScheme, viewport: { width: 320, height: 900 } });
    const open = await context.newPage();
    const errors: string[] = [];
    open.on("console", (message) => errors.push(message.text()));
    open.on("request", (request) => {
      if (!/^(?:file|data):/.test(request.url())) errors.push(request.url());
    });
    await open.goto(pathToFileURL(page).href);
    const images = await open.locator("img").evaluateAll(async (all) => {
      await Promise.all(all.map((i) => (i as HTMLImageElement).decode()));
      return all.map((i) => ({ alt: i.getAttribute("alt"), width: (i as HTMLImageElement).naturalWidth }));
    });
    // One array of the sample has no picture, on purpose.
    expect(images).toHaveLength(bitmaps - 1);
    expect(images.filter(({ alt, width }) => !alt || width === 0)).toEqual([]);
    expect(errors).toEqual([]);
    // Contrast of 4.5 to 1 (WCAG 2.2, 1.4.3), and no scrolling sideways at 320 CSS pixels (1.4.10).
    const faint = await open.evaluate(() => {
      const rgb = (colour: string) => (colour.match(/[\d.]+/g) ?? []).map(Number);
      const linear = (part: number) =>
        part <= 0.04045 * 255 ? part / 255 / 12.92 : ((part / 255 + 0.055) / 1.055) ** 2.4;
      const luminance = ([r = 0, g = 0, b = 0]: number[]) =>
        0.2126 * linear(r) + 0.7152 * linear(g) + 0.0722 * linear(b);
      const paper = luminance(rgb(getComputedStyle(document.body).backgroundColor)) + 0.05;
      return [...document.querySelectorAll("body *")].flatMap((element) => {
        const ink = luminance(rgb(getComputedStyle(element).color)) + 0.05;
        const ratio = Math.max(ink, paper) / Math.min(ink, paper);
        return ratio < 4.5 ? [`${element.tagName} ${element.textContent?.slice(0, 20)}: ${ratio.toFixed(1)}`] : [];
      });
    });
    expect(faint).toEqual([]);
    expect(await open.evaluate(() => document.documentElement.scrollWidth)).toBe(320);
    await context.close();
  },
);

test("every link leads to the line that names the bitmap", async () => {
  const open = await browser.newPage();
  await open.goto(pathToFileURL(page).href);
  const links = await open
    .locator("h3 a")
    .evaluateAll((all) => all.map((a) => [(a as HTMLAnchorElement).href, a.textContent]));
  expect(links).toHaveLength(bitmaps);
  for (const [href = "", name = ""] of links as [string, string][]) {
    const { hash, href: whole } = new URL(href);
    const lines = readFileSync(fileURLToPath(whole.replace(hash, "")), "utf8").split("\n");
    expect(lines[Number(hash.slice(2)) - 1], href).toContain(name);
  }
});

test("who wants no motion is shown the frames side by side", async () => {
  const context = await browser.newContext({ reducedMotion: "reduce" });
  const open = await context.newPage();
  await open.goto(pathToFileURL(page).href);
  const drip = open.locator("picture img[alt^='drip']");
  expect(await drip.evaluate((i: HTMLImageElement) => i.currentSrc === i.src)).toBe(false);
  await context.close();
});
