import { describe, expect, it, test } from "vitest";
import { meaningOf } from "../../../shared/bitmap/make.ts";
import { openText } from "../../../shared/bitmap/open.ts";
import { panelsIn, panelUse, withPanelsAround } from "../../../shared/bitmap/panels.ts";
import { pasted } from "../../../shared/bitmap/pasted.ts";
import type { BitmapFile } from "../../../shared/bitmap/resolve.ts";
import { checkFile } from "../../../shared/checks/all.ts";
import { indexPanels } from "../../../shared/light/panelIndex.ts";
import { panelNameProblem } from "../../../shared/pixels/options.ts";
import { readSource } from "../../../shared/source/read.ts";

/** Opens one of several files: all of them are around, and `#include "NAME"` finds the file of that path. */
function open(files: Readonly<Record<string, string>>, path: string): BitmapFile {
  const panels = indexPanels(
    Object.entries(files).flatMap(([id, text]) => panelsIn(readSource(text, { target: "host" }), id.slice(1), id)),
  );
  const includes = (name: string) => {
    const text = files[name];
    return text === undefined ? undefined : { id: name, text };
  };
  return openText(files[path] ?? "", path.slice(1), { panels, includes, id: path });
}

const ART = "// @bitmap lantern\nconst uint8_t a[] = { 1, 2 };";
const of = (size: string) => `// @panel lantern ${size} gray8\n`;

describe("of several definitions holds", () => {
  it.each<[string, Record<string, string>, string]>([
    ["that of the file itself", { "/b/art.h": of("1x1") + ART, "/b/board.h": of("2x1") }, "/b/art.h"],
    [
      "that of the first file that it includes",
      {
        "/b/art.h": `#include "/c/two.h"\n#include "/c/three.h"\n${ART}`,
        "/b/board.h": of("1x1"),
        "/c/two.h": of("2x1"),
        "/c/three.h": of("3x1"),
      },
      "/c/two.h",
    ],
    [
      "that of a file included by way of another",
      {
        "/b/art.h": `#include "/c/all.h"\n${ART}`,
        "/b/a.h": of("1x1"),
        "/c/all.h": '#include "/d/x.h"',
        "/d/x.h": of("2x1"),
      },
      "/d/x.h",
    ],
    [
      "that in the same folder",
      { "/a/board.h": of("1x1"), "/b/art.h": ART, "/b/board.h": of("2x1"), "/b/c/board.h": of("3x1") },
      "/b/board.h",
    ],
    [
      "that in the nearest folder above",
      { "/a/board.h": of("1x1"), "/b/c/d/art.h": ART, "/b/board.h": of("2x1"), "/board.h": of("3x1") },
      "/b/board.h",
    ],
    ["the first by path", { "/b/art.h": ART, "/b/x/board.h": of("1x1"), "/b/y/board.h": of("2x1") }, "/b/x/board.h"],
  ])("%s", (_, files, holds) => {
    const path = Object.keys(files).find((name) => name.endsWith("art.h")) ?? "";
    const { bitmaps, problems } = open(files, path);
    expect(bitmaps[0]?.panel?.id).toBe(holds);
    expect(problems.filter(({ code }) => code === "unknown-panel")).toEqual([]);
  });

  it("the same for words of a new bitmap, and for text that is pasted", () => {
    const files = { "/a/board.h": of("1x1"), "/b/art.h": ART, "/b/board.h": of("2x1"), "/b/x.h": of("4x1") };
    const file = open(files, "/b/art.h");
    expect(meaningOf(file, "lantern")).toMatchObject({ width: 2 });
    expect(pasted("// @bitmap lantern\nuint8_t a[] = { 1, 2 };", file, 1)).toMatchObject({ width: 2, pixels: [1, 2] });
    const own = open({ ...files, "/b/art.h": of("3x1") }, "/b/art.h");
    expect(meaningOf(own, "lantern")).toMatchObject({ width: 3 });
  });

  it("in the same file the first, and the second is a finding", () => {
    const { bitmaps, problems } = open({ "/art.h": of("1x1") + of("2x1") + ART }, "/art.h");
    expect(bitmaps[0]?.width).toBe(1);
    expect(problems.map(({ message }) => message)).toEqual([
      "A panel `lantern` is already defined in this file; the first one holds.",
    ]);
  });
});

