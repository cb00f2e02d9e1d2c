/** One frame in both versions and what has changed in it, with words to go from change to change. */
import * as l10n from "@vscode/l10n";
import { valueInWords } from "../../shared/pixels/colour.ts";
import { FORMATS } from "../../shared/pixels/formats.ts";
import type { ComparedPicture, ComparedSide } from "../../shared/protocol/lsp.ts";
import { scaleOf } from "../scale.ts";
import { el, setText } from "../view/dom.ts";
import { lampsOf } from "../view/lamps.ts";
import type { Theme } from "../view/theme.ts";
import { keepFocus } from "./keepFocus.ts";
import type { Change, Drawn } from "./pictures.ts";
import { drawPicture, LEFT, sideFor, TOP } from "./pictures.ts";

export interface FramePictures {
  readonly element: HTMLElement;
  draw(picture: ComparedPicture, versions: readonly [string, string], theme: Theme, width: number): void;
}

interface Point {
  readonly x: number;
  readonly y: number;
}

export function makeFramePictures(): FramePictures {
  const frames = el("ul", { class: "list frames", "aria-label": l10n.t("Frames that differ") });
  const panes = [0, 1, 2].map(() => ({
    caption: el("figcaption"),
    canvas: el("canvas", { role: "img" }),
  }));
  const figures = panes.map(({ caption, canvas }) => el("figure", {}, caption, canvas));
  const earlier = el("button", { type: "button", class: "word", text: l10n.t("Earlier change") });
  const later = el("button", { type: "button", class: "word", text: l10n.t("Later change") });
  const readout = el("p", { class: "readout", "aria-live": "polite" });
  const steps = el("div", { class: "steps" }, earlier, later);
  const element = el("div", {}, frames, el("div", { class: "panes" }, ...figures), readout, steps);

  let last: { picture: ComparedPicture; versions: readonly [string, string]; theme: Theme; width: number } | undefined;
  let shownName = "";
  let frame = 0;
  /** Which of the changes of the frame is at hand. */
  let chosen = -1;
  let pointed: Point | undefined;
  let side = 1;

  const again = () => last && draw(last.picture, last.versions, last.theme, last.width);
  const go = (by: number) => {
    const count = last ? changesIn(last.picture, frame).length : 0;
    if (count === 0) return;
    chosen = chosen < 0 ? (by > 0 ? 0 : count - 1) : (chosen + by + count) % count;
    pointed = undefined;
    again();
  };
  earlier.addEventListener("click", () => go(-1));
  later.addEventListener("click", () => go(1));
  for (const { canvas } of panes) {
    canvas.addEventListener("pointermove", (event) => {
      const at = { x: Math.floor((event.offsetX - LEFT) / side), y: Math.floor((event.offsetY - TOP) / side) };
      if (at.x === pointed?.x && at.y === pointed.y) return;
      pointed = at;
      again();
    });
    canvas.addEventListener("pointerleave", () => {
      pointed = undefined;
      again();
    });
  }

  const draw: FramePictures["draw"] = (picture, versions, theme, width) => {
    last = { picture, versions, theme, width };
    const { before, after } = picture;
    const numbers = [...new Set([...(after?.frames ?? []), ...(before?.frames ?? [])].map((f) => f.frame))];
    const name = `${picture.name} ${picture.ordinal}`;
    if (name !== shownName) [frame, chosen, shownName] = [numbers[0] ?? 0, -1, name];
    if (!numbers.includes(frame)) [frame, chosen] = [numbers[0] ?? 0, -1];
    drawFrames(picture, numbers);
    const changes = changesIn(picture, frame);
    if (chosen >= changes.length) chosen = changes.length - 1;
    const [old, now] = [drawnOf(before, frame, theme), drawnOf(after, frame, theme)];
    const columns = Math.max(old?.width ?? 1, now?.width ?? 1);
    side = sideFor(columns, Math.max(old?.height ?? 1, now?.height ?? 1), width - 16, window.innerHeight);
    const at = pointed ?? placeOf(changes[chosen], now);
    const shown = [old, now, changes.length > 0 ? now : undefined];
    const captions = [versions[0], versions[1], l10n.t("changed")];
    panes.forEach(({ caption, canvas }, i) => {
      const drawn = shown[i];
      const figure = figures[i] as HTMLElement;
      figure.hidden = drawn === undefined;
      if (!drawn) return;
      setText(caption, captions[i] ?? "");
      canvas.setAttribute("aria-label", label(captions[i] ?? "", picture, frame));
      const inside = at && at.x >= 0 && at.y >= 0 && at.x < drawn.width && at.y < drawn.height ? at : undefined;
      drawPicture(canvas, theme, drawn, side, i === 2 ? { changes, at: inside } : { at: inside });
    });
    steps.hidden = changes.length === 0;
    setText(readout, at ? pixelWords(picture, frame, at, pointed ? undefined : [chosen, changes.length]) : "");
  };

  const drawFrames = ({ changed, after, before }: ComparedPicture, numbers: readonly number[]) => {
    frames.hidden = Math.max(after?.bitmap.frames ?? 1, before?.bitmap.frames ?? 1) < 2;
    keepFocus(frames, () => {
      frames.replaceChildren(
        ...numbers.map((number) => {
          const words = changed.find((c) => c.frame === number)?.words;
          const button = el("button", {
            type: "button",
            class: "word",
            text: l10n.t("frame {0}", number),
            "data-key": String(number),
            "aria-pressed": String(number === frame),
          });
          button.addEventListener("click", () => {
            [frame, chosen] = [number, -1];
            again();
          });
          return el("li", {}, button, el("span", { class: "dim", text: words ? ` ${words}` : "" }));
        }),
      );
    });
  };

  return { element, draw };
}

