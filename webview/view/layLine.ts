/** Lays an element as a line over the pixels, from one point of the sheet to another. */

import type { Vector } from "../../shared/light/lattice.ts";
import type { Geometry } from "./geometry.ts";

/** `beyond`: how far it stands out at both ends, in CSS pixels. `middle`: its thickness lies on both sides of the points. */
export function layLine(line: HTMLElement, g: Geometry, from: Vector, to: Vector, beyond = 0, middle = false): void {
  const [dx, dy] = [to.x - from.x, to.y - from.y];
  const length = Math.hypot(dx, dy);
  const share = beyond / length;
  Object.assign(line.style, {
    left: `${from.x - dx * share - g.left}px`,
    top: `${from.y - dy * share - g.top}px`,
    width: `${length + 2 * beyond}px`,
    transform: `rotate(${Math.atan2(dy, dx)}rad)${middle ? " translateY(-50%)" : ""}`,
  });
}
