/** The frames as one strip with a time scale: a slider, whose frames can also be dragged to another place. */
import * as l10n from "@vscode/l10n";
import { stepsOf } from "../../shared/light/lattice.ts";
import type { BitmapInfo } from "../../shared/protocol/lsp.ts";
import { gravest, type PlacedFindings } from "../findings.ts";
import { findingWords } from "../words.ts";
import { el, sizeCanvas } from "./dom.ts";
import type { Lamps } from "./lamps.ts";
import { drawMarker, MARKER } from "./marker.ts";
import { drawScale } from "./scale.ts";
import { listenToStrip } from "./stripPointer.ts";
import type { Theme } from "./theme.ts";
import { thumbs } from "./thumbs.ts";

interface StripModel {
  readonly bitmap: BitmapInfo;
  readonly pictures: readonly Uint32Array[];
  readonly lamps: Lamps;
  readonly frame: number;
  readonly placed: PlacedFindings;
  readonly theme: Theme;
  /** By how many eighths of a circle the picture is turned. */
  readonly turn: number;
  /** Frames a second, where they are known. */
  readonly fps: number | undefined;
  /** The frame in words. */
  readonly words: string;
  /** A stroke is under way: the strip shows it once it is done, as a large picture takes long to make small. */
  readonly busy: boolean;
}

interface StripView {
  readonly element: HTMLElement;
  draw(model: StripModel): void;
}

/** What the strip is asked for. */
interface StripWishes {
  readonly go: (frame: number) => void;
  /** From a key on the strip. */
  readonly key: (event: KeyboardEvent) => boolean;
  readonly move: (from: number, to: number) => void;
}

const SCALE = 16;
const GAP = 5;
/** Dark around each frame, or what is lit at its edge would run into the page where that is light. */
const MARGIN = 2;
const HIGH = 40;
/** Frames of no more pixels than that follow each move of the pointer. */
const AT_ONCE = 8192;
/** Canvases wider than this many CSS pixels are not safe on every screen. */
const WIDEST = 8000;

export function makeStrip(wishes: StripWishes): StripView {
  const canvas = el("canvas", {
    class: "strip",
    role: "slider",
    tabindex: "0",
    "aria-label": l10n.t("Frame"),
    "aria-valuemin": "0",
  });
  const drop = el("div", { class: "dropPlace" });
  drop.hidden = true;
  const element = el("div", { class: "scroll stripPane" }, canvas, drop);
  const small = thumbs();
  let step = 1;
  let last: StripModel | undefined;
  let key = "";
  let drawn: Lamps | undefined;
  let pictures: readonly Uint32Array[] = [];
  let inView = "";

  canvas.addEventListener("keydown", (event) => {
    if (!last) return;
    const { frame, bitmap } = last;
    const plain = !event.ctrlKey && !event.metaKey && !event.altKey && !event.shiftKey;
    const to = { ArrowLeft: frame - 1, ArrowRight: frame + 1, Home: 0, End: bitmap.frames - 1 }[event.key];
    // A character typed on the strip of a glyph set is its glyph.
    const typed = event.ctrlKey || event.metaKey || [...event.key].length > 1 ? -1 : (event.key.codePointAt(0) ?? -1);
    const glyph = bitmap.characters?.indexOf(typed) ?? -1;
    if (plain && to !== undefined) wishes.go(to);
    else if (glyph >= 0) wishes.go(glyph);
    else if (!wishes.key(event)) return;
    event.preventDefault();
  });
  canvas.addEventListener("pointermove", (event) => {
    const at = Math.floor((event.offsetX - GAP) / step);
    const words = (last?.placed.frames.get(at) ?? []).map(findingWords).join("\n");
    if (canvas.title !== words) canvas.title = words;
  });
  listenToStrip(canvas, {
    frames: () => last?.bitmap.frames ?? 1,
    place: (x) => (x - GAP / 2) / step,
    press: wishes.go,
    over: (place) => {
      drop.hidden = place === undefined;
      if (place === undefined) return;
      drop.style.left = `${GAP / 2 + place * step}px`;
      bringIntoView(element, GAP + Math.max(0, place - 0.5) * step, step - GAP);
    },
    move: wishes.move,
  });

  // In another width of the page, the frame at hand stays in view.
  new ResizeObserver(() => last && bringIntoView(element, GAP + last.frame * step, step - GAP)).observe(element);

  return {
    element,
    draw: (model) => {
      last = model;
      const { bitmap, frame, placed, lamps, turn, fps, words } = model;
      canvas.setAttribute("aria-valuemax", String(bitmap.frames - 1));
      canvas.setAttribute("aria-valuenow", String(frame));
      canvas.setAttribute("aria-valuetext", words);
      const marked = [...placed.frames].map(([at, list]) => `${at} ${gravest(list)}`).join();
      const now = `${frame} ${turn} ${bitmap.frames} ${fps} ${window.devicePixelRatio} ${marked}`;
      const changed =
        model.busy && bitmap.width * bitmap.height > AT_ONCE
          ? false
          : pictures.length !== model.pictures.length || model.pictures.some((p, i) => p !== pictures[i]);
      if (!changed && now === key && drawn === lamps) return;
      key = now;
      pictures = model.pictures;
      drawn = lamps;
      step = drawStrip(canvas, model, small);
      drop.style.height = `${canvas.clientHeight - SCALE}px`;
      // Only where another frame is at hand: a strip that was scrolled by hand stays so while the frame is painted.
      const wanted = `${frame} ${step} ${bitmap.frames} ${bitmap.name}`;
      if (wanted !== inView) bringIntoView(element, GAP + frame * step, step - GAP);
      inView = wanted;
    },
  };
}

