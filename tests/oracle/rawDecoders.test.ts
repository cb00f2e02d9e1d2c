import { mkdtemp, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { PNG } from "pngjs";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { arrayText } from "../support/arrayText.ts";
import { runCli } from "../support/cli.ts";
import { decodeRaw, type RawPicture, type Rgb } from "../support/pillow.ts";

/** Noise that is the same in every run: the example generator of ISO C (C17 7.22.2). */
function noise(count: number, seed: number): Uint8Array {
  let next = seed;
  return Uint8Array.from({ length: count }, () => {
    next = (Math.imul(next, 1103515245) + 12345) >>> 0;
    return next >>> 16;
  });
}

const hex = (bytes: Uint8Array) => Buffer.from(bytes).toString("hex");
const swapped = (bytes: Uint8Array) => Uint8Array.from(bytes, (_, i) => bytes[i ^ 1] as number);
/** Colours of a palette of `count`, and how they are written. */
const colours = (count: number) => noise(count * 3, 77);
const palette = (count: number) => `// @palette rgb888\n${arrayText(colours(count), 8, "bed")}`;

interface Case {
  readonly options: string;
  readonly bytes: number;
  readonly elementBits?: 8 | 16 | 32;
  readonly before?: string;
  readonly raw: (bytes: Uint8Array) => Omit<RawPicture, "bands"> & { readonly bands?: readonly string[] };
}

/** `count` equal parts of the bytes. */
const parts = (bytes: Uint8Array, count: number) =>
  Array.from({ length: count }, (_, i) =>
    hex(bytes.subarray((i * bytes.length) / count, ((i + 1) * bytes.length) / count)),
  );
const indexed = (raw: string, count: number): Pick<RawPicture, "mode" | "raw" | "palette"> => ({
  mode: "P",
  raw,
  palette: Array.from(colours(count)),
});

const cases: Case[] = [
  { options: "13x5 mono1", bytes: 10, raw: () => ({ mode: "1", raw: "1", size: [13, 5] }) },
  { options: "13x5 mono1 bits=lsb", bytes: 10, raw: () => ({ mode: "1", raw: "1;R", size: [13, 5] }) },
  { options: "13x5 mono1 invert", bytes: 10, raw: () => ({ mode: "1", raw: "1;I", size: [13, 5] }) },
  { options: "16x4 mono1", bytes: 8, elementBits: 16, raw: () => ({ mode: "1", raw: "1", size: [16, 4] }) },
  { options: "32x4 mono1", bytes: 16, elementBits: 32, raw: () => ({ mode: "1", raw: "1", size: [32, 4] }) },
  {
    options: "10x24 mono1 pack=pages",
    bytes: 30,
    raw: (b) => ({ mode: "1", raw: "1;R", size: [8, 10], bands: parts(b, 3), turns: ["TRANSPOSE"] }),
  },
  {
    options: "10x24 mono1 pack=pages bits=msb",
    bytes: 30,
    raw: (b) => ({ mode: "1", raw: "1", size: [8, 10], bands: parts(b, 3), turns: ["TRANSPOSE"] }),
  },
  {
    options: "6x16 mono1 pack=columns",
    bytes: 12,
    raw: () => ({ mode: "1", raw: "1;R", size: [16, 6], turns: ["TRANSPOSE"] }),
  },
  {
    options: "13x5 mono1 from=bottom-right",
    bytes: 10,
    raw: () => ({ mode: "1", raw: "1", size: [13, 5], turns: ["ROTATE_180"] }),
  },
  { options: "7x4 gray2", bytes: 8, raw: () => ({ mode: "L", raw: "L;2", size: [7, 4] }) },
  { options: "7x4 gray4", bytes: 16, raw: () => ({ mode: "L", raw: "L;4", size: [7, 4] }) },
  { options: "8x4 gray4", bytes: 16, elementBits: 32, raw: () => ({ mode: "L", raw: "L;4", size: [8, 4] }) },
  { options: "7x4 gray8", bytes: 28, raw: () => ({ mode: "L", raw: "L", size: [7, 4] }) },
  {
    options: "7x4 gray8 scan=columns",
    bytes: 28,
    raw: () => ({ mode: "L", raw: "L", size: [4, 7], turns: ["TRANSPOSE"] }),
  },
  {
    options: "7x4 gray8 from=bottom-left",
    bytes: 28,
    raw: () => ({ mode: "L", raw: "L", size: [7, 4], turns: ["FLIP_TOP_BOTTOM"] }),
  },
  {
    options: "9x2 palette1 palette=bed",
    bytes: 4,
    before: palette(2),
    raw: () => ({ ...indexed("P;1", 2), size: [9, 2] }),
  },
  {
    options: "7x4 palette2 palette=bed",
    bytes: 8,
    before: palette(4),
    raw: () => ({ ...indexed("P;2", 4), size: [7, 4] }),
  },
  {
    options: "7x4 palette4 palette=bed",
    bytes: 16,
    before: palette(16),
    raw: () => ({ ...indexed("P;4", 16), size: [7, 4] }),
  },
  {
    options: "7x4 palette8 palette=bed",
    bytes: 28,
    before: palette(256),
    raw: () => ({ ...indexed("P", 256), size: [7, 4] }),
  },
  { options: "7x4 rgb888", bytes: 84, raw: () => ({ mode: "RGB", raw: "RGB", size: [7, 4] }) },
  { options: "7x4 rgb888 bytes=le", bytes: 84, raw: () => ({ mode: "RGB", raw: "BGR", size: [7, 4] }) },
  { options: "7x4 rgb888", bytes: 112, elementBits: 32, raw: () => ({ mode: "RGB", raw: "XRGB", size: [7, 4] }) },
  { options: "7x4 rgb565 bytes=le", bytes: 56, raw: () => ({ mode: "RGB", raw: "BGR;16", size: [7, 4] }) },
  {
    options: "7x4 rgb565",
    bytes: 56,
    raw: (b) => ({ mode: "RGB", raw: "BGR;16", size: [7, 4], bands: [hex(swapped(b))] }),
  },
  {
    options: "7x4 rgb565",
    bytes: 56,
    elementBits: 16,
    raw: (b) => ({ mode: "RGB", raw: "BGR;16", size: [7, 4], bands: [hex(swapped(b))] }),
  },
  {
    options: "8x4 rgb565",
    bytes: 64,
    elementBits: 32,
    raw: (b) => ({ mode: "RGB", raw: "BGR;16", size: [8, 4], bands: [hex(swapped(b))] }),
  },
];

const name = ({ options, elementBits = 8 }: Case, i: number) => `${i}: ${options} in ${elementBits} bits`;
const bytesOf = ({ bytes }: Case, i: number) => noise(bytes, i + 1);

let folder: string;
let judged: Rgb[];
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), "raw-"));
  const pictures = cases.map((c, i): RawPicture => {
    const bytes = bytesOf(c, i);
    return { bands: [hex(bytes)], ...c.raw(bytes) };
  });
  judged = await decodeRaw(pictures);
});
afterAll(() => rm(folder, { recursive: true, force: true }));

