import { describe, expect, test } from "vitest";
import { openText } from "../../../shared/bitmap/open.ts";
import { framesOf } from "../../../shared/motion/kernel/frame.ts";
import { type Motion, motionsOf } from "../../../shared/motion/resolve.ts";

const ART = `// @panel lantern 3x3 gray8 cap=64
// @bitmap lantern
const uint8_t drop[9] = { 0, 15, 0,  15, 64, 15,  0, 15, 0 };
// @bitmap 3x3
const uint8_t ramp[9] = { 0, 0, 0,  128, 128, 128,  255, 255, 255 };
// @bitmap 3x3 mono1
const uint8_t checks[3] = { 0xA0, 0x40, 0xA0 };
// @bitmap 4x3
const uint8_t wide[12] = {};
// @bitmap 3x3 rgb565
const uint16_t leaf[9] = {};
// @bitmap lantern frames=2 chars="01"
const uint8_t digits[18] = { 0, 9, 0, 9, 0, 9, 0, 9, 0,  0, 0, 7, 0, 0, 7, 0, 0, 7 };
`;

/** The one motion of a text whose words are given, before an array of frames or what else stands there. */
function motion(words: string, before = "// @bitmap lantern fps=10\nconst uint8_t reveal[9] = {};"): Motion {
  const [only, ...more] = motionsOf(openText(`${ART}// @motion ${words}\n${before}\n`, "art.h"));
  if (!only || more.length > 0) throw new Error("not one motion");
  return only;
}

const positions = (words: string) => [...(motion(words).moving?.timeline.positions ?? [])];

describe("what is not said", () => {
  test("is a radial mask, an edge as bright as the cap, and the ends where all is dark and all is shown", () => {
    const { moving, fps, name } = motion("image=drop");
    expect({ name, fps, cap: moving?.cap, edge: moving && { ...moving.edge, inside: 0, light: 0 } }).toEqual({
      name: "reveal",
      fps: 10,
      cap: 64,
      edge: { soft: 64, rim: 0, level: 64, inside: 0, light: 0 },
    });
    expect(moving?.mask[4]).toBe(255);
    expect([moving?.timeline.positions[0], moving?.timeline.positions.at(-1)]).toEqual([319, -64]);
    const frames = moving ? framesOf(moving) : [];
    expect([...(frames[0] ?? [])]).toEqual([0, 0, 0, 0, 0, 0, 0, 0, 0]);
    expect([...(frames.at(-1) ?? [])]).toEqual([0, 15, 0, 15, 64, 15, 0, 15, 0]);
  });

  test("a hard edge begins one further, where not even the edge is seen", () => {
    expect(positions("image=drop soft=5 rim=5 step=400")).toEqual([261, -5]);
    const { moving } = motion("image=drop soft=5 rim=5 step=400");
    expect(moving && [...(framesOf(moving)[0] ?? [])].every((level) => level === 0)).toBe(true);
  });
});

describe("the timeline", () => {
  test("from low to high covers", () => {
    const { moving } = motion("image=drop soft=4 from=-4 to=259 step=100");
    expect([...(moving?.timeline.positions ?? [])]).toEqual([-4, 96, 196, 259]);
    expect(moving && [...(framesOf(moving)[0] ?? [])]).toEqual([0, 15, 0, 15, 64, 15, 0, 15, 0]);
  });

  test("of so many seconds has as many frames as are shown in them", () => {
    expect(positions("image=drop soft=0 from=90 to=0 seconds=0.4")).toEqual([90, 60, 30, 0]);
    expect(positions("image=drop soft=0 from=90 to=0 seconds=400ms")).toEqual([90, 60, 30, 0]);
    expect(positions("image=drop soft=0 from=90 to=0 seconds=0.4 fps=5")).toEqual([90, 0]);
  });
});

