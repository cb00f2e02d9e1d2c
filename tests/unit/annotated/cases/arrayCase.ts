/** One annotated source text and the pictures that stand in it, drawn by hand from the definition of the layout. */
export interface ArrayCase {
  what: string;
  /** Decides the target: `.ino` is read for AVR, `.c` as C, all else as C++ for the host. */
  file?: string;
  source: string;
  /** Where it is not `mono1` or `gray8`, which the drawing tells. */
  format?: string;
  pictures: Drawing[];
}

/**
 * A frame is its rows, one a line: `#` and `.` for mono1 (`#` is lit), numbers apart by blanks for greys and indices,
 * hexadecimal digits (2, 4 or 6) apart by blanks for rgb332, rgb565 and rgb888.
 */
export interface Drawing {
  name?: string;
  frames: string[];
}

/** The one picture of a case, with its frames. */
export const drawn = (...frames: string[]): Drawing[] => [{ frames }];

/** The one picture of a case, with the name of its array. */
export const named = (name: string, ...frames: string[]): Drawing[] => [{ name, frames }];

/** Rows of a frame without the blanks that only indent the drawing. */
export const rowsOf = (frame: string): string[] =>
  frame
    .split("\n")
    .map((row) => row.trim().replace(/\s+/g, " "))
    .filter((row) => row !== "");
