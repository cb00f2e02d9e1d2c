/** The frames as one strip with a time scale, and playing. Nothing ever plays by itself. */
import * as l10n from "@vscode/l10n";
import type { BitmapInfo } from "../../shared/protocol/lsp.ts";
import { gravest, type PlacedFindings } from "../findings.ts";
import { turnOf } from "../look.ts";
import { scaleOf } from "../scale.ts";
import type { Action, State } from "../state.ts";
import { findingCount, findingWords, frameWords, seconds } from "../words.ts";
import { el, setText, sizeCanvas } from "./dom.ts";
import { makeFindingList } from "./findingList.ts";
import { labelEvery } from "./geometry.ts";
import { type Lamps, lampsOf } from "./lamps.ts";
import { latticeOf, stepsOf } from "./lattice.ts";
import { drawMarker, MARKER } from "./marker.ts";
import type { Theme } from "./theme.ts";

export interface FramesView {
  readonly element: HTMLElement;
  draw(model: FramesModel): void;
}

interface FramesModel {
  readonly bitmap: BitmapInfo;
  readonly pictures: readonly Uint32Array[];
  readonly frame: number;
  readonly playing: boolean;
  readonly placed: PlacedFindings;
  readonly theme: Theme;
}

const SCALE = 16;
const GAP = 3;
const HIGH = 40;
/** Canvases wider than this many CSS pixels are not safe on every screen. */
const WIDEST = 8000;

export function makeFrames(dispatch: (action: Action) => void, state: () => State): FramesView {
  const play = el("vscode-button", { appearance: "secondary", class: "play" });
  const where = el("span", { class: "dim" });
  const canvas = el("canvas", {
    class: "strip",
    role: "slider",
    tabindex: "0",
    "aria-label": l10n.t("Frame"),
    "aria-valuemin": "0",
  });
  const caution = el("p", {
    class: "dim small",
    text: l10n.t("Fast changes of light can harm photosensitive viewers (WCAG 2.2, 2.3.1)."),
  });
  const findings = makeFindingList(l10n.t("Findings about frames"), () => undefined);
  const bar = el("div", { class: "playRow" }, play, where);
  const scroll = el("div", { class: "scroll" }, canvas);
  const element = el(
    "section",
    { class: "frames", "aria-label": l10n.t("Frames") },
    bar,
    scroll,
    findings.element,
    caution,
  );
  const small = thumbs();
  let step = 1;
  let key = "";
  let drawn: Lamps | undefined;
  let pictures: readonly Uint32Array[] = [];
  let inView = "";

  play.addEventListener("click", () => dispatch({ type: "playing", playing: !state().playing }));
  canvas.addEventListener("pointerdown", (event) => {
    dispatch({ type: "playing", playing: false });
    dispatch({ type: "frame", frame: Math.floor(event.offsetX / step) });
  });
  let frames: PlacedFindings["frames"] = new Map();
  canvas.addEventListener("pointermove", (event) => {
    const at = Math.floor((event.offsetX - GAP) / step);
    const words = (frames.get(at) ?? []).map(findingWords).join("\n");
    if (canvas.title !== words) canvas.title = words;
  });
  canvas.addEventListener("keydown", (event) => {
    const { frame, shown } = state();
    const to = { ArrowLeft: frame - 1, ArrowRight: frame + 1, Home: 0, End: (shown?.bitmap.frames ?? 1) - 1 }[
      event.key
    ];
    if (to === undefined) return;
    event.preventDefault();
    dispatch({ type: "frame", frame: to });
  });

  return {
    element,
    draw: (model) => {
      const { bitmap, frame, playing, placed } = model;
      element.hidden = bitmap.frames < 2;
      if (element.hidden) return;
      setText(play, playing ? l10n.t("Pause") : l10n.t("Play"));
      const words = frameWords(frame, bitmap);
      setText(where, bitmap.fps ? words : l10n.t("{0} (no fps given: plays 10 a second)", words));
      canvas.setAttribute("aria-valuemax", String(bitmap.frames - 1));
      canvas.setAttribute("aria-valuenow", String(frame));
      frames = placed.frames;
      const found = frames.get(frame)?.length ?? 0;
      canvas.setAttribute("aria-valuetext", found > 0 ? `${words}, ${findingCount(found)}` : words);
      const lines = placed.ofFrames.map((one) => ({ finding: one.finding, where: l10n.t("frame {0}", one.frame) }));
      findings.draw(lines, placed);
      const marked = [...frames].map(([at, list]) => `${at} ${gravest(list)}`).join();
      const turn = turnOf(bitmap, state().view);
      const now = `${frame} ${turn} ${bitmap.frames} ${bitmap.fps} ${window.devicePixelRatio} ${marked}`;
      const changed = pictures.length !== model.pictures.length || model.pictures.some((p, i) => p !== pictures[i]);
      const lamps = lampsOf(scaleOf(bitmap), model.theme);
      if (!changed && now === key && lamps === drawn) return;
      key = now;
      pictures = model.pictures;
      drawn = lamps;
      step = drawStrip(canvas, model, turn, (at) => small(model, at));
      // Only where another frame is at hand: a strip that was scrolled by hand stays so while the frame is painted.
      const wanted = `${frame} ${step} ${bitmap.name}`;
      if (wanted !== inView) bringIntoView(scroll, GAP + frame * step, step - GAP);
      inView = wanted;
    },
  };
}

