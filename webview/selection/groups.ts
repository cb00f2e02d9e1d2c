/** Groups of words of which one is open at a time: their names in one line, the words of the open one in the next. */
import * as l10n from "@vscode/l10n";
import { el } from "../view/dom.ts";
import { word } from "../view/keyed.ts";

export interface Group {
  readonly name: string;
  readonly element: HTMLElement;
  /** Whether there is anything in it to do now. */
  readonly useful?: () => boolean;
}

export interface GroupsView {
  readonly names: HTMLElement;
  readonly open: HTMLElement;
  draw(): void;
}

/** The first one is open at first. While the open one is of no use another takes its place, until it is of use again. */
export function makeGroups(groups: readonly Group[]): GroupsView {
  let chosen = groups[0];
  const draw = () => {
    const useful = groups.filter((group) => group.useful?.() !== false);
    const shown = chosen && useful.includes(chosen) ? chosen : useful[0];
    for (const [i, group] of groups.entries()) {
      const button = buttons[i];
      if (!button) continue;
      button.hidden = !useful.includes(group);
      button.setAttribute("aria-pressed", String(group === shown));
      group.element.hidden = group !== shown;
    }
  };
  const buttons = groups.map((group) => {
    const button = word(group.name, undefined, () => {
      chosen = group;
      draw();
    });
    button.title = l10n.t("its words in the line below");
    return button;
  });
  return {
    names: el("div", { role: "group", "aria-label": l10n.t("More for the selection") }, ...buttons),
    open: el("div", { class: "opened" }, ...groups.map((group) => group.element)),
    draw,
  };
}
