/** What can be done to selected pixels, as a table; pure. */
import * as l10n from "@vscode/l10n";
import type { BitmapInfo } from "../../shared/protocol/lsp.ts";
import type { Point } from "../tools/shapes.ts";
import { valueText } from "../values.ts";
import { inverted } from "./levels.ts";
import { changed, mirrored, type Piece, shifted, type Turn, turned, turnedBox } from "./piece.ts";

export type Change =
  | { readonly kind: "turn"; readonly turn: Turn }
  | { readonly kind: "mirror"; readonly what: "columns" | "rows" }
  | { readonly kind: "shift"; readonly by: Point }
  | { readonly kind: "invert" | "erase" | "fill" };

/** A piece and where its top left corner is. */
interface Placed {
  readonly piece: Piece;
  readonly at: Point;
}

/** What it does, and what is said when it is done. */
export function changeOf(
  change: Change,
  bitmap: BitmapInfo,
  level: number,
): { readonly words: string; readonly run: (placed: Placed) => Placed } {
  const inPlace = (words: string, run: (piece: Piece) => Piece) => ({
    words,
    run: ({ piece, at }: Placed) => ({ piece: run(piece), at }),
  });
  switch (change.kind) {
    case "turn":
      return {
        words: change.turn === "right" ? l10n.t("turned right") : l10n.t("turned left"),
        run: ({ piece, at }) => {
          const { x, y } = turnedBox({ ...at, width: piece.width, height: piece.height });
          return { piece: turned(piece, change.turn), at: { x, y } };
        },
      };
    case "mirror":
      return inPlace(change.what === "columns" ? l10n.t("columns mirrored") : l10n.t("rows mirrored"), (piece) =>
        mirrored(piece, change.what),
      );
    case "shift":
      return inPlace(l10n.t("shifted by one"), (piece) => shifted(piece, change.by));
    case "invert":
      return inPlace(l10n.t("inverted"), (piece) => changed(piece, inverted(bitmap)));
    case "erase":
      return inPlace(l10n.t("erased"), (piece) => changed(piece, () => 0));
    case "fill":
      return inPlace(l10n.t("filled with {0}", valueText(bitmap, level)), (piece) => changed(piece, () => level));
  }
}
