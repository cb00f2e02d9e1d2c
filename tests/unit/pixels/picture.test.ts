import { describe, expect, it } from "vitest";
import { FORMATS } from "../../../shared/pixels/formats.ts";
import type { Layout } from "../../../shared/pixels/layout.ts";
import { layOut } from "../../../shared/pixels/layout.ts";
import type { ElementBits } from "../../../shared/pixels/picture.ts";
import { pixelOf, setPixel, strayBits, unpack } from "../../../shared/pixels/picture.ts";

function layout(format: string, elementBits: 8 | 16 | 32 | 64, more: Partial<Layout> = {}): Layout {
  const known = FORMATS.get(format);
  if (!known) throw new Error(format);
  const made = layOut({
    width: 2,
    height: 1,
    frames: 1,
    pack: "rows",
    bits: "msb",
    pad: "element",
    spare: "last",
    bytes: "be",
    scan: "rows",
    from: "top-left",
    skip: 0,
    lead: 0,
    ...more,
    format: known,
    elementBits,
  });
  if ("why" in made) throw new Error(made.why);
  return made;
}

/**
 * Colours as the Linux kernel's V4L2 page "RGB formats" lays them out: RGB565 rrrrrggggggbbbbb, high byte first on a
 * MIPI DCS bus (from memory). Pixels F81F (magenta) and 0A33.
 */
const colours: [what: string, Layout, elements: ElementBits, pixels: number[]][] = [
  ["rgb565 in words", layout("rgb565", 16), Uint16Array.of(0xf81f, 0x0a33), [0xf81f, 0x0a33]],
  [
    "rgb565 in words, bytes=le",
    layout("rgb565", 16, { bytes: "le" }),
    Uint16Array.of(0x1ff8, 0x330a),
    [0xf81f, 0x0a33],
  ],
  ["rgb565 in bytes", layout("rgb565", 8), Uint8Array.of(0xf8, 0x1f, 0x0a, 0x33), [0xf81f, 0x0a33]],
  [
    "rgb565 in bytes, bytes=le",
    layout("rgb565", 8, { bytes: "le" }),
    Uint8Array.of(0x1f, 0xf8, 0x33, 0x0a),
    [0xf81f, 0x0a33],
  ],
  ["rgb565, two in 32 bits", layout("rgb565", 32), Uint32Array.of(0xf81f0a33), [0xf81f, 0x0a33]],
  ["rgb888 in bytes", layout("rgb888", 8), Uint8Array.of(14, 68, 156, 255, 0, 255), [0x0e449c, 0xff00ff]],
  [
    "rgb888 in bytes, bytes=le",
    layout("rgb888", 8, { bytes: "le" }),
    Uint8Array.of(156, 68, 14, 255, 0, 255),
    [0x0e449c, 0xff00ff],
  ],
  [
    "rgb888, one in 32 bits",
    layout("rgb888", 32, { pack: "each" }),
    Uint32Array.of(0x0e449c, 0xff00ff),
    [0x0e449c, 0xff00ff],
  ],
  [
    "rgb888, one in 32 bits, bytes=le",
    layout("rgb888", 32, { pack: "each", bytes: "le" }),
    Uint32Array.of(0x9c440e, 0xff00ff),
    [0x0e449c, 0xff00ff],
  ],
  ["rgb332", layout("rgb332", 8), Uint8Array.of(0xe3, 0x0a), [0xe3, 0x0a]],
  ["gray4, left in the high nibble", layout("gray4", 8), Uint8Array.of(0xa5), [10, 5]],
  ["gray4, left in the low nibble", layout("gray4", 8, { bits: "lsb", bytes: "le" }), Uint8Array.of(0xa5), [5, 10]],
  ["gray2", layout("gray2", 8), Uint8Array.of(0xb0), [2, 3]],
  ["gray8 in 64 bits", layout("gray8", 64, { pack: "each" }), BigUint64Array.of(7n, 255n), [7, 255]],
  ["mono1 in 64 bits", layout("mono1", 64), BigUint64Array.of(1n << 62n), [0, 1]],
  ["any value is lit", layout("mono1", 8, { pack: "each" }), Uint8Array.of(0, 200), [0, 1]],
  ["any 64-bit value is lit", layout("mono1", 64, { pack: "each" }), BigUint64Array.of(1n << 63n, 0n), [1, 0]],
  ["elements that are not there are dark", layout("gray8", 8), Uint8Array.of(9), [9, 0]],
];

