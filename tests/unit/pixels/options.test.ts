import { describe, expect, it } from "vitest";
import { FORMATS, greyOf } from "../../../shared/pixels/formats.ts";
import { parseOptions, readSize, wordsFor } from "../../../shared/pixels/options.ts";
import { annotationsIn } from "../../../shared/source/annotationSyntax.ts";

function parse(comment: string, panels: string[] = []) {
  const text = `// ${comment}`;
  const [annotation] = annotationsIn(text, { start: 0, end: text.length });
  if (!annotation) throw new Error(`no annotation in ${comment}`);
  return parseOptions(annotation, new Set(panels));
}

/** [words, options in their units] */
const valid: [string, Record<string, unknown>][] = [
  ["9x7", { width: 9, height: 7 }],
  ["65535x1", { width: 65535, height: 1 }],
  ["mono1", { format: FORMATS.get("mono1") }],
  [
    "pack=rows bits=msb pad=16 spare=first bytes=le",
    { pack: "rows", bits: "msb", pad: "16", spare: "first", bytes: "le" },
  ],
  ["scan=serpentine-columns from=bottom-right", { scan: "serpentine-columns", from: "bottom-right" }],
  ["skip=0 lead=6 frames=1", { skip: 0, lead: 6, frames: 1 }],
  ["fps=20", { fps: 20 }],
  ["fps=12.5", { fps: 12.5 }],
  ["first=' '", { first: 32 }],
  ["first='''", { first: 39 }],
  ["first='\\''", { first: 39 }],
  ["first='\\x41'", { first: 65 }],
  ["first='\\n'", { first: 10 }],
  ["first='ä'", { first: 0xe4 }],
  ["first='\u{1F331}'", { first: 0x1f331 }],
  ["first=U+0041", { first: 65 }],
  ["first=U+10FFFF", { first: 0x10ffff }],
  ['chars="01:"', { chars: [48, 49, 58] }],
  ['chars="a b"', { chars: [97, 32, 98] }],
  ['chars="\\"\\\\\\u00b0"', { chars: [34, 92, 0xb0] }],
  ["widths=font_widths", { widths: "font_widths" }],
  ["invert entries", { invert: true, entries: true }],
  ["cap=64", { cap: { value: 64 } }],
  ["cap=0", { cap: { value: 0 } }],
  ["cap=25%", { cap: { percent: 25 } }],
  ["cap=12.5%", { cap: { percent: 12.5 } }],
  ["night=16", { night: { value: 16 } }],
  ["night=5%", { night: { percent: 5 } }],
  ["mask", { mask: true }],
  ["drive=25%", { drive: 0.25 }],
  ["drive=100%", { drive: 1 }],
  ["full=5mA idle=0.5mA budget=1.5A", { full: 5, idle: 0.5, budget: 1500 }],
  ["full=500uA", { full: 0.5 }],
  ["duty=1/9", { duty: 1 / 9 }],
  ["duty=1/1", { duty: 1 }],
  ["bus=400k", { bus: 400_000 }],
  ["bus=8M", { bus: 8_000_000 }],
  ["bus=9600", { bus: 9600 }],
  ["overhead=9/8", { overhead: 1.125 }],
  ["overhead=1/1", { overhead: 1 }],
  [
    "light=srgb tint=#FFb84d lattice=diamond dot=square mount=270",
    {
      light: "srgb",
      tint: "#FFb84d",
      lattice: "diamond",
      dot: "square",
      mount: 270,
    },
  ],
  ["pitch=3mm distance=0.5m", { pitch: 3, distance: 500 }],
  ["pitch=1cm", { pitch: 10 }],
  ["palette=head", { palette: "head" }],
  ["order=driver", { order: "driver" }],
];

