import { describe, expect, it } from "vitest";
import { openText } from "../../../shared/bitmap/open.ts";
import { indexPanels } from "../../../shared/light/panelIndex.ts";

const array = "const uint8_t a[] = { 1, 2 };";
const problems = (source: string) => openText(source, "art.h").problems.map(({ message }) => message);

describe("the other markers", () => {
  it.each<[string, string[]]>([
    ["// @wiring lantern", ["The panel"]],
    ["// @palette", ["An @palette names the format of its colours, such as rgb565."]],
    ["// @wiring", ["An @wiring names the panel whose addresses it holds."]],
  ])("%s", (annotation, [message = ""]) => {
    const found = problems(`${annotation}\n${array}`);
    expect(found).toHaveLength(1);
    if (!message.startsWith("The panel")) expect(found).toEqual([message]);
    else expect(found[0]).toContain("lantern");
  });

  it("a panel of the file is offered", () => {
    expect(problems(`// @panel lantern 2x1\n// @wiring\n${array}`)).toEqual([
      "An @wiring names the panel whose addresses it holds, such as `lantern`.",
    ]);
  });

  it.each([`// @panel lantern 2x1\n// @wiring lantern\n${array}`, `// @palette rgb565\n${array}`])(
    "%j is right",
    (source) => {
      expect(problems(source)).toEqual([]);
    },
  );
});

describe("panels", () => {
  const lantern = (size: string, more = "") => openText(`// @panel lantern ${size} ${more}`, "board.h").panels;

  it("of another file are known by name", () => {
    const panels = indexPanels(lantern("2x1", "cap=9"));
    const { bitmaps, problems } = openText(`// @bitmap lantern\n${array}`, "art.h", { panels });
    expect(problems).toEqual([]);
    expect(bitmaps[0]).toMatchObject({ width: 2, height: 1, cap: 9, panel: { file: "board.h" } });
  });

  it("of the same file come first", () => {
    const panels = indexPanels(lantern("4x1"));
    const { bitmaps } = openText(`// @panel lantern 2x1\n// @bitmap lantern\n${array}`, "art.h", { panels });
    expect(bitmaps[0]).toMatchObject({ width: 2, panel: { file: "art.h" } });
  });

  it("of one name are kept together", () => {
    expect(indexPanels([...lantern("2x1"), ...lantern("4x1")]).get("lantern")).toHaveLength(2);
  });

  it.each([
    ["cap=9", "gray8", 9],
    ["cap=50%", "gray8", 127],
    // A raw value is of the panel's format; a share is of any.
    ["cap=9", "mono1", undefined],
    // A pixel without levels has no share of full scale: a lit one must not be a finding.
    ["cap=50%", "mono1", undefined],
  ])("%s of the panel for %s", (cap, format, expected) => {
    const { bitmaps } = openText(`// @panel p 2x1 ${cap}\n// @bitmap p ${format}\n${array}`, "art.h");
    expect(bitmaps[0]?.cap).toBe(expected);
  });
});

describe("bounds", () => {
  it("more pixels than can be laid out are a finding, not a picture", () => {
    const { bitmaps, problems } = openText(`// @bitmap 65535x65535\n${array}`, "art.h");
    expect(bitmaps).toEqual([]);
    expect(problems.map(({ message }) => message)).toEqual([
      "65535x65535 with 1 frames is larger than can be laid out (16777216 pixels).",
    ]);
  });

  it.each([
    ['chars="ab"', "`chars` lists 2 characters for 1 frame."],
    ['frames=3 chars="ab"', "`chars` lists 2 characters for 3 frames."],
  ])("%s", (words, message) => {
    expect(problems(`// @bitmap 1x1 ${words}\n${array}`)).toEqual([message]);
  });
});

describe("the target of a file", () => {
  it.each([
    ["lantern.ino", "avr"],
    ["LANTERN.INO", "avr"],
    ["lantern.pde", "avr"],
    ["art.h", "host"],
    ["ino.cpp", "host"],
    ["", "host"],
  ])("%s: %s", (file, target) => {
    expect(openText("", file).source.target).toBe(target);
  });
});

/** Xlib manual, XReadBitmapFile: `NAME_width`, `NAME_height` and `NAME_bits`; the prefix may be missing. */
describe("XBM", () => {
  it.each([
    ["#define wood_width 8\n#define wood_height 1\nstatic unsigned char wood_bits[] = { 1 };", 1],
    ["#define width 8\n#define height 1\nstatic char bits[] = { 1 };", 1],
    ["#define wood_width 0x8\n#define wood_height 1\nstatic char wood_bits[] = { 1 };", 1],
    ["#define wood_width 8\nstatic char wood_bits[] = { 1 };", 0],
    ["#define wood_width 0\n#define wood_height 1\nstatic char wood_bits[] = { 1 };", 0],
    ["#define wood_width W\n#define wood_height 1\nstatic char wood_bits[] = { 1 };", 0],
    ["#define wood_width 8\n#define wood_height 1\nstatic char wood_data[] = { 1 };", 0],
    ["#define wood_width 8\n#define wood_height 1\nstatic char habits[] = { 1 };", 0],
  ])("%j: %i", (source, count) => {
    expect(openText(source, "wood.xbm").bitmaps).toHaveLength(count);
  });

  it("an annotation says it otherwise", () => {
    const source =
      "#define wood_width 8\n#define wood_height 1\n// @bitmap 4x1 mono1\nstatic uint8_t wood_bits[] = { 1 };";
    expect(openText(source, "wood.xbm").bitmaps.map(({ width }) => width)).toEqual([4]);
  });
});

describe("elements of type bool", () => {
  const why = (words: string) =>
    openText(`// @bitmap ${words}\nconst bool a[] = { true, 0, 1, false };`, "art.cpp").bitmaps[0]?.why;

  it("hold one lit or dark pixel each, and no other pixels", () => {
    expect(why("2x2 mono1 pack=each")).toBeUndefined();
    for (const words of ["8x4 mono1", "2x2 gray8", "2x2 gray2 pack=each"])
      expect(why(words)).toBe("elements of type `bool` hold only 0 or 1, which `mono1 pack=each` reads");
  });
});
