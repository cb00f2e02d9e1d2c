/** The word `fps` of an annotation. */
import type { Pixels } from "../../pixels/picture.ts";
import type { Refused } from "../convert/subject.ts";
import { expectedAs } from "../convert/verify.ts";
import { changeWords } from "../convert/words.ts";
import type { Bitmap, BitmapFile } from "../resolve.ts";
import { pixelsOf } from "../resolve.ts";
import type { Restructured, SpeedChange } from "./change.ts";

const MOST_FPS = 1000;

export function speedBuilt(file: BitmapFile, bitmap: Bitmap, { fps }: SpeedChange): Restructured | Refused {
  const { array, annotation, why } = bitmap;
  const { name, type } = array;
  if (!annotation) return { refused: `${name} has no annotation to write the speed in` };
  if (why !== undefined || !type) return { refused: `${name} has no picture: ${why}` };
  if (!(fps > 0 && fps <= MOST_FPS)) return { refused: `${fps} is no speed: from above 0 up to ${MOST_FPS}` };
  // At most three decimals, and no exponent.
  const words = changeWords(file.source.text, bitmap, new Map([["fps", `fps=${Number(fps.toFixed(3))}`]]));
  const frames = Array.from({ length: bitmap.frames }, (_, frame) => pixelsOf(bitmap, frame) as Pixels);
  return {
    edits: words.edits,
    expected: [expectedAs(array, bitmap, type.bits, frames)],
  };
}
