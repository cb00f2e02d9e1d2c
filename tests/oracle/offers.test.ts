import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { openText } from "../../shared/bitmap/open.ts";
import type { Offer } from "../../shared/bitmap/suggest.ts";
import { suggest, unannotated } from "../../shared/bitmap/suggest.ts";

/** X bitmap files of the Debian package `xbitmaps`, without the defines that make them X bitmaps. */
const FOLDER = "/usr/include/X11/bitmaps";

interface Stripped {
  readonly name: string;
  readonly width: number;
  readonly height: number;
  readonly bytes: readonly number[];
}

const bitmaps: Stripped[] = readdirSync(FOLDER).flatMap((file) => {
  const text = readFileSync(join(FOLDER, file), "latin1");
  const body = /\b([A-Za-z_]\w*)_bits\s*\[\]\s*=\s*(\{[^}]*\})/.exec(text);
  const size = (word: string) => Number(new RegExp(`_${word}\\s+(\\d+)`).exec(text)?.[1]);
  const [width, height] = [size("width"), size("height")];
  return body
    ? [
        {
          name: body[1] as string,
          width,
          height,
          bytes: (body[2] as string).match(/0x[0-9a-fA-F]+/g)?.map(Number) ?? [],
        },
      ]
    : [];
});

function offersFor(text: string): readonly Offer[] {
  const file = openText(text, "art.h");
  const [array] = unannotated(file);
  return array ? suggest(file, array) : [];
}

type Packing = "rows lsb" | "rows msb" | "pages lsb";

/** The same picture packed another way, from the definitions of the packings; `undefined` bits are dark. */
function repacked({ width, height, bytes }: Stripped, packing: Packing): number[] {
  const stride = Math.ceil(width / 8);
  const lit = (x: number, y: number) => (y < height ? ((bytes[y * stride + (x >> 3)] ?? 0) >> (x & 7)) & 1 : 0);
  const byte = (bit: (k: number) => number) => [0, 1, 2, 3, 4, 5, 6, 7].reduce((sum, k) => sum | (bit(k) << k), 0);
  if (packing === "rows lsb") return [...bytes];
  if (packing === "rows msb")
    return Array.from({ length: stride * height }, (_, i) =>
      byte((k) => {
        const x = (i % stride) * 8 + 7 - k;
        return x < width ? lit(x, Math.floor(i / stride)) : 0;
      }),
    );
  return Array.from({ length: Math.ceil(height / 8) * width }, (_, i) =>
    byte((k) => lit(i % width, Math.floor(i / width) * 8 + k)),
  );
}

const listed = (bytes: readonly number[]) =>
  `{ ${bytes.map((b) => `0x${b.toString(16).padStart(2, "0")}`).join(", ")} }`;

/** How often the first offer, and any, is the bitmap as it was packed; and its size. */
function score(packing: Packing, source: (bitmap: Stripped, body: string) => string) {
  let first = 0;
  let any = 0;
  let size = 0;
  const missed: string[] = [];
  for (const bitmap of bitmaps) {
    const offers = offersFor(source(bitmap, listed(repacked(bitmap, packing))));
    const right = ({ bitmap: { layout, width, height } }: Offer) =>
      width === bitmap.width &&
      height === bitmap.height &&
      layout !== undefined &&
      `${layout.pack === "columns" && height <= 8 ? "pages" : layout.pack} ${layout.bits}` === packing;
    if (offers[0] && right(offers[0])) first++;
    if (offers.some(right)) any++;
    if (offers[0]?.bitmap.width === bitmap.width && offers[0].bitmap.height === bitmap.height) size++;
    else missed.push(bitmap.name);
  }
  return { packing, of: bitmaps.length, first, any, size, missed: missed.join(" ") };
}

/** Ways to say the size, and offers right of 69 at each packing when they were measured: the first, and any. */
const SAYINGS: readonly [string, (bitmap: Stripped, body: string) => string, Record<Packing, [number, number]>][] = [
  [
    "its name",
    ({ name, width, height }, body) => `static const unsigned char ${name}_${width}x${height}[] = ${body};\n`,
    { "rows lsb": [26, 43], "rows msb": [37, 45], "pages lsb": [34, 42] },
  ],
  [
    "a comment",
    ({ name, width, height }, body) =>
      `/* ${width}x${height} pixels */\nstatic const unsigned char ${name}[] = ${body};\n`,
    { "rows lsb": [30, 58], "rows msb": [50, 59], "pages lsb": [40, 57] },
  ],
  [
    "a call",
    ({ name, width, height }, body) =>
      `static unsigned char ${name}_bits[] = ${body};\nvoid f(void) { draw_bitmap(0, 0, ${name}_bits, ${width}, ${height}); }\n`,
    { "rows lsb": [46, 55], "rows msb": [40, 55], "pages lsb": [37, 53] },
  ],
];

describe.each(SAYINGS)("Debian's xbitmaps without their defines, but with the size in %s", (_, source, floors) => {
  it.each(["rows lsb", "rows msb", "pages lsb"] as const)(
    "packed as %s are offered as often as they were",
    (packing) => {
      const found = score(packing, source);
      console.log(found);
      expect(found.of).toBeGreaterThanOrEqual(69);
      expect(found.first).toBeGreaterThanOrEqual(floors[packing][0]);
      expect(found.any).toBeGreaterThanOrEqual(floors[packing][1]);
    },
  );
});

it("Debian's xbitmaps without any word of their size get no offer", () => {
  const offered = bitmaps.filter(
    ({ bytes }) => offersFor(`static unsigned char data[] = ${listed(bytes)};\n`).length > 0,
  );
  expect(offered.map((b) => b.name)).toEqual([]);
});