/** Scrolls no further than it must. */
function bringIntoView(pane: HTMLElement, left: number, width: number): void {
  const right = left + width + GAP - pane.clientWidth;
  pane.scrollLeft = Math.min(Math.max(pane.scrollLeft, right), left - GAP);
}

/** Draws the strip, its frames turned as the picture is; returns how far apart they stand. */
function drawStrip(canvas: HTMLCanvasElement, model: StripModel, thumb: ReturnType<typeof thumbs>): number {
  const { bitmap, pictures, lamps, frame, theme, turn, fps } = model;
  const { width, height, frames } = bitmap;
  const { across, down } = stepsOf(width, height, turn);
  const scale = Math.max(Math.min(HIGH / down, (HIGH * 2) / across, 6), 0.25);
  const wide = Math.min(Math.max(4, across * scale), WIDEST / frames - GAP);
  const high = down * scale;
  const step = wide + GAP;
  const marked = model.placed.frames.size > 0 ? MARKER + 2 : 0;
  const context = sizeCanvas(canvas, Math.ceil(frames * step + GAP), Math.ceil(high + 2 * GAP + SCALE + marked));
  for (const [i, pixels] of pictures.entries()) {
    if (!theme.contrast && turn % 2 === 0) {
      context.fillStyle = lamps.face;
      context.fillRect(GAP + i * step - MARGIN, GAP - MARGIN, wide + 2 * MARGIN, high + 2 * MARGIN);
    }
    const small = thumb(i, { bitmap, pixels, lamps, turn, wide, high, scale });
    context.drawImage(small, GAP + i * step, GAP, wide, high);
    if (!theme.contrast) continue;
    context.strokeStyle = theme.border;
    context.strokeRect(GAP + i * step - 0.5, GAP - 0.5, wide + 1, high + 1);
  }
  for (const [at, list] of model.placed.frames)
    drawMarker(context, theme, gravest(list), GAP + at * step + wide / 2, high + 2 * GAP + MARKER / 2);
  context.strokeStyle = theme.focus;
  context.lineWidth = 2;
  context.strokeRect(GAP + frame * step - 1, GAP - 1, wide + 2, high + 2);
  const { characters } = bitmap;
  drawScale(context, { characters, frames, fps, frame, left: GAP, step, top: high + 2 * GAP + marked, theme });
  return step;
}
