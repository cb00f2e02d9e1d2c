/** Art that the firmware dims for the night: every value scaled by night/cap and rounded down, as integers are. */
import { describe, expect, it } from "vitest";
import { lowestLit, nightLevel } from "../../../shared/light/night.ts";
import { bytes, codesIn, findingsOf } from "./findings.ts";
import { describeClean, describeFindings } from "./tables.ts";

it.each([
  // 64 to 16: a quarter. 3 · 16 / 64 is 0.75, 4 is the first that stays lit.
  [{ night: 16, day: 64, drive: 1 }, [0, 3, 4, 7, 8, 64], [0, 0, 1, 1, 2, 16], 4],
  // Full-scale art that is driven at a quarter by day.
  [{ night: 16, day: 64, drive: 0.25 }, [0, 15, 16, 255], [0, 0, 1, 15], 16],
  [{ night: 0, day: 64, drive: 1 }, [64], [0], undefined],
  [{ night: 1, day: 3, drive: 1 }, [2, 3], [0, 1], 3],
])("%j", (night, levels, expected, least) => {
  expect(levels.map(nightLevel(night))).toEqual(expected);
  expect(lowestLit(night)).toBe(least);
});

describeFindings("night", "information", [
  {
    what: "pixels that go dark and values that become one",
    source: bytes("5x1 cap=64 night=16", "{ 0, 3, 20, 23, 64 }"),
    says: "By night, at 16 instead of 64, 1 of 4 lit pixels of a go dark; 20 and 23 become one.",
    on: "a",
    fixes: {
      "Raise what goes dark by night to 4, the lowest value that stays lit": bytes(
        "5x1 cap=64 night=16",
        "{ 0, 4, 20, 23, 64 }",
      ),
    },
    // What merges stays so.
    left: { "Raise what goes dark by night to 4, the lowest value that stays lit": ["night"] },
  },
  {
    what: "a share of full, of a panel",
    source: `// @panel shelf 3x1 cap=25% night=5%\n${bytes("shelf", "{ 0x05, 0x20, 0x3F }")}`,
    says: "By night, at 12 instead of 63, 1 of 3 lit pixels of a go dark.",
    on: "a",
    fixes: {
      "Raise what goes dark by night to 6, the lowest value that stays lit": `// @panel shelf 3x1 cap=25% night=5%\n${bytes("shelf", "{ 0x06, 0x20, 0x3F }")}`,
    },
  },
  {
    what: "without a cap, of full light",
    source: bytes("2x1 night=51", "{ 4, 255 }"),
    says: "By night, at 51 instead of 255, 1 of 2 lit pixels of a go dark.",
    on: "a",
    fixes: {
      "Raise what goes dark by night to 5, the lowest value that stays lit": bytes("2x1 night=51", "{ 5, 255 }"),
    },
  },
  {
    what: "colours, channel by channel",
    source: "// @bitmap 3x1 rgb888 night=16\nconst uint32_t a[] = { 0x0F0F0F, 0x101010, 0x111010 };",
    says: "By night, at 16 instead of 255, 1 of 3 lit pixels of a go dark; 0x101010 #101010 and 0x111010 #111010 become one.",
    on: "a",
  },
]);

describeClean("night", [
  ["all stays lit and apart", bytes("4x1 cap=64 night=16", "{ 0, 4, 32, 64 }")],
  ["no night", bytes("4x1 cap=64", "{ 0, 1, 2, 64 }")],
  ["one bit", bytes("8x1 mono1 night=1", "{ 0x55 }")],
  ["a mask", bytes("3x1 mask cap=64 night=16", "{ 1, 2, 255 }")],
]);

describe("the word", () => {
  const says = (options: string) => findingsOf(bytes(options, "{ 0, 0, 64 }"), "annotation").map((f) => f.message);
  it.each([
    ["3x1 night=300", "The night level 300 is above 255, the highest value of gray8."],
    ["3x1 gray4 pack=each night=16", "The night level 16 is above 15, the highest value of gray4."],
    ["3x1 cap=64 night=65", "The night level 65 is above the cap 64."],
    ["3x1 cap=10% night=20%", "The night level 51 is above the cap 25."],
  ])("%s", (options, message) => {
    expect(says(options)).toEqual([message]);
  });
});

describe("masks", () => {
  const full = "{ 0, 128, 255 }";
  const panel = "// @panel shelf 3x1 cap=64 full=20mA budget=10mA\n";

  it("are full-scale under the cap and the budget of their panel", () => {
    expect(codesIn(`${panel}${bytes("shelf", full)}`)).toEqual(["current", "over-cap"]);
    expect(codesIn(`${panel}${bytes("shelf mask", full)}`)).toEqual([]);
  });

  const named = (motion: string) =>
    `${panel}// @bitmap shelf\nconst uint8_t petal[] = { 0, 32, 64 };\n${bytes("shelf", full)}\n// ${motion}\n`;
  it("are so too where a motion names them, and shows no picture of them", () => {
    const codes = (motion: string) => codesIn(named(motion)).filter((code) => code === "over-cap");
    expect(codes("@motion image=petal mask=a")).toEqual([]);
    expect(codes("@motion image=a mask=a")).toEqual(["over-cap"]);
    expect(codes("@motion image=a mask=petal")).toEqual(["over-cap"]);
  });

  it("flash only in what they let through", () => {
    expect(codesIn(bytes("1x1 frames=2 fps=20 mask", "{ 0, 255 }"))).toEqual([]);
    expect(codesIn(bytes("1x1 frames=2 fps=20", "{ 0, 255 }"))).toContain("flashing");
  });
});
