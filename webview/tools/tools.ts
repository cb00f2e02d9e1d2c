/** The tools as a table: the word, its key and the pixels that a stroke changes. A new tool is a row here. */
import * as l10n from "@vscode/l10n";
import { box, fill, line, type Point, type Size } from "./shapes.ts";

/** New values by the index of the pixel, counted row by row. */
export type Marks = ReadonlyMap<number, number>;

interface StrokeStep {
  /** Gives the picture under the stroke, which most tools need not see. */
  readonly pixels: () => ArrayLike<number>;
  readonly size: Size;
  readonly from: Point;
  /** Where the stroke was before this step. */
  readonly last: Point;
  readonly to: Point;
  readonly level: number;
  /** What the stroke has changed before this step. */
  readonly marks: Marks;
}

interface Tool {
  readonly word: string;
  /** The key that chooses it: a letter of its word. */
  readonly key: string;
  readonly does: string;
  /** From the keyboard: the first press starts, the second ends the stroke. */
  readonly twoPresses: boolean;
  /** It stays in hand although it does not paint. */
  readonly stays?: boolean;
  /** What the stroke has changed with this step; nothing for a tool that only looks. */
  readonly step?: (step: StrokeStep) => Marks;
}

const paint = (indexes: readonly number[], level: number, marks: Marks = new Map()): Marks => {
  const out = new Map(marks);
  for (const index of indexes) out.set(index, level);
  return out;
};

export const TOOLS = {
  draw: {
    word: l10n.t("Draw"),
    key: "d",
    does: l10n.t("sets pixels to the level"),
    twoPresses: false,
    step: ({ size, last, to, level, marks }) => paint(line(size, last, to), level, marks),
  },
  erase: {
    word: l10n.t("Erase"),
    key: "e",
    does: l10n.t("sets pixels to 0"),
    twoPresses: false,
    step: ({ size, last, to, marks }) => paint(line(size, last, to), 0, marks),
  },
  line: {
    word: l10n.t("Line"),
    key: "l",
    does: l10n.t("a straight line from press to release"),
    twoPresses: true,
    step: ({ size, from, to, level }) => paint(line(size, from, to), level),
  },
  box: {
    word: l10n.t("Box"),
    key: "b",
    does: l10n.t("the edge of a rectangle from press to release"),
    twoPresses: true,
    step: ({ size, from, to, level }) => paint(box(size, from, to), level),
  },
  fill: {
    word: l10n.t("Fill"),
    key: "f",
    does: l10n.t("all pixels of one value that touch by their edges"),
    twoPresses: false,
    step: ({ pixels, size, from, level }) => paint(fill(pixels(), size, from), level),
  },
  select: {
    word: l10n.t("Select"),
    key: "s",
    does: l10n.t("a rectangle; a press inside it moves its pixels, with Ctrl or Alt a copy of them"),
    twoPresses: true,
    stays: true,
  },
  pick: {
    word: l10n.t("Pick"),
    key: "p",
    does: l10n.t("takes the level of a pixel, then gives back the tool before"),
    twoPresses: false,
  },
} as const satisfies Record<string, Tool>;

export type ToolName = keyof typeof TOOLS;

export const TOOL_NAMES = Object.keys(TOOLS) as ToolName[];

/** The row of a tool. */
export function toolOf(name: ToolName): Tool {
  return TOOLS[name];
}
