/** What the page knows of the tools' options and of text, and how it changes; pure. */
import * as l10n from "@vscode/l10n";
import type { Key } from "./keys/key.ts";
import { refusal } from "./painting.ts";
import type { Action, State } from "./state.ts";
import { restepped, type Stroke, setOf } from "./stroke.ts";
import type { ToolOptions } from "./tools/options.ts";
import { type GlyphSet, layText } from "./tools/text.ts";
import { toolOf } from "./tools/tools.ts";

export type DrawingAction =
  /** `note`: what a key has changed, in words. */
  | { readonly type: "options"; readonly options: Partial<ToolOptions>; readonly note?: string }
  /** What the field for text holds now. */
  | { readonly type: "typed"; readonly text: string }
  /** The glyph sets at hand. */
  | { readonly type: "sets"; readonly sets: readonly GlyphSet[] }
  /** Glyphs of one of them, by code point. */
  | { readonly type: "glyphs"; readonly key: string; readonly glyphs: ReadonlyMap<number, readonly number[]> };

export function reduceDrawing(state: State, action: DrawingAction): State {
  switch (action.type) {
    case "options":
      return restepped({
        ...state,
        options: { ...state.options, ...action.options },
        note: action.note ?? state.note,
      });
    case "typed":
      return typed(state, action.text);
    case "sets":
      return told(restepped({ ...state, sets: action.sets }));
    case "glyphs": {
      const sets = state.sets?.map((set) =>
        set.key === action.key ? { ...set, glyphs: new Map([...set.glyphs, ...action.glyphs]) } : set,
      );
      return sets ? restepped({ ...state, sets }) : state;
    }
  }
}

/** A key while it is not known yet whether there are glyph sets: who chose Text goes on by typing it. */
export function earlyText({ key, ctrlKey, metaKey, altKey }: Key, { tool, sets, stroke }: State): Action | undefined {
  if (!toolOf(tool).typed || sets !== undefined || ctrlKey || metaKey || altKey) return undefined;
  // The first space begins the text, as on the grid.
  if ([...key].length !== 1 || (key === " " && !stroke)) return undefined;
  return { type: "typed", text: `${stroke?.text ?? ""}${key}` };
}

/** Words go where the pixel cursor is, until they are moved. */
function typed(state: State, text: string): State {
  const { shown, tool, frame, level, cursor } = state;
  if (!shown || !toolOf(tool).typed) return state;
  const refused = refusal(state);
  if (refused !== undefined) return { ...state, note: refused };
  const from = { tool, frame, level, from: cursor, to: cursor, marks: new Map() };
  const stroke: Stroke = { ...(state.stroke ?? from), text };
  return told(restepped({ ...state, playing: false, stroke }));
}

/** Names the characters that the set lacks. */
function told(state: State): State {
  const set = setOf(state);
  const text = state.stroke?.text;
  if (text === undefined || !set) return state;
  const { missing } = layText(text, set, state.options.spacing);
  const words = missing.map((character) => `“${character}”`).join(" ");
  return { ...state, note: words === "" ? "" : l10n.t("{0} has no {1}", set.name, words) };
}
