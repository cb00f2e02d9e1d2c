/** The decoration types of the coloured numbers: a few for each tint, made once and used again. */
import type { TextEditor, TextEditorDecorationType } from "vscode";
import { DecorationRangeBehavior, Range, ThemeColor, window } from "vscode";
import { css, ink, rgbOf } from "./colours.ts";
import type { Leveled } from "./levels.ts";
import { LEVELS } from "./levels.ts";

/** Tints that have types of their own; further ones are shown in white. */
const MOST_TINTS = 8;
const WHITE = "#ffffff";

export interface HeatTypes {
  /** Colours the numbers, by tint, and takes the colour from all others of the editor. */
  show(editor: TextEditor, numbers: ReadonlyMap<string, readonly Leveled[]>): void;
  dispose(): void;
}

export function heatTypes(): HeatTypes {
  const byTint = new Map<string, TextEditorDecorationType[]>();
  // Not by colour alone: numbers over the cap have a dotted frame.
  const over = window.createTextEditorDecorationType({
    border: "1px dotted",
    borderColor: new ThemeColor("editorWarning.foreground"),
    rangeBehavior: DecorationRangeBehavior.ClosedClosed,
  });
  const typesOf = (tint: string) => {
    const known = byTint.get(tint);
    if (known) return known;
    const made = ramp(tint);
    byTint.set(tint, made);
    return made;
  };

  return {
    show(editor, numbers) {
      const beyond: Range[] = [];
      const ranges = new Map<TextEditorDecorationType, Range[]>();
      for (const [wanted, leveled] of numbers) {
        const tint = byTint.has(wanted) || byTint.size < MOST_TINTS ? wanted : WHITE;
        const types = typesOf(tint);
        for (const number of leveled) {
          const range = new Range(number.startLine, number.startColumn, number.endLine, number.endColumn);
          if (number.overCap) beyond.push(range);
          const type = types[number.level - 1];
          if (!type) continue;
          const list = ranges.get(type);
          if (list) list.push(range);
          else ranges.set(type, [range]);
        }
      }
      for (const type of [...byTint.values()].flat()) editor.setDecorations(type, ranges.get(type) ?? []);
      editor.setDecorations(over, beyond);
    },
    dispose() {
      for (const type of [over, ...[...byTint.values()].flat()]) type.dispose();
    },
  };
}

/** A faint ground, so that the number stays readable, and a line under it that carries the level. */
function ramp(hex: string): TextEditorDecorationType[] {
  const tint = rgbOf(hex);
  const dark = ink(tint);
  return Array.from({ length: LEVELS }, (_, i) => {
    const share = (i + 1) / LEVELS;
    return window.createTextEditorDecorationType({
      rangeBehavior: DecorationRangeBehavior.ClosedClosed,
      borderStyle: "solid",
      borderWidth: "0 0 2px 0",
      dark: { backgroundColor: css(tint, 0.24 * share), borderColor: css(tint, 0.1 + 0.9 * share) },
      light: { backgroundColor: css(tint, 0.3 * share), borderColor: css(dark, 0.1 + 0.9 * share) },
    });
  });
}
