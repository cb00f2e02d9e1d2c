/** Other sizes of the picture: cropped to what is selected, or extended at a side; in all frames. Pure. */
import * as l10n from "@vscode/l10n";
import type { Action, State } from "../state.ts";
import type { Point } from "../tools/shapes.ts";

type Resize = Extract<Action, { type: "restructure" }>;

/** To the least rectangle around the selected pixels; undefined where there is nothing to cut off. */
export function cropped({ shown, selection, frame }: State): Resize | undefined {
  if (!shown || !selection) return undefined;
  const { width, height } = shown.bitmap;
  const { x, y, width: columns, height: rows } = selection;
  if (columns === width && rows === height) return undefined;
  // Without the sign of a zero: the extension compares what it gets.
  const cut = (count: number) => -count || 0;
  const right = cut(width - x - columns);
  const change = { kind: "size", left: cut(x), top: cut(y), right, bottom: cut(height - y - rows) } as const;
  return { type: "restructure", change, frame, note: l10n.t("cropped to {0}×{1}", columns, rows) };
}

/** By a dark column or row at the side to which a step goes. */
export function extended({ shown, frame }: State, { x, y }: Point): Resize | undefined {
  if (!shown) return undefined;
  const { width, height } = shown.bitmap;
  const side = (here: boolean) => (here ? 1 : 0);
  const change = {
    kind: "size",
    left: side(x < 0),
    top: side(y < 0),
    right: side(x > 0),
    bottom: side(y > 0),
  } as const;
  const note = l10n.t("extended to {0}×{1}", width + Math.abs(x), height + Math.abs(y));
  return { type: "restructure", change, frame, note };
}
