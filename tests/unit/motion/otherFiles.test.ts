/** Motions whose panel, image or mask stands in another file. */
import { expect, test } from "vitest";
import { openText } from "../../../shared/bitmap/open.ts";
import { panelsIn, withPanelsAround } from "../../../shared/bitmap/panels.ts";
import type { BitmapFile } from "../../../shared/bitmap/resolve.ts";
import { checkFile } from "../../../shared/checks/all.ts";
import { indexPanels } from "../../../shared/light/panelIndex.ts";
import { liveMotions } from "../../../shared/motion/live.ts";
import { playerOf } from "../../../shared/motion/play.ts";
import { motionsOf } from "../../../shared/motion/resolve.ts";
import { readSource } from "../../../shared/source/read.ts";

const around = (board: string) => indexPanels(panelsIn(readSource(board, { target: "host" }), "board.h", "board.h"));

function open(text: string, board: string, headers: Record<string, string> = {}, previous?: BitmapFile): BitmapFile {
  const includes = (name: string) => {
    const found = headers[name];
    return found === undefined ? undefined : { id: name, text: found };
  };
  return openText(text, "a.cpp", { panels: around(board), includes, previous });
}

test("code plays on a panel that a file around defines", () => {
  const file = open(
    "// @motion bed code\nuint8_t glow(int x, int y, int t) { return x + y; }\n",
    "// @panel bed 2x2 gray8\n",
  );
  const [motion] = liveMotions(file);
  expect(motion?.why).toBeUndefined();
  expect([...((motion && playerOf(motion)?.frame(0)) ?? [])]).toEqual([0, 1, 1, 2]);
  expect(checkFile(file)).toEqual([]);
});

test("code is tried again where only its panel in another file has changed", () => {
  const text = "// @motion bed code\nuint8_t glow(int x, int y, int t) { return 60; }\n";
  expect(checkFile(open(text, "// @panel bed 2x2 gray8 cap=64\n"))).toEqual([]);
  const [found] = checkFile(open(text, "// @panel bed 2x2 gray8 cap=50\n"));
  expect(found?.message).toBe("Frame 0 of `glow` holds the value 60; the cap is 50.");
  const fast = "// @motion bed code fps=20\nuint8_t glow(int x, int y, int t) { return t % 2 ? 255 : 0; }\n";
  const codes = (board: string) => checkFile(open(fast, board)).map(({ code }) => code);
  expect(codes("// @panel bed 2x2 gray8 pitch=3mm distance=500mm\n")).toEqual([]);
  expect(codes("// @panel bed 2x2 gray8\n")).toEqual(["flashing"]);
});

const MAIN =
  '#include "art.h"\n// @motion image=drop mask=veil soft=0 level=0 step=256 from=256 to=0\n' +
  "// @bitmap lantern frames=2\nconst uint8_t reveal[4] = { 0, 0, 9, 64 };\n";
const ART =
  "// @bitmap lantern\nconst uint8_t drop[2] = { 9, 64 };\n// @bitmap lantern mask\nconst uint8_t veil[2] = { 0, 255 };\n";

test("an included image and mask are read with the panels that the file knows", () => {
  const file = open(MAIN, "// @panel lantern 2x1 gray8 cap=64\n", { "art.h": ART });
  const [motion] = motionsOf(file);
  expect(motion?.problems).toEqual([]);
  expect([[...(motion?.moving?.image ?? [])], [...(motion?.moving?.mask ?? [])]]).toEqual([
    [9, 64],
    [0, 255],
  ]);
  expect(motion?.moving?.cap).toBe(64);
});

test("they are read anew with another panel", () => {
  const before = open(MAIN, "// @panel lantern 2x1 gray8 cap=64\n", { "art.h": ART });
  const image = (file: BitmapFile) => motionsOf(file)[0]?.image?.bitmap;
  const again = open(`${MAIN}\n`, "// @panel lantern 2x1 gray8 cap=64\n", { "art.h": ART }, before);
  expect(image(again)?.cap).toBe(64);
  const now = open(MAIN, "// @panel lantern 2x1 gray8 cap=70\n", { "art.h": ART }, again);
  expect(image(now)?.cap).toBe(70);
});

test("a file means something else with the panel of an included image, which it does not name itself", () => {
  const board = "// @panel lantern 2x1 gray8 cap=64\n";
  const main =
    '#include "art.h"\n// @motion image=drop mask=veil\nvoid play_drop(uint16_t frame, uint8_t *pixels) {}\n';
  const file = open(main, board, { "art.h": ART });
  expect(motionsOf(file)[0]?.moving?.cap).toBe(64);
  expect(withPanelsAround(file, around(board))).toBeDefined();
  expect(withPanelsAround(file, around(board.replace("64", "50")))).toBeUndefined();
});

test("a file in driver order means something else once the table of a panel elsewhere is wrong", () => {
  const board = "// @panel sill 2x1 gray8\n";
  const table = (entries: string) => `${board}// @wiring sill\nconst uint8_t sill_index[] = { ${entries} };\n`;
  const text = "// @bitmap sill order=driver\nconst uint8_t art[] = { 1, 2 };\n";
  const file = open(text, board);
  expect(withPanelsAround(file, around(board))).toBeDefined();
  expect(withPanelsAround(file, around(table("1, 1")))).toBeUndefined();
  expect(withPanelsAround(file, around(table("1, 0")))).toBeUndefined();
  expect(open(text, table("1, 1")).bitmaps[0]?.why).toContain("the wiring of sill is not known");
});