interface Thumb {
  readonly pixels: Uint32Array | undefined;
  readonly lamps: Lamps;
  readonly canvas: HTMLCanvasElement;
}

/** Small pictures of the frames, each drawn again only when its pixels are new. */
function thumbs(): (model: FramesModel, frame: number) => HTMLCanvasElement {
  const known: Thumb[] = [];
  return ({ bitmap, pictures, theme }, frame) => {
    const { width, height } = bitmap;
    const pixels = pictures[frame];
    const lamps = lampsOf(scaleOf(bitmap), theme);
    const old = known[frame];
    if (old && old.pixels === pixels && old.lamps === lamps) return old.canvas;
    const canvas = el("canvas", { width: String(width), height: String(height) });
    const context = canvas.getContext("2d");
    const image = new ImageData(width, height);
    pixels?.forEach((value, at) => {
      const rgb = lamps.shade(value);
      image.data.set([rgb >> 16, (rgb >> 8) & 255, rgb & 255, 255], at * 4);
    });
    context?.putImageData(image, 0, 0);
    known[frame] = { pixels, lamps, canvas };
    return canvas;
  };
}

/** Scrolls no further than it must. */
function bringIntoView(pane: HTMLElement, left: number, width: number): void {
  const right = left + width + GAP - pane.clientWidth;
  pane.scrollLeft = Math.min(Math.max(pane.scrollLeft, right), left - GAP);
}

/** Draws the strip, its frames turned as the picture is; returns how far apart they stand. */
function drawStrip(
  canvas: HTMLCanvasElement,
  model: FramesModel,
  turn: number,
  thumb: (frame: number) => HTMLCanvasElement,
): number {
  const { bitmap, frame, theme } = model;
  const { width, height, frames, fps } = bitmap;
  const { across, down } = stepsOf(width, height, turn);
  const scale = Math.max(Math.min(HIGH / down, (HIGH * 2) / across, 6), 0.25);
  const wide = Math.min(Math.max(4, across * scale), WIDEST / frames - GAP);
  const high = down * scale;
  const lattice = latticeOf(width, height, scale, turn, { x: 0, y: 0 });
  const step = wide + GAP;
  const marked = model.placed.frames.size > 0 ? MARKER + 2 : 0;
  const context = sizeCanvas(canvas, Math.ceil(frames * step + GAP), Math.ceil(high + 2 * GAP + SCALE + marked));
  context.imageSmoothingEnabled = scale < 1;
  for (let i = 0; i < frames; i++) {
    context.save();
    context.translate(GAP + i * step, GAP);
    context.scale(wide / (across * scale), 1);
    const { origin, along, down: below } = lattice;
    context.transform(along.x, along.y, below.x, below.y, origin.x, origin.y);
    context.drawImage(thumb(i), 0, 0);
    context.restore();
    if (theme.contrast) {
      context.strokeStyle = theme.border;
      context.strokeRect(GAP + i * step - 0.5, GAP - 0.5, wide + 1, high + 1);
    }
  }
  for (const [at, list] of model.placed.frames)
    drawMarker(context, theme, gravest(list), GAP + at * step + wide / 2, high + 2 * GAP + MARKER / 2);
  context.strokeStyle = theme.focus;
  context.lineWidth = 2;
  context.strokeRect(GAP + frame * step - 1, GAP - 1, wide + 2, high + 2);
  timeScale(context, { frames, fps, frame, step, top: high + 2 * GAP + marked, theme });
  return step;
}

interface Scale {
  readonly frames: number;
  readonly fps: number | undefined;
  readonly frame: number;
  readonly step: number;
  readonly top: number;
  readonly theme: Theme;
}

/** A tick where each frame begins, and times where there is room. */
function timeScale(context: CanvasRenderingContext2D, { frames, fps, frame, step, top, theme }: Scale): void {
  const every = labelEvery(step, fps ? 48 : 28);
  context.font = `10px ${theme.font}`;
  context.textBaseline = "alphabetic";
  for (let i = 0; i < frames; i++) {
    const x = GAP + i * step;
    const labelled = i % every === 0;
    context.fillStyle = i === frame ? theme.activeNumber : theme.number;
    context.fillRect(x, top, 1, labelled ? 6 : 3);
    if (labelled) context.fillText(fps ? seconds(i, fps) : String(i), x + 3, top + 12);
  }
}
