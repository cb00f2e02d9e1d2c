/** The room that there is for the picture on the page. */
import type { Shown } from "../../shared/protocol/webview.ts";
import { turnOf } from "../look.ts";
import type { State } from "../state.ts";
import { el } from "./dom.ts";
import { type Geometry, geometryOf } from "./geometry.ts";

/** Room that the ladder takes beside the grid. */
const LADDER = 128;

/** How thick the editor makes a scroll bar; told to the style sheet as `--bar`. */
export function scrollBar(root: HTMLElement): number {
  const probe = el("div", { class: "probe" });
  root.append(probe);
  const bar = probe.offsetWidth - probe.clientWidth;
  probe.remove();
  root.style.setProperty("--bar", `${bar}px`);
  return bar;
}

/** `width` is that of the page, in CSS pixels. */
export function measure(width: number, { bitmap, rowLines }: Shown, { view, zoom }: State, bar: number): Geometry {
  const last = Math.max(bitmap.declaration.start.line + 1, ...rowLines.map((lines) => Math.max(0, ...lines)));
  const room = {
    width: width - 8,
    height: Math.max(320, window.innerHeight * 0.7),
    left: Math.max(3, String(last).length) * 7 + 14,
    ladder: LADDER,
    ratio: window.devicePixelRatio || 1,
    bar,
  };
  return geometryOf(bitmap.width, bitmap.height, room, { turn: turnOf(bitmap, view), zoom });
}