/**
 * Pillow widens channels of rgb565 by 255 · v / most rounded down, we to the nearest: so both are compared as the
 * channel values that they come from.
 */
function narrow(data: ArrayLike<number>): number[] {
  return Array.from(data, (v, i) => Math.round((v * (i % 3 === 1 ? 63 : 31)) / 255));
}

describe("Pillow's raw decoders", () => {
  it.each(cases.map((c, i) => [name(c, i), c, i] as const))("agree on %s", async (_name, c, i) => {
    const file = join(folder, `${i}.h`);
    const out = join(folder, `${i}.png`);
    await writeFile(file, `${c.before ?? ""}// @bitmap ${c.options}\n${arrayText(bytesOf(c, i), c.elementBits)}`);
    expect(await runCli(["render", file, "art", "--out", out])).toMatchObject({ code: 0, stderr: "" });
    const { width, height, data } = PNG.sync.read(await readFile(out));
    const drawn = Array.from(data).filter((_, at) => at % 4 < 3);
    const expected = judged[i] as Rgb;
    expect([width, height]).toEqual([expected.width, expected.height]);
    if (c.options.includes("rgb565")) expect(narrow(drawn)).toEqual(narrow(expected.data));
    else expect(drawn).toEqual(expected.data);
    expect(new Set(drawn).size).toBeGreaterThan(1);
  });
});
