import { describe, expect, test } from "vitest";
import { openText } from "../../../shared/bitmap/open.ts";
import { pixelsOf } from "../../../shared/bitmap/resolve.ts";
import { bake } from "../../../shared/motion/bake.ts";
import { motionsOf } from "../../../shared/motion/resolve.ts";
import { applyEdits } from "../../../shared/source/text.ts";

const DROP = `// @bitmap 2x2 cap=64
const uint8_t drop[4] PROGMEM = {
   0,  15,
  15,  64,
};
`;
// By hand: the mask is 0 and 255, the edge hard and dark: at 255 the second column is uncovered, at 0 all of it.
const WORDS = "image=drop mask=linear soft=0 level=0 from=256 to=0 step=128";

function baked(text: string, share?: boolean): string {
  const file = openText(text, "art.h");
  const [motion] = motionsOf(file);
  if (!motion) throw new Error("no motion");
  const made = bake(file, motion, share);
  return "refused" in made ? made.refused : applyEdits(text, made.edits).slice(DROP.length);
}

describe("the array", () => {
  test.each([
    [
      "hardly begun takes after its neighbours",
      `// @motion ${WORDS}\n// @bitmap 2x2 cap=64 fps=4\nconst uint8_t reveal[] PROGMEM = {};\n`,
      `// @motion ${WORDS}
// @bitmap 2x2 cap=64 fps=4 frames=3
const uint8_t reveal[] PROGMEM = {
  /* frame 0 */
   0,  0,
   0,  0,
  /* frame 1 */
   0, 15,
   0, 64,
  /* frame 2 */
   0, 15,
  15, 64,
};
`,
    ],
    [
      "with frames keeps its form and comments",
      `// @motion ${WORDS}\n// @bitmap 2x2 cap=64 frames=2\nconst uint8_t reveal[2][4] = {\n  { 0x00, 0x01, /* one */ 0x00, 0x02 },\n  { 0x07, 0x0f, 0x00, 0x00 }\n};\n`,
      `// @motion ${WORDS}\n// @bitmap 2x2 cap=64 frames=3\nconst uint8_t reveal[3][4] = {\n  { 0x00, 0x00, /* one */ 0x00, 0x00 },\n  { 0x00, 0x0f, 0x00, 0x40 },\n  { 0x00, 0x0f, 0x0f, 0x40 }\n};\n`,
    ],
    [
      "with more frames loses the last, and the size follows by its name",
      `#define FRAMES 4\n// @motion ${WORDS}\n// @bitmap 2x2 cap=64 frames=4\nconst uint8_t reveal[FRAMES * 4] = { 1,2,3,4, 5,6,7,8, 9,10,11,12, 13,14,15,16 };\n`,
      `#define FRAMES 3\n// @motion ${WORDS}\n// @bitmap 2x2 cap=64 frames=3\nconst uint8_t reveal[FRAMES * 4] = { 0,0,0,0, 0,15,0,64, 0,15,15,64 };\n`,
    ],
    [
      "that is right stays as it is",
      `// @motion ${WORDS}\n// @bitmap 2x2 cap=64 frames=3\nconst uint8_t reveal[12] = { 0,0,0,0, 0,0xf,0,64, 0,15,15,0x40 };\n`,
      `// @motion ${WORDS}\n// @bitmap 2x2 cap=64 frames=3\nconst uint8_t reveal[12] = { 0,0,0,0, 0,0xf,0,64, 0,15,15,0x40 };\n`,
    ],
    [
      "packed in nibbles, with CR LF",
      `// @bitmap 2x1 gray4\r\nconst uint8_t seed[1] = { 0x5F };\r\n// @motion image=seed mask=linear soft=0 level=0 from=256 to=0 step=128\r\n// @bitmap 2x1 gray4\r\nconst uint8_t reveal[1] = {\r\n\t0x00,\r\n};\r\n`,
      `// @bitmap 2x1 gray4\r\nconst uint8_t seed[1] = { 0x5F };\r\n// @motion image=seed mask=linear soft=0 level=0 from=256 to=0 step=128\r\n// @bitmap 2x1 gray4 frames=3\r\nconst uint8_t reveal[3] = {\r\n\t0x00,\r\n\t0x0f,\r\n\t0x5f,\r\n};\r\n`,
    ],
  ])("%s", (_what, before, after) => expect(baked(DROP + before)).toBe(after));

  test("there and back stands whole in it, or once with a table of the order", () => {
    const back = `// @motion ${WORDS} loop=there-and-back\n// @bitmap 2x2 cap=64 frames=2\nconst uint8_t reveal[8] PROGMEM = { 0,0,0,0, 1,1,1,1 };\n`;
    const array = (count: number, list: string) =>
      `// @motion ${WORDS} loop=there-and-back\n// @bitmap 2x2 cap=64 frames=${count}\nconst uint8_t reveal[${4 * count}] PROGMEM = { ${list} };\n`;
    expect(baked(DROP + back)).toBe(array(4, "0,0,0,0, 0,15,0,64, 0,15,15,64, 0,15,0,64"));
    const shared = `${array(3, "0,0,0,0, 0,15,0,64, 0,15,15,64")}// Frame of reveal by place in the run, there and back.\nconst uint8_t reveal_order[4] PROGMEM = {\n  0, 1, 2, 1,\n};\n`;
    expect(baked(DROP + back, true)).toBe(shared);
    // The table that is there says that frames are shared, and is brought up to date.
    const slower = DROP + shared.replace("step=128", "step=256");
    expect(baked(slower)).toContain("frames=2");
    expect(baked(slower)).toContain("reveal_order[2] PROGMEM = {\n  0, 1,\n};");
  });
});

