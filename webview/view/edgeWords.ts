/** The motion's numbers as fields and its choices as words. */
import * as l10n from "@vscode/l10n";
import type { MotionInfo } from "../../shared/protocol/lsp.ts";
import { type Draft, PARTS, type Part } from "../edge/draft.ts";
import { el, fill, forget } from "./dom.ts";
import { word } from "./keyed.ts";

export interface EdgeWords {
  readonly element: HTMLElement;
  draw(draft: Draft, fixed: boolean): void;
}

interface Wishes {
  readonly set: (part: Part, value: number) => void;
  readonly choose: (choice: Partial<Pick<MotionInfo, "ease" | "loop">>) => void;
  readonly refuse: (part: Part, typed: string) => void;
}

export function makeEdgeWords({ set, choose, refuse }: Wishes): EdgeWords {
  const fields = PARTS.map((part) => {
    const input = el("input", { class: "speed", inputmode: "numeric", "aria-label": part });
    const take = () => {
      const typed = input.value.trim();
      forget(input);
      if (/^[+-]?\d{1,5}$/.test(typed)) set(part, Number(typed));
      else refuse(part, typed);
    };
    input.addEventListener("change", take);
    const label = el("label", {}, el("span", { class: "dim", text: part }), input);
    return { part, input, label };
  });
  const loops = choices<MotionInfo["loop"]>(
    [
      ["once", l10n.t("Once")],
      ["around", l10n.t("Around")],
      ["there-and-back", l10n.t("There and back")],
    ],
    (loop) => choose({ loop }),
  );
  const eases = choices<MotionInfo["ease"]>(
    [
      ["linear", l10n.t("Evenly")],
      ["cubic-in", l10n.t("Slow first")],
      ["cubic-out", l10n.t("Slow last")],
      ["cubic-in-out", l10n.t("Slow at both ends")],
    ],
    (ease) => choose({ ease }),
  );
  const group = (label: string, all: readonly (readonly [string, HTMLButtonElement])[]) =>
    el("div", { role: "group", "aria-label": label }, ...all.map(([, button]) => button));
  const element = el(
    "div",
    { class: "edgeWords" },
    el("div", { class: "edgeFields" }, ...fields.map((f) => f.label)),
    el(
      "div",
      { class: "frameRow" },
      group(l10n.t("After the last frame"), loops),
      group(l10n.t("How the edge goes"), eases),
    ),
  );
  return {
    element,
    draw: (draft, fixed) => {
      for (const { part, input, label } of fields) {
        const value = draft[part];
        label.hidden = value === undefined;
        if (value !== undefined) fill(input, String(value));
        input.disabled = fixed;
      }
      for (const [chosen, all] of [
        [draft.loop, loops],
        [draft.ease, eases],
      ] as const)
        for (const [name, button] of all) {
          button.setAttribute("aria-pressed", String(name === chosen));
          button.disabled = fixed;
        }
    },
  };
}

function choices<K extends string>(
  all: readonly (readonly [K, string])[],
  choose: (chosen: K) => void,
): (readonly [K, HTMLButtonElement])[] {
  return all.map(([name, text]) => [name, word(text, undefined, () => choose(name))] as const);
}