describe("ingredients", () => {
  test("a mask of another format is taken at 255ths", () => {
    expect([...(motion("image=drop mask=checks").moving?.mask ?? [])]).toEqual([255, 0, 255, 0, 255, 0, 255, 0, 255]);
    expect([...(motion("image=drop mask=ramp").moving?.mask ?? [])].slice(2, 5)).toEqual([0, 128, 128]);
  });

  test("a frame of a set", () => {
    expect([...(motion("image=digits[1]").moving?.image ?? [])]).toEqual([0, 0, 7, 0, 0, 7, 0, 0, 7]);
  });

  test("a set before no array changes its glyphs, the first one into the second to look at", () => {
    const { glyphs, moving, name } = motion("image=digits", "int x;");
    expect({ glyphs, name }).toEqual({ glyphs: true, name: "play_digits" });
    expect([moving?.under?.[1], moving?.image[2]]).toEqual([9, 7]);
    expect(motion("image=digits[0]", "int x;").glyphs).toBe(false);
  });
});

describe("what is wrong, on its word", () => {
  test.each([
    ["mask=radial", "@motion", "needs `image=`", undefined],
    [
      "image=dorp",
      "dorp",
      "`dorp` is not a bitmap of this file or of a header that it includes. Did you mean `drop`?",
      "drop",
    ],
    ["image=drop mask=radail", "radail", "Did you mean `radial`?", "radial"],
    ["image=wide", "image=wide", "wide is 4×3, and reveal is 3×3", undefined],
    ["image=drop mask=wide", "mask=wide", "The mask wide is 4×3, and the image is 3×3", undefined],
    ["image=leaf", "leaf", "leaf is rgb565: motions are computed of levels", undefined],
    ["image=checks", "image=checks", "checks is mono1 and reveal is gray8", undefined],
    ["image=digits[2]", "digits[2]", "digits has 2 frames, numbered from 0", undefined],
    ["image=reveal", "reveal", "holds the frames", undefined],
    ["image=drop soft=8 rim=9", "rim=9", "wider than the edge", "rim=8"],
    ["image=drop rim=65", "rim=65", "`soft` is 64", "rim=64"],
    ["image=drop level=65", "level=65", "above 64", "level=64"],
    ["image=drop step=5 seconds=2", "seconds=2", "leave one out", undefined],
    ["image=drop angle=5", "angle=5", "`angle` is for", undefined],
    ["image=drop mask=linear seed=5", "seed=5", "`seed` is for", undefined],
    ["image=drop seconds=900", "seconds=900", "9000 frames; at most 4096", undefined],
  ])("%s", (words, on, says, instead) => {
    const text = `${ART}// @motion ${words}\n// @bitmap lantern fps=10\nconst uint8_t reveal[9] = {};\n`;
    const [only] = motionsOf(openText(text, "art.h"));
    expect(only?.problems.map((p) => [text.slice(p.start, p.end), p.suggestion])).toEqual([[on, instead]]);
    expect(only?.problems[0]?.message).toContain(says);
    expect(only?.moving).toBeUndefined();
  });

  test("seconds without a speed", () => {
    const { problems } = motion("image=drop seconds=2", "// @bitmap lantern\nconst uint8_t reveal[9] = {};");
    expect(problems[0]?.message).toContain("needs a speed");
  });

  test("an array without a @bitmap", () => {
    expect(motion("image=drop", "const uint8_t reveal[9] = {1};").problems[0]?.message).toContain(
      "needs a @bitmap as well",
    );
  });

  test.each([
    ["soft=-1", "-1"],
    ["soft=1024", "1024"],
    ["step=0", "0"],
    ["from=2048", "2048"],
    ["ease=cubic", "cubic"],
    ["loop=forever", "forever"],
    ["seconds=0", "0"],
    ["soft", "soft"],
    ["image=", "image="],
  ])("%s is a word that can't be read", (word, on) => {
    const text = `${ART}// @motion image=drop ${word}\n// @bitmap lantern\nconst uint8_t reveal[9] = {};\n`.replace(
      word === "image=" ? "image=drop " : "\0",
      "",
    );
    const file = openText(text, "art.h");
    expect(file.problems.map((p) => text.slice(p.start, p.end))).toEqual([on]);
    expect(motionsOf(file)[0]?.moving).toBeUndefined();
  });
});

test("motions that are played from code are left to others", () => {
  expect(motionsOf(openText(`${ART}// @motion lantern code fps=30 buffer=frame\nvoid draw() {}\n`, "art.h"))).toEqual(
    [],
  );
});
