/** The speed in the annotation. */
import { expect, test } from "vitest";
import { restructured } from "./restructuring.ts";

const TEXT = "// @bitmap 1x1 frames=2 fps=4 -- blink\nconst uint8_t a[] = {1, 2};\n";

test.each([
  [TEXT, 25, TEXT.replace("fps=4", "fps=25")],
  [TEXT, 7.5, TEXT.replace("fps=4", "fps=7.5")],
  [TEXT.replace(" fps=4", ""), 10, TEXT.replace("fps=4", "fps=10")],
  [TEXT, 0, "refused: 0 is no speed: from above 0 up to 1000"],
  [TEXT, Number.NaN, "refused: NaN is no speed: from above 0 up to 1000"],
  [
    "#define a_width 8\n#define a_height 1\nstatic char a_bits[] = {0x01};\n",
    5,
    "refused: a_bits has no annotation to write the speed in",
  ],
])("is written or refused", (text, fps, after) => {
  expect(restructured(text, { kind: "speed", fps })).toBe(after);
});
