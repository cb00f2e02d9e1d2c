/** The SVG that is written, as a browser draws it. */
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { pictureFile } from "../../server/pictureFile.ts";
import { openText } from "../../shared/bitmap/open.ts";
import { launch } from "../support/page.ts";

let browser: Browser;
let page: Page;
beforeAll(async () => {
  browser = await launch();
  page = await browser.newPage();
});
afterAll(() => browser.close());

const VALUES = [0, 255, 255, 32, 7, 7, 7, 0, 64, 128, 0, 200];

function svgOf(words: string, look: "values" | "cells" | "panel", scale: number): string {
  const { bitmaps } = openText(
    `// @bitmap 4x3 gray8 ${words}\nconst uint8_t leaf[] = { ${VALUES.join(", ")} };`,
    "leaf.h",
  );
  const made = bitmaps[0] && pictureFile(bitmaps[0], { format: "svg", look, scale });
  if (!made || "refused" in made) throw new Error("no picture");
  return new TextDecoder().decode(made.bytes);
}

/** Width, height and the red, green and blue of each pixel. */
function drawn(svg: string): Promise<{ width: number; height: number; rgb: number[][] }> {
  return page.evaluate(async (text) => {
    const image = new Image();
    image.src = `data:image/svg+xml;base64,${btoa(unescape(encodeURIComponent(text)))}`;
    await image.decode();
    const { width, height } = image;
    const context = Object.assign(document.createElement("canvas"), { width, height }).getContext("2d");
    if (!context) throw new Error("no canvas");
    context.drawImage(image, 0, 0);
    const { data } = context.getImageData(0, 0, width, height);
    return {
      width,
      height,
      rgb: Array.from({ length: width * height }, (_, i) => [...data.subarray(4 * i, 4 * i + 3)]),
    };
  }, svg);
}

test("values are the same picture at scale 1", async () => {
  expect(await drawn(svgOf("", "values", 1))).toEqual({ width: 4, height: 3, rgb: VALUES.map((v) => [v, v, v]) });
});

test("cells have the colour of their light, with a gap to the next", async () => {
  const { width, height, rgb } = await drawn(svgOf("light=srgb tint=#ff8000", "cells", 12));
  expect([width, height]).toEqual([48, 36]);
  expect([rgb[6 * 48 + 18], rgb[6 * 48 + 12]]).toEqual([
    [255, 128, 0],
    [46, 49, 51],
  ]);
});

test.each(["round", "square"])("%s lamps of a diamond lattice stand where they hang", async (dot) => {
  const { width, height, rgb } = await drawn(svgOf(`light=srgb lattice=diamond dot=${dot}`, "panel", 20 * Math.SQRT2));
  // Half the diagonal of a pixel is 20: seven steps each way.
  expect([width, height]).toEqual([140, 140]);
  const at = (x: number, y: number) => rgb[y * 140 + x];
  // Pixel 0,0 is at the top, its row runs down to the right, its column down to the left.
  const middle = (x: number, y: number) => at(60 + (x - y) * 20, 20 + (x + y) * 20);
  expect(VALUES.map((_, i) => middle(i % 4, Math.floor(i / 4)))).toEqual(VALUES.map((v) => [v, v, v]));
  // A square lamp that stands on its corner reaches further along the row than across.
  expect(at(80 + 13, 40)).toEqual(dot === "square" ? [255, 255, 255] : [0, 0, 0]);
});
