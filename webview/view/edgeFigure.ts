/** The mask's values as bars on a ruler, with the edge's two flanks drawn over them, which can be dragged. */
import * as l10n from "@vscode/l10n";
import { insideAt, lightAt, MOST_SOFT } from "../../shared/motion/kernel/edge.ts";
import type { Moving } from "../../shared/motion/kernel/frame.ts";
import { MOST_POSITION } from "../../shared/motion/kernel/timeline.ts";
import { BARS, barsOf, type Ruler, rulerFor, valueAt, xOf } from "../edge/histogram.ts";
import { slider, tellSlider } from "./slider.ts";
import { attributes, points, svg } from "./svg.ts";

export type Grip = "position" | "rim" | "soft" | "from" | "to";

export interface EdgeFigure {
  readonly element: SVGSVGElement;
  draw(given: Drawn): void;
}

interface Drawn {
  readonly moving: Moving;
  readonly position: number;
  readonly from: number;
  readonly to: number;
  /** In CSS pixels. */
  readonly width: number;
  readonly fixed: boolean;
}

/** Where things stand from the top, in CSS pixels. */
const TOP = 16;
const BASE = 76;
const HIGH = 108;

export function makeEdgeFigure(move: (grip: Grip, value: number) => void, done: (grip: Grip) => void): EdgeFigure {
  const element = svg("svg", { class: "edgeFigure", role: "group", "aria-label": l10n.t("Mask and edge") });
  const bars = Array.from({ length: BARS }, () => svg("rect", {}));
  const inside = svg("polyline", { class: "flank" });
  const light = svg("polyline", { class: "flank light" });
  const base = svg("line", { class: "rulerLine" });
  const labels = [0, 128, 255].map((value) => svg("text", { class: "label", "text-anchor": "middle" }, text(value)));
  const ends = (["from", "to"] as const).map((end) => [end, endMark()] as const);
  const position = svg(
    "g",
    { class: "grip position" },
    svg("rect", { class: "hit" }),
    svg("line", {}),
    svg("text", { class: "label strong" }),
  );
  const rims = [dot(), dot()];
  const softs = [dot(), dot()];
  const drawing = svg("g", { "aria-hidden": "true" }, ...bars, base, light, inside, ...labels);
  element.append(drawing, ...ends.map(([, mark]) => mark), position, ...softs, ...rims);
  let now: Drawn | undefined;
  let ruler: Ruler = { least: 0, most: 255, width: 1 };
  const at = (x: number) => valueAt(ruler, x);
  const away = (x: number) => Math.abs(at(x) - (now?.position ?? 0));
  const edge = () => now?.moving.edge ?? { soft: 0, rim: 0 };
  slider(element, [position], {
    valueAt: at,
    value: () => now?.position ?? 0,
    move: (value) => move("position", value),
    done: () => done("position"),
    least: () => Math.min(now?.from ?? 0, now?.to ?? 0),
    most: () => Math.max(now?.from ?? 0, now?.to ?? 0),
  });
  // A press beside all grips takes the edge there.
  element.addEventListener("pointerdown", (event) => {
    if (event.button !== 0 || event.target instanceof Element === false) return;
    move("position", at(event.clientX - element.getBoundingClientRect().x));
  });
  const flank = (grips: readonly SVGElement[], grip: "rim" | "soft", least: () => number, most: () => number) =>
    slider(element, grips, {
      valueAt: away,
      value: () => edge()[grip],
      move: (value) => move(grip, value),
      done: () => done(grip),
      least,
      most,
    });
  flank(
    softs,
    "soft",
    () => edge().rim,
    () => MOST_SOFT,
  );
  flank(
    rims,
    "rim",
    () => 0,
    () => edge().soft,
  );
  for (const [end, mark] of ends)
    slider(element, [mark], {
      valueAt: at,
      value: () => now?.[end] ?? 0,
      move: (value) => move(end, value),
      done: () => done(end),
      least: () => -MOST_POSITION,
      most: () => MOST_POSITION,
    });
  return {
    element,
    draw: (given) => {
      now = given;
      const { moving, position: p, width, fixed } = given;
      const { soft, rim, level } = moving.edge;
      // While an end or a flank is dragged the ruler stands still under it, unless it would be dragged off.
      const wanted = rulerFor({ from: given.from, to: given.to, soft }, width);
      const held = element.contains(document.activeElement) && element.matches(":active");
      if (!held || ruler.width !== width) ruler = wanted;
      const x = (value: number) => xOf(ruler, value);
      attributes(element, { width, height: HIGH, viewBox: `0 0 ${width} ${HIGH}` });
      element.classList.toggle("fixed", fixed);
      drawBars(bars, moving, p, x);
      attributes(base, { x1: x(0), x2: x(255), y1: BASE + 0.5, y2: BASE + 0.5 });
      labels.forEach((label, i) => void attributes(label, { x: x([0, 128, 255][i] as number), y: BASE + 13 }));
      const y = (share: number) => BASE - share * (BASE - TOP);
      const across = Array.from({ length: 129 }, (_, i) => ruler.least + ((ruler.most - ruler.least) * i) / 128);
      const whole = [...new Set([...across.map(Math.round), p - soft, p - rim, p + rim, p + soft])].sort(
        (a, b) => a - b,
      );
      attributes(inside, { points: points(whole.map((m) => [x(m), y(insideAt(moving.edge, m - p) / 255)])) });
      const glow = (m: number) => y(level === 0 ? 0 : (0.72 * lightAt(moving.edge, m - p)) / level);
      attributes(light, { points: points(whole.map((m) => [x(m), glow(m)])) });
      place(softs, [x(p - soft), x(p + soft)], y(0), y(0));
      place(rims, [x(p - rim), x(p + rim)], y(1), y(0.72));
      const [hit, line, name] = position.children;
      attributes(hit as Element, { x: x(p) - 6, y: 0, width: 12, height: BASE });
      attributes(line as Element, { x1: x(p), x2: x(p), y1: TOP - 2, y2: BASE });
      words(name as SVGTextElement, l10n.t("edge at {0}", p), x(p), 11, width);
      for (const [end, mark] of ends) {
        const value = given[end];
        const [area, tick, label] = mark.children;
        attributes(area as Element, { x: x(value) - 8, y: BASE - 6, width: 16, height: HIGH - BASE + 6 });
        attributes(tick as Element, {
          points: points([
            [x(value), BASE + 2],
            [x(value) - 5, BASE + 19],
            [x(value) + 5, BASE + 19],
          ]),
        });
        words(label as SVGTextElement, `${end} ${value}`, x(value), HIGH - 3, width);
        tellSlider(
          mark,
          end === "from" ? l10n.t("Where the edge begins") : l10n.t("Where it ends"),
          value,
          -MOST_POSITION,
          MOST_POSITION,
          String(value),
        );
      }
      tellSlider(
        position,
        l10n.t("Edge"),
        p,
        Math.min(given.from, given.to),
        Math.max(given.from, given.to),
        l10n.t("edge at {0}", p),
      );
      tellSlider(softs[0] as SVGElement, l10n.t("Soft width"), soft, rim, MOST_SOFT, String(soft));
      tellSlider(rims[0] as SVGElement, l10n.t("Rim"), rim, 0, soft, String(rim));
    },
  };
}

