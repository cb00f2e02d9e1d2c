/** The frames along time: where the edge stands in each, and the one at hand. */
import * as l10n from "@vscode/l10n";
import { orderOf, type Timeline } from "../../shared/motion/kernel/timeline.ts";
import { slider, tellSlider } from "./slider.ts";
import { attributes, points, svg } from "./svg.ts";

export interface TimeFigure {
  readonly element: SVGSVGElement;
  draw(given: {
    readonly timeline: Timeline;
    readonly frame: number;
    readonly width: number;
    readonly fps: number | undefined;
  }): void;
}

const HIGH = 64;
const TOP = 6;
const BASE = 44;
const SIDE = 6;

export function makeTimeFigure(go: (frame: number) => void): TimeFigure {
  const band = svg("rect", { class: "band" });
  const line = svg("polyline", { class: "flank" });
  const base = svg("line", { class: "rulerLine" });
  const [first, last] = [svg("text", { class: "label" }), svg("text", { class: "label", "text-anchor": "end" })];
  const grip = svg(
    "g",
    { class: "grip position" },
    svg("rect", { class: "hit" }),
    svg("line", {}),
    svg("circle", { r: 3.5 }),
  );
  const element = svg("svg", { class: "edgeFigure", role: "group", "aria-label": l10n.t("Frames along time") });
  element.append(svg("g", { "aria-hidden": "true" }, band, line, base, first, last), grip);
  let frames = 1;
  let frame = 0;
  let width = 1;
  const within = (n: number) => Math.min(frames - 1, Math.max(0, Math.round(n)));
  const at = (x: number) => within(((x - SIDE) * (frames - 1)) / Math.max(1, width - 2 * SIDE));
  slider(element, [grip], {
    valueAt: at,
    value: () => frame,
    move: (value) => go(within(value)),
    done: () => undefined,
    least: () => 0,
    most: () => frames - 1,
  });
  element.addEventListener("pointerdown", (event) => {
    if (event.button === 0) go(at(event.clientX - element.getBoundingClientRect().x));
  });
  return {
    element,
    draw: ({ timeline, frame: now, width: wide, fps }) => {
      const order = orderOf(timeline);
      [frames, frame, width] = [order.length, Math.min(now, order.length - 1), wide];
      const positions = order.map((n) => timeline.positions[n] as number);
      const [low, high] = [Math.min(0, ...timeline.positions), Math.max(255, ...timeline.positions)];
      const x = (n: number) => SIDE + ((wide - 2 * SIDE) * n) / Math.max(1, frames - 1);
      const y = (p: number) => BASE - ((BASE - TOP) * (p - low)) / (high - low);
      attributes(element, { width: wide, height: HIGH, viewBox: `0 0 ${wide} ${HIGH}` });
      attributes(band, { x: SIDE, width: wide - 2 * SIDE, y: y(255), height: y(0) - y(255) });
      attributes(line, { points: points(positions.map((p, n) => [x(n), y(p)])) });
      attributes(base, { x1: SIDE, x2: wide - SIDE, y1: BASE + 3.5, y2: BASE + 3.5 });
      first.textContent = l10n.t("frame {0}", 0);
      last.textContent = fps
        ? l10n.t("frame {0}, {1} s", frames - 1, Math.round((100 * frames) / fps) / 100)
        : l10n.t("frame {0}", frames - 1);
      attributes(first, { x: SIDE, y: HIGH - 4 });
      attributes(last, { x: wide - SIDE, y: HIGH - 4 });
      const [hit, mark, dot] = grip.children;
      attributes(hit as Element, { x: x(frame) - 7, y: 0, width: 14, height: BASE + 4 });
      attributes(mark as Element, { x1: x(frame), x2: x(frame), y1: TOP - 4, y2: BASE + 3 });
      attributes(dot as Element, { cx: x(frame), cy: y(positions[frame] ?? 0) });
      const said = l10n.t("frame {0} of 0–{1}, edge at {2}", frame, frames - 1, positions[frame] ?? 0);
      tellSlider(grip, l10n.t("Frame in time"), frame, 0, frames - 1, said);
    },
  };
}
