/** The tools as words in one wrapping row, the letter of each key underlined. */
import * as l10n from "@vscode/l10n";
import type { Action } from "../state.ts";
import { TOOL_NAMES, TOOLS, type ToolName } from "../tools/tools.ts";
import { el } from "./dom.ts";
import { word } from "./keyed.ts";

export interface ToolRowView {
  readonly element: HTMLElement;
  /** What can't be used in this file is not shown; what can't be used for now stays in its place. */
  draw(tool: ToolName, never: boolean, notNow: boolean): void;
}

export function makeToolRow(dispatch: (action: Action) => void): ToolRowView {
  const buttons = TOOL_NAMES.map((name) => {
    const { word: text, key, does } = TOOLS[name];
    const button = word(text, key, () => dispatch({ type: "tool", tool: name }), "tool");
    button.title = does;
    return [name, button] as const;
  });
  const element = el(
    "div",
    { class: "tools", role: "group", "aria-label": l10n.t("Tools") },
    ...buttons.map(([, b]) => b),
  );
  return {
    element,
    draw: (tool, never, notNow) => {
      for (const [name, button] of buttons) {
        button.setAttribute("aria-pressed", String(name === tool));
        const paints = name !== "pick" && name !== "select";
        button.disabled = notNow && paints;
        button.hidden = never && paints;
      }
    },
  };
}