const written = (bits: ElementBits, at: Layout, index: number, value: number, invert = false) => {
  const out = Array.from(bits as ArrayLike<number | bigint>, BigInt);
  setPixel(
    at,
    0,
    index,
    value,
    invert,
    (e) => out[e] ?? 0n,
    (e, v) => {
      out[e] = v;
    },
  );
  return out;
};

describe("pixels of every width", () => {
  it.each(colours)("%s", (_what, at, bits, pixels) => {
    expect(Array.from(unpack(bits, at, 0, false))).toEqual(pixels);
    expect(pixels.map((_, i) => pixelOf(bits, at, 0, i, false))).toEqual(pixels);
  });

  it.each(colours)("%s: inverted", (_what, at, bits, pixels) => {
    expect(Array.from(unpack(bits, at, 0, true))).toEqual(pixels.map((v) => at.format.most - v));
  });

  it.each(colours)("%s: written to an empty array it gives the same elements", (what, at, bits, pixels) => {
    const empty = new (bits.constructor as Uint8ArrayConstructor)(bits.length) as ElementBits;
    let made = written(empty, at, 0, pixels[0] ?? 0);
    made = written(made as unknown as ElementBits, at, 1, pixels[1] ?? 0);
    const lit = what.includes("is lit");
    const expected = Array.from(bits as ArrayLike<number | bigint>, (v) =>
      lit ? BigInt(BigInt(v) !== 0n) : BigInt(v),
    );
    expect(made.slice(0, expected.length)).toEqual(expected);
  });

  it("the other pixels of an element stay", () => {
    expect(written(Uint8Array.of(0xff), layout("gray4", 8), 0, 3)).toEqual([0x3fn]);
    expect(written(Uint8Array.of(0xff), layout("gray4", 8), 1, 3, true)).toEqual([0xfcn]);
  });
});

describe("bits outside all pixels", () => {
  it.each<[string, Layout, ElementBits, { element: number; cleared: bigint }[]]>([
    ["none", layout("mono1", 8), Uint8Array.of(0xc0), []],
    ["after a row", layout("mono1", 8), Uint8Array.of(0xff), [{ element: 0, cleared: 0xc0n }]],
    ["after a row of greys", layout("gray2", 8), Uint8Array.of(0xf1), [{ element: 0, cleared: 0xf0n }]],
    [
      "in every frame",
      layout("mono1", 8, { frames: 2 }),
      Uint8Array.of(1, 1),
      [
        { element: 0, cleared: 0n },
        { element: 1, cleared: 0n },
      ],
    ],
    ["not in a lead", layout("mono1", 8, { lead: 1 }), Uint8Array.of(255, 0xc0), []],
    [
      "whole elements of padding",
      layout("mono1", 8, { pad: "16" }),
      Uint8Array.of(0xc0, 9),
      [{ element: 1, cleared: 0n }],
    ],
    [
      "bits that run on",
      layout("mono1", 8, { pad: "none", frames: 3 }),
      Uint8Array.of(0xff),
      [{ element: 0, cleared: 0xfcn }],
    ],
    ["64 bits", layout("mono1", 64), BigUint64Array.of(1n), [{ element: 0, cleared: 0n }]],
    ["whole pixels have none", layout("gray8", 8), Uint8Array.of(1, 2), []],
  ])("%s", (_what, at, bits, stray) => {
    expect(strayBits(bits, at)).toEqual(stray);
  });
});