/** The pixels that changed in a frame, with the rise of their levels. */
function changesIn({ before, after, changed }: ComparedPicture, frame: number): Change[] {
  const now = after?.frames.find((f) => f.frame === frame);
  const old = before?.frames.find((f) => f.frame === frame);
  if (!before || !after || !now || !old) return [];
  const level = ({ bitmap }: ComparedSide, value: number) => scaleOf(bitmap).level(value) / bitmap.full;
  return (changed.find((c) => c.frame === frame)?.changed ?? []).map((pixel) => {
    const [x, y] = [pixel % after.bitmap.width, Math.floor(pixel / after.bitmap.width)];
    const was = old.pixels[y * before.bitmap.width + x] ?? 0;
    return { pixel, step: level(after, now.pixels[pixel] ?? 0) - level(before, was) };
  });
}

function drawnOf(side: ComparedSide | undefined, frame: number, theme: Theme): Drawn | undefined {
  const pixels = side?.frames.find((f) => f.frame === frame)?.pixels;
  if (!side || !pixels) return undefined;
  const { width, height } = side.bitmap;
  return { width, height, pixels, lamps: lampsOf(scaleOf(side.bitmap), theme) };
}

function placeOf(change: Change | undefined, drawn: Drawn | undefined): Point | undefined {
  return change && drawn && { x: change.pixel % drawn.width, y: Math.floor(change.pixel / drawn.width) };
}

function label(version: string, { name, after, before }: ComparedPicture, frame: number): string {
  const frames = Math.max(after?.bitmap.frames ?? 1, before?.bitmap.frames ?? 1);
  return frames > 1 ? l10n.t("{0}, {1}, frame {2}", name, version, frame) : l10n.t("{0}, {1}", name, version);
}

/** `4,2: 12 → 44 (3 of 14)`. */
function pixelWords(
  { before, after }: ComparedPicture,
  frame: number,
  at: Point,
  which: readonly [number, number] | undefined,
): string {
  const [old, now] = [valueAt(before, frame, at), valueAt(after, frame, at)];
  if (old === undefined && now === undefined) return "";
  const values = old === now ? (now ?? "") : `${old ?? l10n.t("none")} → ${now ?? l10n.t("none")}`;
  const count = which ? ` (${l10n.t("{0} of {1}", which[0] + 1, which[1])})` : "";
  return `${at.x},${at.y}: ${values}${count}`;
}

function valueAt(side: ComparedSide | undefined, frame: number, { x, y }: Point): string | undefined {
  const format = FORMATS.get(side?.bitmap.format ?? "");
  const { width = 0, height = 0 } = side?.bitmap ?? {};
  const value = side?.frames.find((f) => f.frame === frame)?.pixels[y * width + x];
  if (!side || !format || value === undefined || x < 0 || y < 0 || x >= width || y >= height) return undefined;
  return valueInWords(format, value, side.bitmap.colours);
}