describe("options of @bitmap", () => {
  it.each(valid)("%s", (words, options) => {
    const parsed = parse(`@bitmap ${words}`);
    expect(parsed.problems).toEqual([]);
    expect(parsed.options).toEqual(options);
  });

  it.each(["", "soon", "-1", "1e3", "0x10", " "])("frames=%s is none", (value) => {
    expect(parse(`@bitmap frames=${value}`).problems).toHaveLength(1);
    expect(parse(`@bitmap frames=${value}`).options.frames).toBeUndefined();
  });

  it.each([
    "fps=0",
    "full=5",
    "full=5V",
    "full=-5mA",
    "budget=0mA",
    "bus=400kHz",
    "overhead=8/9",
    "overhead=1.125",
    "overhead=9/0",
    "duty=9/1",
    "duty=0/9",
    "duty=1",
    "night=-1",
    "night=101%",
    "drive=0%",
    "drive=0.5",
    "drive=101%",
    "cap=101%",
    "cap=6.5",
    "tint=amber",
    "tint=#fff",
    "mount=45",
    "pitch=3",
    "first=A",
    'chars=""',
    "chars=abc",
    "widths=9",
    "order=panel",
    "pad=8",
  ])("%s is no value", (word) => {
    const { problems, options } = parse(`@bitmap ${word}`);
    expect(problems.map(({ code }) => code)).toEqual(["annotation"]);
    expect(options).toEqual({});
  });

  it("a panel's name is a bare word", () => {
    expect(parse("@bitmap lantern 5x7", ["lantern"]).name?.text).toBe("lantern");
    expect(parse("@bitmap lantern status", ["lantern", "status"]).problems.map((p) => p.message)).toEqual([
      "A panel is already named here (lantern).",
    ]);
  });
});

describe("options of @panel", () => {
  it.each([
    "serpentine;bottom-right",
    "12x4;6x4@0,0>0,0;6x4@0,4>6,0",
    "3x3@0,0>0,0/90",
    "3x3@0,0>0,0/180/mirror",
    "columns",
  ])("wire=%s", (wire) => {
    expect(parse(`@panel lantern 9x9 wire=${wire}`)).toMatchObject({ problems: [], options: { wire } });
  });

  it.each(["", ";", "zigzag", "3x3@0>0", "3x3@0,0>0,0/45", "serpentine;", "serpentine; bottom-right"])(
    "wire=%s is none",
    (wire) => {
      expect(parse(`@panel lantern 9x9 wire=${wire}`).problems.length).toBeGreaterThan(0);
    },
  );

  it.each(["frames=2", "skip=1", "first='A'", "fps=20", "widths=w", "order=driver", "entries"])(
    "%s belongs to one array, not to a panel",
    (word) => {
      expect(parse(`@panel lantern 9x9 ${word}`).problems).toHaveLength(1);
    },
  );

  it("wire belongs to a panel", () => {
    expect(parse("@bitmap 9x9 wire=columns").problems).toHaveLength(1);
  });

  it.each(["1lantern", "lan.tern", "é", "9x9"])("%s is no name", (name) => {
    expect(parse(`@panel ${name}`).name).toBeUndefined();
  });

  it.each(["lantern", "lantern-2", "_l"])("%s is a name", (name) => {
    expect(parse(`@panel ${name} 9x9`)).toMatchObject({ problems: [], name: { text: name } });
  });
});

describe("sizes", () => {
  it.each([
    ["9x9", { width: 9, height: 9 }],
    ["128x64", { width: 128, height: 64 }],
    ["0x9", { problem: "A size is at least 1x1, not 0x9." }],
    ["65536x1", { problem: "65536x1 is larger than any display; a side is at most 65535." }],
    ["9X9", undefined],
    ["9x", undefined],
    ["x9", undefined],
    ["-9x9", undefined],
    ["9x9x9", undefined],
  ])("%s", (text, size) => {
    expect(readSize(text)).toEqual(size);
  });
});

describe("the vocabulary of a marker", () => {
  it("holds the formats and flags as bare words, and the keys", () => {
    const { keys, flags } = wordsFor("bitmap");
    expect(flags).toEqual(expect.arrayContaining([...FORMATS.keys(), "invert", "entries"]));
    expect(keys).toEqual(expect.arrayContaining(["pack", "cap", "frames"]));
    expect(keys).not.toContain("wire");
    expect(keys).not.toContain("invert");
    expect(wordsFor("panel").keys).toContain("wire");
    expect(wordsFor("palette").flags).toContain("rgb565");
  });
});

/** PNG Third Edition section 13.12: floor(in * MAXOUT / MAXIN + 0.5). */
describe("greys at full scale", () => {
  it.each(["mono1", "gray2", "gray4", "gray8"])("%s", (name) => {
    const format = FORMATS.get(name);
    if (!format) throw new Error(name);
    for (let v = 0; v <= format.most; v++) expect(greyOf(format, v)).toBe(Math.floor((v * 255) / format.most + 0.5));
  });

  it.each([
    ["mono1", [0, 255]],
    ["gray2", [0, 85, 170, 255]],
  ] as const)("%s is %j", (name, greys) => {
    const format = FORMATS.get(name);
    expect(format && greys.map((_, v) => greyOf(format, v))).toEqual(greys);
  });
});
