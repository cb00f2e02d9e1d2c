/** The scale under the strip: a tick where each frame begins, and times, numbers or characters where there is room. */
import { codeInWords, seenCharacter } from "../../shared/bitmap/glyphs.ts";
import { seconds } from "../words.ts";
import { labelEvery } from "./geometry.ts";
import type { Theme } from "./theme.ts";

interface Scale {
  readonly characters: readonly number[] | undefined;
  readonly frames: number;
  readonly fps: number | undefined;
  readonly frame: number;
  readonly left: number;
  readonly step: number;
  readonly top: number;
  readonly theme: Theme;
}

export function drawScale(context: CanvasRenderingContext2D, scale: Scale): void {
  const { characters, frames, fps, frame, left, step, top, theme } = scale;
  const every = labelEvery(step, characters ? 14 : fps ? 48 : 28);
  const label = (at: number) => {
    const point = characters?.[at];
    if (point !== undefined) return seenCharacter(point) ?? codeInWords(point);
    return fps ? seconds(at, fps) : String(at);
  };
  context.font = `10px ${theme.font}`;
  context.textBaseline = "alphabetic";
  for (let i = 0; i < frames; i++) {
    const x = left + i * step;
    const labelled = i % every === 0;
    context.fillStyle = i === frame ? theme.activeNumber : theme.number;
    context.fillRect(x, top, 1, labelled ? 6 : 3);
    // A code point is wider than a character.
    const words = label(i);
    if (labelled && (words.length < 3 || !characters || step >= 40)) context.fillText(words, x + 3, top + 12);
  }
}
