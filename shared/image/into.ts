/** Pictures from outside into a bitmap that is there: in place of frames, or as further ones. Its style is kept. */
import type { World } from "../bitmap/convert/verify.ts";
import type { PixelChange } from "../bitmap/edit.ts";
import { editPixels, sameIn } from "../bitmap/edit.ts";
import type { Bitmap, BitmapFile } from "../bitmap/resolve.ts";
import { pixelsOf } from "../bitmap/resolve.ts";
import { restructure } from "../bitmap/restructure/restructure.ts";
import type { Pixels } from "../pixels/picture.ts";
import type { RgbaPicture } from "../pixels/rgba.ts";
import type { TextEdit } from "../source/text.ts";
import { applyEdits, commonPrefix, commonSuffix } from "../source/text.ts";
import type { Brought } from "./bring.ts";
import { bringIn } from "./bring.ts";
import type { Choices } from "./choices.ts";

type Refused = { readonly refused: string };

export interface Replaced {
  readonly edits: readonly TextEdit[];
  readonly brought: Brought;
  /** The file as it is read after them, and the bitmap in it. */
  readonly file: BitmapFile;
  readonly bitmap: Bitmap;
  /** The first of the frames that hold the pictures. */
  readonly frame: number;
}

/** `at` is the frame that the first picture takes the place of; `further` puts all of them behind the last frame. */
export function intoBitmap(
  file: BitmapFile,
  bitmap: Bitmap,
  pictures: readonly RgbaPicture[],
  choices: Choices,
  at: number | "further",
  world: World,
): Replaced | Refused {
  const { width, height, format, cap, drive, palette, array } = bitmap;
  if (bitmap.why !== undefined) return { refused: `${array.name} can't be edited: ${bitmap.why}` };
  const colours = palette?.colours;
  if (format.kind === "palette" && !colours)
    return { refused: `the colours of ${array.name} are not known: give it a palette first` };
  const brought = bringIn(pictures, { width, height, format, cap, drive, colours }, choices);
  if ("refused" in brought) return brought;
  if (at !== "further") {
    const { frames } = bitmap;
    if (at < 0 || at + brought.frames.length > frames)
      return {
        refused: `${array.name} has ${frames === 1 ? "1 frame" : `${frames} frames`}, numbered from 0; ${pictures.length === 1 ? "the picture" : `${pictures.length} pictures`} from frame ${at} on can only be added as further frames`,
      };
    const edits = editsFor(file, bitmap, brought.frames, at);
    return "refused" in edits ? edits : checked(file, bitmap, edits.edits, brought, at, world);
  }
  const order = [...Array(bitmap.frames).keys(), ...brought.frames.map(() => "dark" as const)];
  const more = restructure(file, bitmap, { kind: "frames", order }, world);
  if ("refused" in more) return more;
  const longer = world.reopen(applyEdits(file.source.text, more.edits));
  const grown = sameIn(longer, array);
  if (!grown) return { refused: `${array.name} would not be read with more frames` };
  const edits = editsFor(longer, grown, brought.frames, bitmap.frames);
  if ("refused" in edits) return edits;
  const whole = difference(file.source.text, applyEdits(longer.source.text, edits.edits));
  return checked(file, bitmap, [whole], brought, bitmap.frames, world);
}

/** Edits of the pixels that become others. */
function editsFor(file: BitmapFile, bitmap: Bitmap, frames: readonly Pixels[], at: number) {
  const changes: PixelChange[] = [];
  for (const [i, values] of frames.entries()) {
    const before = pixelsOf(bitmap, at + i);
    values.forEach((value, index) => {
      if (before?.[index] === value) return;
      changes.push({ frame: at + i, x: index % bitmap.width, y: Math.floor(index / bitmap.width), value });
    });
  }
  return editPixels(file.source.text, bitmap, changes);
}

/** Read back before it is given. */
function checked(
  file: BitmapFile,
  bitmap: Bitmap,
  edits: readonly TextEdit[],
  brought: Brought,
  frame: number,
  world: World,
): Replaced | Refused {
  const after = world.reopen(applyEdits(file.source.text, edits));
  const now = sameIn(after, bitmap.array);
  const right = brought.frames.every(
    (values, i) => now && pixelsOf(now, frame + i)?.every((value, p) => value === values[p]),
  );
  if (!now || !right) return { refused: `${bitmap.array.name} would not be read as it was meant` };
  return { edits, brought, file: after, bitmap: now, frame };
}

/** One edit of what differs. */
function difference(before: string, after: string): TextEdit {
  const start = commonPrefix(before, after);
  const end = commonSuffix(before, after, Math.min(before.length, after.length) - start);
  return { start, end: before.length - end, text: after.slice(start, after.length - end) };
}
