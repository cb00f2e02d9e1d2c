/** Sizes in CSS pixels of the grid with its four rulers; pure. */

export interface Geometry {
  readonly columns: number;
  readonly rows: number;
  readonly cell: number;
  /** Room of the rulers. */
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
  readonly width: number;
  readonly height: number;
  /** The ladder has room beside the grid. */
  readonly beside: boolean;
}

const TOP = 16;
const RIGHT = 34;
const BOTTOM = 28;
const LEAST = 4;
const LARGEST = 40;
/** A cell that is comfortable to hit: only for more than this does the ladder give way. */
const COMFORT = 16;

export function geometryOf(
  columns: number,
  rows: number,
  room: { readonly width: number; readonly height: number; readonly left: number; readonly ladder: number },
): Geometry {
  const tallest = Math.floor(room.height / rows);
  const cellIn = (width: number) => {
    const fitting = Math.min(Math.floor((width - room.left - RIGHT) / columns), tallest, LARGEST);
    return Math.max(LEAST, fitting);
  };
  const below = cellIn(room.width);
  const shared = cellIn(room.width - room.ladder);
  const fits = room.left + RIGHT + columns * shared + room.ladder <= room.width;
  const beside = fits && shared >= Math.min(COMFORT, below);
  const cell = beside ? shared : below;
  return {
    columns,
    rows,
    cell,
    left: room.left,
    top: TOP,
    right: RIGHT,
    bottom: BOTTOM,
    width: room.left + RIGHT + columns * cell,
    height: TOP + BOTTOM + rows * cell,
    beside,
  };
}

/** Which of so many labels have room when each needs `need` of the space and they stand `step` apart. */
export function labelEvery(step: number, need: number): number {
  const least = Math.ceil(need / step);
  for (let power = 1; ; power *= 10) {
    for (const one of [1, 2, 4, 5, 8]) if (one * power >= least) return one * power;
  }
}