describe("refused, with the reason", () => {
  test.each([
    [
      "a motion that is not whole",
      "// @motion image=dorp\n// @bitmap 2x2\nconst uint8_t reveal[4] = {};",
      "not a bitmap of this file",
    ],
    ["no array", `// @motion ${WORDS}\nint x;`, "stands before no array"],
    [
      "numbers that a macro makes",
      `#define TWO 1, 2\n// @motion ${WORDS}\n// @bitmap 2x2\nconst uint8_t reveal[4] = { TWO, TWO };`,
      "reveal would lose names in its list",
    ],
    [
      "a part of a struct",
      `// @motion ${WORDS}\nstruct { uint8_t n; uint8_t art[4]; } s = { 4, \n// @bitmap 2x2\n{ 1, 2, 3, 4 } };`,
      "s.art is part of a larger initialiser",
    ],
  ])("%s", (_what, text, says) => expect(baked(DROP + text)).toContain(says));

  test("sharing what does not go back", () => {
    expect(baked(`${DROP}// @motion ${WORDS}\n// @bitmap 2x2\nconst uint8_t reveal[4] = {};`, true)).toContain(
      "does not go there and back",
    );
  });
});

test("frames that are the same are told", () => {
  const file = openText(
    `${DROP}// @motion ${WORDS.replace("from=256", "from=512")}\n// @bitmap 2x2\nconst uint8_t reveal[4] = {};`,
    "art.h",
  );
  const [motion] = motionsOf(file);
  const made = motion && bake(file, motion);
  expect(made && "same" in made && made.same).toEqual([
    [1, 0],
    [2, 0],
  ]);
});

test("an inverted array shows the same frames", () => {
  const after =
    DROP + baked(`${DROP}// @motion ${WORDS}\n// @bitmap 2x2 cap=64 invert\nconst uint8_t reveal[4] = {};\n`);
  const reveal = openText(after, "art.h").bitmaps.find((b) => b.array.name === "reveal");
  expect(reveal && [0, 1, 2].map((frame) => [...(pixelsOf(reveal, frame) ?? [])])).toEqual([
    [0, 0, 0, 0],
    [0, 15, 0, 64],
    [0, 15, 15, 64],
  ]);
});