describe("a panel that two files define", () => {
  const files = { "/b/art.h": `\n${of("2x1")}`, "/b/board.h": of("3x1") };

  it("is a warning in each, with the other place and which one holds", () => {
    const [finding] = checkFile(open(files, "/b/art.h"));
    expect(finding).toMatchObject({ code: "annotation", severity: "warning", span: { start: 11, end: 18 } });
    expect(finding?.message).toContain("defined otherwise in b/board.h:1.");
    expect(finding?.message).toContain("A bitmap takes the one in its own file");
    expect(finding?.related).toEqual([
      { id: "/b/board.h", file: "b/board.h", line: 0, start: 10, end: 17, message: "@panel lantern 3x1 gray8" },
    ]);
    const [other] = checkFile(open(files, "/b/board.h"));
    expect(other?.message).toContain("defined otherwise in b/art.h:2.");
  });

  it("in the same words is said and no warning", () => {
    const same = { "/b/art.h": of("2x1"), "/b/board.h": "/* @panel   lantern 2x1\n   gray8 */" };
    expect(checkFile(open(same, "/b/art.h"))).toMatchObject([
      { severity: "information", message: expect.stringContaining("in the same words") },
    ]);
  });

  it("in folders side by side is no warning, as they may be projects of their own", () => {
    const apart = { "/b/board.h": of("3x1"), "/c/board.h": of("2x1") };
    expect(checkFile(open(apart, "/b/board.h"))).toMatchObject([
      { severity: "information", message: expect.stringContaining("defined otherwise in c/board.h:1.") },
    ]);
  });

  it("is a warning where it is named and only the order of paths decides", () => {
    const art = { "/b/art.h": ART, "/b/y/board.h": of("2x1"), "/b/z/board.h": of("1x2"), "/c/board.h": of("1x1") };
    const [finding, ...more] = checkFile(open(art, "/b/art.h"));
    expect([finding, more]).toMatchObject([{ code: "annotation", severity: "warning", span: { start: 11 } }, []]);
    expect(finding?.message).toContain("`lantern` is defined in b/y/board.h:1 and otherwise in b/z/board.h:1;");
    expect(finding?.related?.map(({ id }) => id)).toEqual(["/b/y/board.h", "/b/z/board.h"]);
    // Included, it is meant.
    const meant = { ...art, "/b/art.h": `#include "/b/z/board.h"\n${ART}` };
    expect(checkFile(open(meant, "/b/art.h"))).toEqual([]);
  });

  it("of many other files ten are told", () => {
    const many = Object.fromEntries(Array.from({ length: 30 }, (_, i) => [`/b/board${i + 10}.h`, of("3x1")]));
    const [finding] = checkFile(open({ ...many, "/b/art.h": of("2x1") }, "/b/art.h"));
    expect(finding?.message).toContain("in b/board10.h:1 and 29 more.");
    expect(finding?.related).toHaveLength(10);
  });
});

describe("a name that no file defines", () => {
  it("is a finding with the nearest name of any file", () => {
    const files = { "/art.h": ART.replace("lantern", "lantren"), "/x/board.h": of("2x1") };
    expect(checkFile(open(files, "/art.h"))).toMatchObject([
      { code: "unknown-panel", data: { suggestion: "lantern" } },
    ]);
  });
});

describe("what a file takes from the index", () => {
  test.each<[string, string, string, string, boolean]>([
    ["another panel that nobody names", ART, of("2x1"), `${of("2x1")}// @panel shelf 5x5\n`, true],
    ["the panel that it names", ART, of("2x1"), of("2x2"), false],
    ["the line of a panel that it does not define", ART, of("2x1"), `\n${of("2x1")}`, true],
    ["its spacing", ART, of("2x1"), of("2x1").replace(" gray8", "   gray8"), true],
    ["the line of a panel that it defines as well", of("2x1"), of("3x1"), `\n${of("3x1")}`, false],
    ["a first definition", ART, "", of("2x1"), false],
    ["any name, while a word is unknown", ART, "", "// @panel shelf 5x5\n", false],
  ])("%s", (_, text, before, after, same) => {
    const file = open({ "/a.h": text, "/b.h": before }, "/a.h");
    const around = indexPanels(panelsIn(readSource(after, { target: "host" }), "b.h", "/b.h"));
    const now = withPanelsAround(file, around);
    expect(now !== undefined).toBe(same);
    // The same is told without keeping the file.
    const use = panelUse(file);
    const from = indexPanels(panelsIn(readSource(before, { target: "host" }), "b.h", "/b.h"));
    expect(use(around) === use(from)).toBe(same);
    if (now) expect(now.known.get("lantern").at(-1)?.place).toEqual(around.get("lantern")[0]?.place);
  });
});

test("a panel of an included file that is not around is known by the last part of its id", () => {
  const name = (id: string) => {
    const includes = () => ({ id, text: of("2x1") });
    const { problems } = openText(`#include "x"\n${of("3x1")}`, "art.h", { includes });
    return /otherwise in (.*?):1\./.exec(problems[0]?.message ?? "")?.[1];
  };
  expect([name("file:///a/the%20board.h"), name("C:\\a\\board.h"), name("a/100%.h")]).toEqual([
    "the board.h",
    "board.h",
    "100%.h",
  ]);
});

test.each<[string, boolean]>([
  ["lantern", true],
  ["shelf-2", true],
  ["gray8", false],
  ["invert", false],
  ["entries", false],
  ["9x9", false],
  ["2nd", false],
  ["a b", false],
  ["", false],
])("may %j name a panel: %s", (name, may) => {
  expect(panelNameProblem(name) === undefined).toBe(may);
});
