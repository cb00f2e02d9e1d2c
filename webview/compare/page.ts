/** The page: what differs in the file, and of one bitmap the two versions and what has changed between them. */
import * as l10n from "@vscode/l10n";
import type { Compared } from "../../shared/protocol/comparePage.ts";
import type { ComparedInfo, ComparedPicture } from "../../shared/protocol/lsp.ts";
import { el, setText } from "../view/dom.ts";

import type { Theme } from "../view/theme.ts";
import { makeFramePictures } from "./framePictures.ts";
import { keepFocus } from "./keepFocus.ts";

type Which = Pick<ComparedInfo, "name" | "ordinal">;

interface Wishes {
  choose(which: Which): void;
  source(which: Which): void;
}

export interface ComparePage {
  draw(shown: Compared | { readonly why: string }, theme: Theme): void;
}

export function makeComparePage(root: HTMLElement, { choose, source }: Wishes): ComparePage {
  const number = el("span", { class: "number" });
  const name = el("b");
  const facts = el("span", { class: "dim" });
  const versions = el("p", { class: "versions" });
  const words = el("p", { class: "words", "aria-live": "polite" });
  const list = el("ul", { class: "list", "aria-label": l10n.t("Bitmaps that differ") });
  const pictures = makeFramePictures();
  const toSource = el("button", { class: "word", type: "button", text: l10n.t("Go to the source") });
  const page = el(
    "div",
    { class: "page" },
    el("h1", { class: "line" }, number, el("code", {}, name, facts)),
    versions,
    list,
    words,
    pictures.element,
    toSource,
  );
  const empty = el("p", { class: "empty", role: "status" });
  root.replaceChildren(page, empty);
  let at: Which | undefined;
  toSource.addEventListener("click", () => at && source({ name: at.name, ordinal: at.ordinal }));

  return {
    draw: (shown, theme) => {
      const picture = "why" in shown ? undefined : shown.shown;
      page.hidden = !picture;
      empty.hidden = picture !== undefined;
      if ("why" in shown || !picture) {
        setText(empty, "why" in shown ? shown.why : sameWords(shown));
        return;
      }
      at = picture;
      const info = picture.after?.bitmap ?? picture.before?.bitmap;
      setText(number, String((info?.nameRange.start.line ?? 0) + 1));
      setText(name, picture.name);
      setText(facts, info ? ` · ${info.width}×${info.height} · ${info.format}` : "");
      setText(versions, versionWords(shown));
      setText(words, picture.words);
      // The list says it too.
      words.hidden = shown.differences.length > 1;
      toSource.hidden = picture.after === undefined;
      drawList(list, shown.differences, picture, choose);
      pictures.draw(picture, shown.versions, theme, root.clientWidth);
    },
  };
}

function sameWords({ file, versions: [before] }: Compared): string {
  return l10n.t("No bitmap of {0} looks otherwise than in: {1}.", file, before);
}

function versionWords({ file, versions: [before, after], differences }: Compared): string {
  const count =
    differences.length === 1 ? l10n.t("1 bitmap differs") : l10n.t("{0} bitmaps differ", differences.length);
  return `${file} · ${before} → ${after} · ${count}`;
}

/** One word a bitmap; a lone one needs no list. */
function drawList(
  list: HTMLElement,
  differences: readonly ComparedInfo[],
  { name, ordinal }: ComparedPicture,
  choose: Wishes["choose"],
): void {
  list.hidden = differences.length < 2;
  keepFocus(list, () => {
    list.replaceChildren(
      ...differences.map((one) => {
        const here = one.name === name && one.ordinal === ordinal;
        const button = el("button", {
          type: "button",
          class: "word",
          text: one.name,
          "data-key": `${one.name} ${one.ordinal}`,
          "aria-current": here ? "true" : undefined,
        });
        button.addEventListener("click", () => choose({ name: one.name, ordinal: one.ordinal }));
        return el("li", {}, button, el("span", { class: "dim", text: ` ${one.words}` }));
      }),
    );
  });
}
