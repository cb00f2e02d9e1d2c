/** A bitmap's first frame as a small picture that fits into a line of text. */
import type { BitmapInfo, PictureFrame } from "../shared/protocol/lsp.ts";
import type { Picture } from "./svg.ts";
import { cells, picture, shadesOf } from "./svg.ts";

/** Size on the screen, in CSS pixels. */
const HEIGHT = 16;
const WIDEST = 64;
/** Cells that it is drawn in at most; larger bitmaps are averaged down to them. */
const MOST_COLUMNS = 128;
const MOST_ROWS = 32;

/** `full` is the raw value of full light. */
export function thumbnail(bitmap: BitmapInfo, { pixels }: PictureFrame, full: number): Picture {
  const { width, height } = bitmap;
  const shaded = shadesOf(bitmap, { width, height, pixels }, full, MOST_COLUMNS, MOST_ROWS);
  const shown = Math.min(WIDEST, Math.max(4, Math.round((HEIGHT * width) / height)));
  const ground = `<path d="M0 0H${shaded.columns}V${shaded.rows}H0z"/>`;
  return picture(shown, HEIGHT, [shaded.columns, shaded.rows], ground + cells(shaded));
}
