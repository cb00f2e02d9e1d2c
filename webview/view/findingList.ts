/** Findings as lines of words, each behind the shape that marks it on a ruler. */
import * as l10n from "@vscode/l10n";
import type { ShownFinding } from "../../shared/protocol/webview.ts";
import type { PlacedFindings } from "../findings.ts";
import type { Point } from "../tools/shapes.ts";
import { severityWord } from "../words.ts";
import { el } from "./dom.ts";

interface Line {
  readonly finding: ShownFinding;
  /** Where it is, in words. */
  readonly where?: string;
  /** The pixel to go to. */
  readonly at?: Point;
}

/** More than so many lines are folded. */
const FEW = 4;

export interface FindingListView {
  readonly element: HTMLElement;
  draw(lines: readonly Line[], of: unknown): void;
}

/** `go` moves the pixel cursor. Lines are made anew only where `of` is another object than before. */
export function makeFindingList(name: string, go: (to: Point) => void): FindingListView {
  const element = el("ul", { class: "findings", "aria-label": name });
  let known: unknown;
  let open = false;
  const fill = (lines: readonly Line[]) => {
    const shown = open ? lines : lines.slice(0, FEW);
    const more = el("button", { type: "button", class: "word", text: l10n.t("{0} more", lines.length - shown.length) });
    more.addEventListener("click", () => {
      open = true;
      fill(lines);
      element.querySelectorAll<HTMLElement>("button")[FEW]?.focus();
    });
    element.hidden = lines.length === 0;
    element.replaceChildren(...shown.map((line) => item(line, go)));
    if (shown.length < lines.length) element.append(el("li", {}, more));
  };
  return {
    element,
    draw: (lines, of) => {
      if (of === known) return;
      known = of;
      open = false;
      fill(lines);
    },
  };
}

function item({ finding, where, at }: Line, go: (to: Point) => void): HTMLElement {
  const { severity, message } = finding;
  const words = [el("b", { text: severityWord(severity) }), document.createTextNode(` ${message}`)];
  if (where) words.unshift(el("span", { class: "dim", text: `${where} ` }));
  const line = el("li", { class: severity });
  if (!at) {
    line.append(...words);
    return line;
  }
  const button = el("button", { type: "button", class: "finding", title: l10n.t("Go to this pixel") }, ...words);
  button.addEventListener("click", () => go(at));
  line.append(button);
  return line;
}

/** Under the grid: what is at the array's end, then the rows of the frame from top to bottom. */
function linesUnderGrid({ end, here }: PlacedFindings, lines: readonly number[]): Line[] {
  const ends = end.map((finding) => ({ finding, where: l10n.t("end of the array") }));
  const rows = here.map(({ finding, row, column }) => ({
    finding,
    where: placeWords(row, lines),
    at: { x: column, y: row },
  }));
  return [...ends, ...rows];
}

function placeWords(row: number, lines: readonly number[]): string {
  const line = lines[row] ?? 0;
  return line > 0 ? l10n.t("line {0}", line) : l10n.t("row {0}", row);
}

/** Those about the bitmap as a whole in one list, those of the frame at hand in the other. */
export function drawFindings(
  whole: FindingListView,
  inPicture: FindingListView,
  placed: PlacedFindings,
  lines: readonly number[],
) {
  whole.draw(
    placed.whole.map((finding) => ({ finding })),
    placed,
  );
  inPicture.draw(linesUnderGrid(placed, lines), placed);
}
