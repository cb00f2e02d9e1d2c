/** One row of the gallery: a heading, or a bitmap with its picture, facts and what can be done with it. */
import * as l10n from "@vscode/l10n";
import { el } from "../view/dom.ts";
import { severityWord } from "../words.ts";
import type { Grouping, Heading, Item, Row } from "./model.ts";

export interface Wishes {
  open(item: Item): void;
  paint(item: Item): void;
}

/** Room for a picture, as the style sheet has it. */
const [WIDE, TALL] = [64, 48];

export function makeRow(row: Row, grouping: Grouping, wishes: Wishes): HTMLElement {
  const given = { class: row.kind };
  return row.kind === "heading" ? el("li", given, headingOf(row)) : el("li", given, ...partsOf(row, grouping, wishes));
}

function headingOf({ title, count }: Heading): HTMLElement {
  return el("h2", {}, el("span", { text: title }), el("span", { class: "dim", text: ` · ${count}` }));
}

function partsOf(item: Item, grouping: Grouping, { open, paint }: Wishes): HTMLElement[] {
  const { entry, file } = item;
  const { findings, facts, line } = entry;
  const name = el("button", {
    type: "button",
    class: "name",
    tabindex: "-1",
    text: entry.identity.name,
    "aria-label": labelOf(item),
    "aria-keyshortcuts": "Enter P",
    title: `${file}:${line}`,
  });
  name.addEventListener("click", () => open(item));
  const word = el("button", {
    type: "button",
    class: "word",
    tabindex: "-1",
    text: l10n.t("Paint"),
    "aria-label": l10n.t("Paint {0}", entry.identity.name),
  });
  word.addEventListener("click", () => paint(item));
  const mark = findings
    ? el("span", { class: `mark ${findings.worst}`, text: markOf(findings), title: findings.first })
    : undefined;
  const number = el("span", { class: "number", text: String(line), "aria-hidden": "true" });
  const parts = facts.split(" · ");
  const rest = grouping === "file" ? parts.slice(2).join(" · ") : file;
  const text = el(
    "div",
    { class: "text" },
    el("div", { class: "head" }, number, name, ...(entry.pictureless ? [] : [word])),
    el("div", { class: "facts dim" }, el("span", { text: parts.slice(0, 2).join(" · ") })),
    el("div", { class: "facts dim" }, el("span", { text: rest }), ...(mark ? [mark] : [])),
  );
  return [el("div", { class: "box", "aria-hidden": "true" }), text];
}

/** Puts the picture into a row's box, as large as a whole number allows. */
export function showPicture(row: HTMLElement, uri: string | null | undefined): void {
  const box = row.querySelector<HTMLElement>(".box");
  if (!box || box.dataset.uri === (uri ?? "")) return;
  box.dataset.uri = uri ?? "";
  if (!uri) {
    box.replaceChildren();
    return;
  }
  const image = el("img", { src: uri, alt: "" });
  image.addEventListener("load", () => {
    const { naturalWidth: width, naturalHeight: height } = image;
    const fit = Math.min(WIDE / width, TALL / height);
    const scale = fit >= 1 ? Math.floor(fit) : fit;
    image.width = Math.max(1, Math.round(width * scale));
    image.height = Math.max(1, Math.round(height * scale));
    image.className = scale < 1 ? "small" : "";
    box.replaceChildren(image);
  });
}

function labelOf({ entry, file }: Item): string {
  const { identity, facts, line, findings } = entry;
  const parts = [identity.name, facts.replaceAll(" · ", ", "), l10n.t("{0} line {1}", file, line)];
  if (findings) parts.push(`${markOf(findings)}: ${findings.first}`);
  return parts.join(", ");
}

/** `2 findings`, or what the only one is. */
function markOf({ count, worst }: NonNullable<Item["entry"]["findings"]>): string {
  return count === 1 ? severityWord(worst) : l10n.t("{0} findings", count);
}
