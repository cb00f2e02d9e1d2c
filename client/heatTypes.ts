/**
 * The decoration types of the coloured numbers, made by need and used again. The level is told by how thick the line
 * under a number is, and besides by colour; a number over the cap has a double line above it and dotted sides.
 */
import type { Range, TextEditor, TextEditorDecorationType } from "vscode";
import { DecorationRangeBehavior, ThemeColor, window } from "vscode";
import { chalk, css, ink, rgbOf } from "./colours.ts";
import type { Heat } from "./levels.ts";
import { LEVELS, WHITE } from "./levels.ts";

/** Types made at most; further tints are shown in white. */
const MOST_TYPES = 192;
/** CSS pixels of the line under the brightest numbers: the room between digits and the next line. */
const THICKEST = 4;

export interface HeatTypes {
  /** Colours these numbers, and takes the colour from all others of the editor. */
  show(editor: TextEditor, heats: readonly Heat<Range>[]): void;
  /** Forgets all types, for another kind of theme; what was coloured is plain until it is shown again. */
  restyle(contrast: boolean): void;
  dispose(): void;
}

export function heatTypes(contrast: boolean): HeatTypes {
  const made = new Map<string, TextEditorDecorationType>();
  /** Types that have ranges in an editor: only these must be cleared in it. */
  let inUse = new WeakMap<TextEditor, Set<TextEditorDecorationType>>();
  const over = overCap();
  let grounds = !contrast;

  const typeOf = (tint: string, level: number): TextEditorDecorationType => {
    const key = `${tint} ${level}`;
    const known = made.get(key);
    if (known) return known;
    if (made.size >= MOST_TYPES && tint !== WHITE) return typeOf(WHITE, level);
    const type = heat(tint, level / LEVELS, grounds);
    made.set(key, type);
    return type;
  };
  const forget = () => {
    for (const type of made.values()) type.dispose();
    made.clear();
    inUse = new WeakMap();
  };

  return {
    show(editor, heats) {
      const wanted = new Map<TextEditorDecorationType, Range[]>();
      const add = (type: TextEditorDecorationType, ranges: readonly Range[]) => {
        if (ranges.length > 0) wanted.set(type, (wanted.get(type) ?? []).concat(ranges));
      };
      for (const { byTint, beyond } of heats) {
        for (const [tint, levels] of byTint)
          levels.forEach((ranges, level) => {
            if (ranges.length > 0) add(typeOf(tint, level), ranges);
          });
        add(over, beyond);
      }
      for (const type of inUse.get(editor) ?? []) if (!wanted.has(type)) editor.setDecorations(type, []);
      for (const [type, ranges] of wanted) editor.setDecorations(type, ranges);
      inUse.set(editor, new Set(wanted.keys()));
    },
    restyle(toContrast) {
      grounds = !toContrast;
      forget();
    },
    dispose() {
      forget();
      over.dispose();
    },
  };
}

/** A line under the number, and except in high contrast a faint ground: there nothing may weaken the digits. */
function heat(hex: string, share: number, ground: boolean): TextEditorDecorationType {
  const tint = rgbOf(hex);
  const [onDark, onLight] = [chalk(tint), ink(tint)];
  const strength = ground ? 0.3 + 0.7 * share : 1;
  return window.createTextEditorDecorationType({
    rangeBehavior: DecorationRangeBehavior.ClosedClosed,
    borderStyle: "solid",
    borderWidth: `0 0 ${Math.ceil(share * THICKEST)}px 0`,
    dark: { borderColor: css(onDark, strength), ...(ground ? { backgroundColor: css(onDark, 0.24 * share) } : {}) },
    light: { borderColor: css(onLight, strength), ...(ground ? { backgroundColor: css(onLight, 0.2 * share) } : {}) },
  });
}

function overCap(): TextEditorDecorationType {
  return window.createTextEditorDecorationType({
    // Above the digits, where no level is told, and double, unlike the line under the number of the row before.
    borderStyle: "double dotted dotted",
    borderWidth: "3px 1px 1px",
    borderColor: new ThemeColor("editorWarning.foreground"),
    fontWeight: "bold",
    rangeBehavior: DecorationRangeBehavior.ClosedClosed,
  });
}
