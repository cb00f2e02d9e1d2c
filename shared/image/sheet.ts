/** Sheets: one picture with several of one size, in rows and columns, cut into frames. */
import type { RgbaPicture } from "../pixels/rgba.ts";
import { cropped } from "../pixels/rgba.ts";

export interface Cells {
  readonly width: number;
  readonly height: number;
  /** Pixels between two cells, and around all of them. */
  readonly gap: number;
  readonly margin: number;
}

const MOST_CELLS = 65_535;

/** The cells row by row from the top left. Refused where they do not fill the sheet: a part of a cell is no frame. */
export function cutSheet(sheet: RgbaPicture, cells: Cells): readonly RgbaPicture[] | { readonly refused: string } {
  const { width, height, gap, margin } = cells;
  const inside = (side: number, cell: number) => (side - 2 * margin + gap) / (cell + gap);
  const [columns, rows] = [inside(sheet.width, width), inside(sheet.height, height)];
  if (!Number.isInteger(columns) || !Number.isInteger(rows) || columns < 1 || rows < 1) {
    const around = margin > 0 ? ` and ${margin} around them` : "";
    return {
      refused: `cells of ${width}×${height} with ${gap} pixels between${around} do not fill the sheet of ${sheet.width}×${sheet.height}`,
    };
  }
  if (columns * rows > MOST_CELLS)
    return { refused: `the sheet has ${columns * rows} cells; up to ${MOST_CELLS} are read` };
  return Array.from({ length: columns * rows }, (_, i) => {
    const x = margin + (i % columns) * (width + gap);
    const y = margin + Math.floor(i / columns) * (height + gap);
    return cropped(sheet, x, y, width, height);
  });
}
