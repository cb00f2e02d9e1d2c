/** The edge of what is selected or floats, drawn over the pixels: solid below and dashed above, to be seen on any ground. */
import { el } from "../view/dom.ts";
import { SMALL } from "../view/face.ts";
import type { Geometry } from "../view/geometry.ts";
import type { SelectionState } from "./reduce.ts";
import { isRectangle } from "./selection.ts";

export interface OutlineView {
  readonly element: HTMLElement;
  draw(geometry: Geometry, of: SelectionState): void;
}

/** Length of a path of many edges. */
const LONG = 200;

const SVG = "http://www.w3.org/2000/svg";

/** To be laid over the grid. */
export function makeOutline(): OutlineView {
  const element = el("div", { class: "outline", "aria-hidden": "true" });
  const lines = ["below", "above"].map((which) => {
    const path = document.createElementNS(SVG, "path");
    path.setAttribute("class", which);
    return path;
  });
  element.hidden = true;
  let drawn = "";
  let shown: string | undefined;
  return {
    element,
    draw: (geometry, { selection, float }) => {
      element.hidden = !selection && !float;
      if (element.hidden) return;
      if (!element.firstChild) {
        const svg = document.createElementNS(SVG, "svg");
        svg.append(...lines);
        element.append(svg);
      }
      element.classList.toggle("floats", float !== undefined);
      const { origin, along, down } = geometry.lattice;
      const [x, y] = [float?.at.x ?? 0, float?.at.y ?? 0];
      const left = origin.x + x * along.x + y * down.x - geometry.left;
      const top = origin.y + x * along.y + y * down.y - geometry.top;
      const path = float ? around(float.piece.mask, float.piece) : selection ? pathOf(selection) : "";
      // Wide lines around many small pixels would hide them.
      element.classList.toggle("fine", geometry.side < SMALL && path.length > LONG);
      const place = `matrix(${along.x} ${along.y} ${down.x} ${down.y} ${left} ${top})`;
      if (path === shown && place === drawn) return;
      [shown, drawn] = [path, place];
      for (const line of lines) {
        line.setAttribute("d", path);
        line.setAttribute("transform", place);
      }
    },
  };
}

function pathOf(of: NonNullable<SelectionState["selection"]>): string {
  const { x, y, width, height, mask, size } = of;
  return isRectangle(of) ? `M${x} ${y}h${width}v${height}h${-width}z` : around(mask, size);
}

const known = new WeakMap<Uint8Array, string>();

/** The edges between pixels of which one is in the mask, in runs. */
function around(mask: Uint8Array, size: { readonly width: number; readonly height: number }): string {
  const before = known.get(mask);
  if (before !== undefined) return before;
  const { width, height } = size;
  const at = (x: number, y: number) => x >= 0 && y >= 0 && x < width && y < height && mask[y * width + x] === 1;
  const parts: string[] = [];
  const runs = (lines: number, length: number, edge: (line: number, i: number) => boolean, to: Segment) => {
    for (let line = 0; line <= lines; line++) {
      for (let i = 0; i < length; i++) {
        if (!edge(line, i)) continue;
        const from = i;
        while (i < length && edge(line, i)) i++;
        parts.push(to(line, from, i));
      }
    }
  };
  runs(
    height,
    width,
    (y, x) => at(x, y - 1) !== at(x, y),
    (y, from, end) => `M${from} ${y}H${end}`,
  );
  runs(
    width,
    height,
    (x, y) => at(x - 1, y) !== at(x, y),
    (x, from, end) => `M${x} ${from}V${end}`,
  );
  const path = parts.join("");
  known.set(mask, path);
  return path;
}

type Segment = (line: number, from: number, end: number) => string;