function text(value: number): Text {
  return document.createTextNode(String(value));
}

function dot(): SVGGElement {
  return svg(
    "g",
    { class: "grip" },
    svg("circle", { class: "hit", r: 9 }),
    svg("rect", { width: 7, height: 7, x: -3.5, y: -3.5 }),
  );
}

function endMark(): SVGGElement {
  return svg(
    "g",
    { class: "grip end" },
    svg("rect", { class: "hit" }),
    svg("polygon", {}),
    svg("text", { class: "label" }),
  );
}

function place(grips: readonly SVGElement[], xs: readonly number[], left: number, right: number): void {
  grips.forEach((grip, i) => void attributes(grip, { transform: `translate(${xs[i]} ${i === 0 ? left : right})` }));
}

/** Words under or over a place, kept inside of the drawing. */
function words(label: SVGTextElement, said: string, x: number, y: number, width: number): void {
  if (label.textContent !== said) label.textContent = said;
  // About seven pixels a letter: what would pass an edge of the drawing stands at that edge.
  const half = said.length * 3.6;
  const anchor = x < half ? "start" : x > width - half ? "end" : "middle";
  attributes(label, { x: anchor === "start" ? 0 : anchor === "end" ? width : x, y, "text-anchor": anchor });
}

/** A bar is dim where its pixels are dark still, and solid where they are lit. */
function drawBars(
  bars: readonly SVGElement[],
  { mask, edge }: Moving,
  position: number,
  x: (value: number) => number,
): void {
  const counts = barsOf(mask);
  const most = Math.max(1, ...counts);
  bars.forEach((bar, i) => {
    const count = counts[i] as number;
    const [left, right] = [x(i * 4), x(i * 4 + 4)];
    // The square root keeps single pixels in sight beside many.
    const high = count === 0 ? 0 : Math.max(2, Math.sqrt(count / most) * (BASE - TOP - 6));
    const lit = insideAt(edge, i * 4 + 2 - position) > 0;
    attributes(bar, {
      x: left,
      y: BASE - high,
      width: Math.max(1, right - left - 1),
      height: high,
      class: lit ? "heap on" : "heap",
    });
  });
}
