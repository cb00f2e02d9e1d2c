import { expect, test } from "vitest";
import { readPictures } from "../../support/readPictures.ts";
import { findingsOf } from "./findings.ts";
import { describeClean, describeFindings } from "./tables.ts";

const DROP = "// @bitmap 2x1\nconst uint8_t drop[2] = { 9, 64 };\n";
/** A motion over 0 and 255 with a hard, dark edge: three frames, 0 0, 0 64, 9 64. */
const motion = (words: string, list: string, bitmap = "frames=3", size = "") =>
  `${DROP}// @motion image=drop mask=linear ${words}\n// @bitmap 2x1 ${bitmap}\nconst uint8_t a[${size}] = ${list};`;
const HARD = "soft=0 level=0 from=256 to=0 step=128";
const RIGHT = "{ 0, 0,  0, 64,  9, 64 }";

describeFindings("motion", "warning", [
  {
    what: "frames out of date",
    source: motion(HARD, "{ 0, 0,  0, 63,  9, 64 }"),
    says: "a does not hold what its @motion gives: frame 1 is the first that differs.",
    on: "@motion",
    fixes: { "Bake 3 frames into a": motion(HARD, RIGHT) },
  },
  {
    what: "another number of frames",
    source: motion(HARD, "{ 0, 0,  0, 64 }", "frames=2"),
    says: "a holds 2 frames, and its @motion gives 3.",
    on: "@motion",
    fixes: { "Bake 3 frames into a": motion(HARD, RIGHT) },
  },
  {
    what: "an end that leaves some of the picture",
    source: motion("soft=0 level=0 from=255 to=0 step=255", "{ 0, 64,  9, 64 }", "frames=2"),
    says: "No frame is wholly dark: with this mask that begins at 256.",
    on: "from=255",
    fixes: {
      "Write `from=256`": motion("soft=0 level=0 from=256 to=0 step=255", "{ 0, 64,  9, 64 }", "frames=2"),
    },
    left: { "Write `from=256`": ["motion"] },
  },
  {
    what: "an end that does not show all",
    source: motion("soft=0 level=0 from=256 to=1 step=255", "{ 0, 0,  0, 64 }", "frames=2"),
    says: "No frame shows the image alone: with this mask that is at 0 and below.",
    on: "to=1",
    fixes: { "Write `to=0`": motion("soft=0 level=0 from=256 to=0 step=255", "{ 0, 0,  0, 64 }", "frames=2") },
    left: { "Write `to=0`": ["motion"] },
  },
  {
    what: "covering, where the ends are the other way round",
    source: motion("soft=0 level=0 from=1 to=256 step=255", "{ 0, 64,  0, 0 }", "frames=2"),
    says: "No frame shows the image alone: with this mask that is at 0 and below.",
    on: "from=1",
    fixes: { "Write `from=0`": motion("soft=0 level=0 from=0 to=256 step=255", "{ 0, 64,  0, 0 }", "frames=2") },
    left: { "Write `from=0`": ["motion"] },
  },
  {
    what: "a name that is not known",
    source: `${DROP}// @motion image=drip\n// @bitmap 2x1\nconst uint8_t a[2] = { 1, 2 };`,
    says: "`drip` is not a bitmap of this file or of a header that it includes. Did you mean `drop`?",
    on: "drip",
    severity: "error",
    fixes: {
      "Write `drop`": `${DROP}// @motion image=drop\n// @bitmap 2x1\nconst uint8_t a[2] = { 1, 2 };`,
    },
    // Then the frames are out of date, and image and edge pass 255.
    left: { "Write `drop`": ["motion", "motion"] },
  },
  {
    what: "a function of the user's own",
    source: `${DROP}// @motion image=drop level=0\nvoid show(uint16_t n, uint8_t *out) { out[0] = n; }`,
    says: "show is a function of your own",
    on: "@motion",
  },
]);

