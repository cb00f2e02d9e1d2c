/** The tools as a table: the word, its key and the pixels that a stroke changes. A new tool is a row here. */
import * as l10n from "@vscode/l10n";
import { gradientAt } from "./gradient.ts";
import { aimed, inked, type StrokeStep } from "./ink.ts";
import type { Marks } from "./marks.ts";
import { mirrored } from "./mirror.ts";
import { stamped } from "./nib.ts";
import type { OptionName } from "./options.ts";
import { oval } from "./oval.ts";
import { box, everyLike, fill, filledBox, line } from "./shapes.ts";
import { layText } from "./text.ts";
import { tonesOf } from "./tones.ts";

export type { Marks } from "./marks.ts";

interface Tool {
  readonly word: string;
  /** The key that chooses it: a letter of its word. */
  readonly key: string;
  readonly does: string;
  /** From the keyboard: the first press starts, the second ends the stroke. */
  readonly twoPresses: boolean;
  /** The options that matter to it, in the order in which they are shown. */
  readonly uses: readonly OptionName[];
  /** What is typed goes with the stroke, which a key ends, not the release. */
  readonly typed?: boolean;
  /** It stays in hand although it does not paint. */
  readonly stays?: boolean;
  /** What the stroke has changed with this step; nothing for a tool that only looks. */
  readonly step?: (step: StrokeStep) => Marks;
}

const BRUSH = ["width", "tip", "strength"] as const;
const INK = ["strength", "mode", "symmetry"] as const;

export const TOOLS = {
  draw: {
    word: l10n.t("Draw"),
    key: "d",
    does: l10n.t("sets pixels to the level"),
    twoPresses: false,
    uses: [...BRUSH, "mode", "symmetry"],
    step: (step) => inked(step, brushed(step, pathOf(step)), step.marks),
  },
  erase: {
    word: l10n.t("Erase"),
    key: "e",
    does: l10n.t("sets pixels to 0"),
    twoPresses: false,
    uses: [...BRUSH, "symmetry"],
    step: (step) =>
      inked({ ...step, options: { ...step.options, mode: "set" } }, brushed(step, pathOf(step)), step.marks, 0),
  },
  line: {
    word: l10n.t("Line"),
    key: "l",
    does: l10n.t("a straight line from press to release"),
    twoPresses: true,
    uses: [...BRUSH, "mode", "symmetry"],
    step: (step) => inked(step, brushed(step, line(step.size, step.from, step.to))),
  },
  box: {
    word: l10n.t("Box"),
    key: "b",
    does: l10n.t("a rectangle from press to release"),
    twoPresses: true,
    uses: ["filled", ...BRUSH, "mode", "symmetry"],
    step: (step) => {
      const { size, from, to, options } = step;
      const filled = options.filled === "filled";
      return inked(step, filled ? filledBox(size, from, to) : brushed(step, box(size, from, to)));
    },
  },
  oval: {
    word: l10n.t("Oval"),
    key: "o",
    does: l10n.t("an ellipse in the rectangle from press to release"),
    twoPresses: true,
    uses: ["filled", ...BRUSH, "mode", "symmetry"],
    step: (step) => {
      const { size, from, to, options } = step;
      const filled = options.filled === "filled";
      return inked(step, filled ? oval(size, from, to, true) : brushed(step, oval(size, from, to, false)));
    },
  },
  fill: {
    word: l10n.t("Fill"),
    key: "f",
    does: l10n.t("pixels of one value, those that touch or all in the frame"),
    twoPresses: false,
    uses: ["region", ...INK],
    step: (step) => inked(straight(step), pressed(step, step.options.region === "touching" ? fill : everyLike)),
  },
  gradient: {
    word: l10n.t("Gradient"),
    key: "g",
    does: l10n.t("from the level at the press to a second one at the release"),
    twoPresses: true,
    uses: ["second", "shape", "ease", "area", "strength", "symmetry"],
    step: gradient,
  },
  text: {
    word: l10n.t("Text"),
    key: "t",
    does: l10n.t("words from a glyph set; Enter writes them"),
    twoPresses: false,
    uses: ["set", "spacing", "strength", "symmetry"],
    typed: true,
    step: text,
  },
  select: {
    word: l10n.t("Select"),
    key: "s",
    does: l10n.t("a rectangle; a press inside it moves its pixels, with Ctrl or Alt a copy of them"),
    twoPresses: true,
    uses: [],
    stays: true,
  },
  pick: {
    word: l10n.t("Pick"),
    key: "p",
    does: l10n.t("takes the level of a pixel, then gives back the tool before"),
    twoPresses: false,
    uses: [],
  },
} as const satisfies Record<string, Tool>;

export type ToolName = keyof typeof TOOLS;

export const TOOL_NAMES = Object.keys(TOOLS) as ToolName[];

/** The row of a tool. */
export function toolOf(name: ToolName): Tool {
  return TOOLS[name];
}

function pathOf({ size, last, to }: StrokeStep): number[] {
  return line(size, last, to);
}

function brushed({ size, options }: StrokeStep, path: readonly number[]): readonly number[] {
  return stamped(size, path, options.width, options.tip);
}

/** What a press takes where the stroke began and at the images of that pixel, each in the picture as it is. */
function pressed({ pixels, size, from, options }: StrokeStep, take: typeof fill): readonly number[] {
  const picture = pixels();
  const seeds = new Set(mirrored(size, [from.y * size.width + from.x], options.symmetry));
  return [...seeds].flatMap((seed) => take(picture, size, { x: seed % size.width, y: Math.floor(seed / size.width) }));
}

let every = new Uint32Array(0);

/** All pixels. A gradient asks for them with every move of the pointer: they are counted out once for a size. */
function everyPixel({ width, height }: StrokeStep["size"]): Uint32Array {
  if (every.length !== width * height) every = new Uint32Array(width * height).map((_, i) => i);
  return every;
}

/** For pixels that are alike on both sides by themselves. */
function straight(step: StrokeStep): StrokeStep {
  return { ...step, options: { ...step.options, symmetry: "off" } };
}

function gradient(step: StrokeStep): Marks {
  const { size, from, to, level, options, bitmap } = step;
  const tones = tonesOf(bitmap);
  const { shape, ease, symmetry, area } = options;
  const second = Math.min(options.second, bitmap.most);
  const at = tones && gradientAt({ size, from, to, shape, ease, symmetry, first: level, second }, tones);
  if (!at) return new Map();
  const indexes = area === "touching" ? pressed(step, fill) : everyPixel(size);
  return aimed(straight(step), indexes, (_, index) => at(index), { plain: true });
}

function text(step: StrokeStep): Marks {
  const { size, to, level, options, bitmap, set } = step;
  if (!set || !step.text) return new Map();
  const tones = tonesOf(bitmap);
  const shares = new Map<number, number>();
  for (const { x, y, share } of layText(step.text, set, options.spacing).dots) {
    const [column, row] = [to.x + x, to.y + y];
    if (column < 0 || row < 0 || column >= size.width || row >= size.height) continue;
    const index = row * size.width + column;
    // Without tones there is only there or not there.
    const part = tones ? share : Math.round(share);
    if (part === 0) continue;
    for (const one of mirrored(size, [index], options.symmetry)) shares.set(one, Math.max(part, shares.get(one) ?? 0));
  }
  return aimed(straight(step), [...shares.keys()], (before, index) => {
    const share = shares.get(index) ?? 0;
    return tones ? tones.blend(before, level, share) : level;
  });
}
