/** The axes of symmetry over the picture: dashed lines that stand out at both ends, whatever they lie on. */

import { pointAt } from "../../shared/light/lattice.ts";
import type { Symmetry } from "../tools/mirror.ts";
import { el } from "./dom.ts";
import type { Geometry } from "./geometry.ts";
import { layLine } from "./layLine.ts";

/** How far they stand out, in CSS pixels. */
const BEYOND = 5;

/** Draws on the layer that lies over the pixels. */
export function axes(layer: HTMLElement): (g: Geometry, symmetry: Symmetry) => void {
  const lines = new Map<"columns" | "rows", HTMLElement>();
  let drawn: Geometry | undefined;
  let of: Symmetry = "off";
  return (g, symmetry) => {
    if (drawn === g && of === symmetry) return;
    [drawn, of] = [g, symmetry];
    for (const name of ["columns", "rows"] as const) {
      const wanted = symmetry === name || symmetry === "both";
      if (!wanted) lines.get(name)?.remove();
      if (!wanted) continue;
      const line = lines.get(name) ?? el("div", { class: "axis", "data-axis": name, "aria-hidden": "true" });
      lines.set(name, line);
      place(line, g, name);
      layer.append(line);
    }
  };
}

function place(line: HTMLElement, g: Geometry, name: "columns" | "rows"): void {
  const [middleX, middleY] = [g.columns / 2, g.rows / 2];
  const from = name === "columns" ? pointAt(g.lattice, middleX, 0) : pointAt(g.lattice, 0, middleY);
  const to = name === "columns" ? pointAt(g.lattice, middleX, g.rows) : pointAt(g.lattice, g.columns, middleY);
  layLine(line, g, from, to, BEYOND, true);
}