describeClean("motion", [
  ["frames as they should be", motion(HARD, RIGHT)],
  ["there and back, whole", motion(`${HARD} loop=there-and-back`, "{ 0, 0,  0, 64,  9, 64,  0, 64 }", "frames=4")],
  ["there and back, turned by the firmware", motion(`${HARD} loop=there-and-back`, RIGHT)],
  ["code that is played", `${DROP}// @motion code fps=30 buffer=drop\nvoid show() {}`],
]);

test("sums above what a pixel holds are told with their place, and what wrapping would make of them", () => {
  const source = `// @bitmap 2x1
const uint8_t bright[2] = { 100, 200 };
// @motion image=bright mask=linear soft=100 rim=50 step=100
// @bitmap 2x1
const uint8_t a[2] = { 0, 0 };`;
  const [found, ...more] = findingsOf(source, "motion").filter((f) => f.severity === "information");
  expect(more).toEqual([]);
  // By hand: positions 355, 255, 155, 55, -45, -100 over mask values 0 and 255, an edge of 255 as far as 50 from it.
  // At 255 the second pixel would be 200 + 255; the first 97 + 248 at 55 (smoothstep(.9) = .972) and 100 + 255 at -45.
  expect(found?.message).toBe(
    "Image and edge together pass 255 in 3 pixels of 3 frames, most at 1,0 in frame 1: 455. They are held at 255; in bytes added without care it would be 199.",
  );
});

test("a motion before nothing offers to write the function, which is then as it should be", () => {
  const source = `${DROP}// @motion image=drop mask=linear soft=20 step=100\nint answer = 42;\n`;
  const [found] = findingsOf(source, "motion");
  expect(found?.message).toContain("Nothing holds this motion yet");
  const after = found?.fixes[0]?.after ?? "";
  expect(found?.fixes[0]?.title).toBe("Write the function that computes play_drop");
  expect(after).toContain("void play_drop(uint16_t frame, uint8_t *pixels) {");
  expect(after.endsWith("}\nint answer = 42;\n")).toBe(true);
  expect(findingsOf(after, "motion")).toEqual([]);
  const [stale] = findingsOf(after.replace("step=100", "step=50"), "motion");
  expect(stale).toMatchObject({
    severity: "warning",
    text: "play_drop",
    message: "play_drop is not what its @motion says.",
  });
  expect(findingsOf(stale?.fixes[0]?.after ?? "", "motion")).toEqual([]);
});

test("many frames are told what they take, and what firmware would", () => {
  const source = `// @bitmap 16x16
const uint8_t field_art[256] = { ${"40, ".repeat(256)}};
// @motion image=field_art soft=90 step=10
// @bitmap 16x16
const uint8_t a[256] = {};`;
  const found = findingsOf(source, "motion").map((f) => f.message);
  expect(found).toContain(
    // 44 steps of 10 from 345 to -90; the field and the image of 256 bytes, one flank of 91 (its light is 255 too).
    "45 frames of 256 bytes are 11520 bytes of flash; computed in firmware the motion takes 603 bytes of data.",
  );
});

test("light that flashes is told of what firmware shows", () => {
  const source = `${DROP.replace("9, 64", "255, 255")}// @motion image=drop mask=linear soft=0 level=0 step=4095 loop=there-and-back fps=20\nint x;`;
  const [found] = findingsOf(source, "motion");
  const after = found?.fixes[0]?.after ?? "";
  const [flashes] = findingsOf(after, "motion");
  expect(flashes?.message).toContain("At 20 fps light flashes 10 times within one second (all frames)");
  expect(flashes?.text).toBe("fps=20");
  expect(findingsOf(after.replace("fps=20", "fps=6"), "motion")).toEqual([]);
});

test("what changes around a motion is judged anew", () => {
  const right = motion(HARD, RIGHT);
  expect(findingsOf(right, "motion")).toEqual([]);
  expect(findingsOf(right.replace("9, 64 };", "8, 64 };"), "motion")).toHaveLength(1);
  expect(readPictures(right).findings.filter((f) => f.code === "motion")).toEqual([]);
});
