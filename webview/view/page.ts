/** The page: its parts one under the other, and the drawing of a state on them. */
import type { BitmapIdentity } from "../../shared/bitmap/edit.ts";
import type { Shown } from "../../shared/protocol/webview.ts";
import { type FrameLight, lightOf } from "../light.ts";
import { limitOf, pictureOf } from "../picture.ts";
import type { Action, State } from "../state.ts";
import type { Point } from "../tools/shapes.ts";
import { percent, pixelWords } from "../words.ts";
import { el, setText } from "./dom.ts";
import { makeFoot } from "./foot.ts";
import { makeFrames } from "./frames.ts";
import { type Geometry, geometryOf } from "./geometry.ts";
import { makeGrid } from "./grid.ts";
import { makeHead } from "./head.ts";
import { makeLadder } from "./ladder.ts";
import { onThemeChange, readTheme } from "./theme.ts";
import { makeToolRow } from "./toolRow.ts";

/** Room that the ladder takes beside the grid. */
const LADDER = 124;

export interface Page {
  draw(state: State): void;
  /** The pixel cursor was moved by the user or the extension: keep it in view. */
  follow(): void;
}

export function makePage(
  root: HTMLElement,
  dispatch: (action: Action) => void,
  state: () => State,
  choose: (identity: BitmapIdentity) => void,
): Page {
  const again = () => draw(state());
  let hovered: Point | undefined;
  const hover = (at: Point | undefined) => {
    hovered = at;
    readout(state());
  };
  const head = makeHead(choose);
  const tools = makeToolRow(dispatch);
  const grid = makeGrid(dispatch, state, hover);
  const ladder = makeLadder(dispatch);
  const frames = makeFrames(dispatch, state);
  const foot = makeFoot();
  const pixel = el("p", { class: "readout", "aria-hidden": "true" });
  const work = el("div", { class: "work" }, grid.element, ladder.element);
  const page = el(
    "div",
    { class: "page" },
    head.element,
    tools.element,
    work,
    pixel,
    foot.findings,
    frames.element,
    foot.keys,
  );
  const empty = el("p", { class: "empty" });
  root.replaceChildren(page, empty, foot.status);
  let theme = readTheme();
  onThemeChange(() => {
    theme = readTheme();
    again();
  });
  new ResizeObserver(again).observe(root);

  const pictures = picturesOf();
  const unwritten = unwrittenOf();
  let light: FrameLight | undefined;
  let lit: Uint32Array | undefined;

  const draw = (now: State) => {
    const { shown } = now;
    page.hidden = shown === undefined;
    empty.hidden = shown !== undefined || now.why === undefined;
    setText(empty, now.why ?? "");
    foot.say(now.note, shown ? wordsAt(now, shown, now.cursor) : (now.why ?? ""));
    if (!shown) return;
    const { bitmap } = shown;
    const all = pictures(now, shown);
    const pixels = all[now.frame] ?? new Uint32Array(0);
    if (!light || lit !== pixels) light = lightOf(pixels, bitmap.width, bitmap.height, bitmap.most);
    lit = pixels;
    const limit = limitOf(bitmap);
    const lines = shown.rowLines[now.frame] ?? [];
    head.draw(shown, light);
    tools.draw(now.tool, shown.readOnly);
    const geometry = measure(root, shown);
    root.style.setProperty("--gutter", `${geometry.left}px`);
    work.classList.toggle("beside", geometry.beside);
    grid.draw({
      geometry,
      theme,
      cells: {
        pixels,
        most: bitmap.most,
        limit,
        unwritten: unwritten(shown, now.frame),
        tint: bitmap.tint,
        round: bitmap.dot === "round",
      },
      rulers: { lines, light, fullBar: (limit ?? bitmap.most) / bitmap.most, ...now.cursor },
      name: bitmap.name,
      words: wordsAt(now, shown, now.cursor),
      readOnly: shown.readOnly,
    });
    ladder.draw(bitmap, light, now.level, theme);
    frames.draw({ bitmap, pictures: all, limit, frame: now.frame, playing: now.playing, theme });
    foot.draw(shown);
    readout(now);
  };

  const wordsAt = (now: State, shown: Shown, { x, y }: Point): string => {
    const { width, most, frames: count } = shown.bitmap;
    const value = pictures(now, shown)[now.frame]?.[y * width + x] ?? 0;
    const limit = limitOf(shown.bitmap);
    return pixelWords({
      x,
      y,
      value,
      most,
      line: shown.rowLines[now.frame]?.[y] ?? 0,
      over: limit !== undefined && value > limit,
      unwritten: unwritten(shown, now.frame).has(y * width + x),
      ...(count > 1 ? { frame: now.frame } : {}),
    });
  };

  /** The pixel under the pointer, else under the pixel cursor, with the light of its row and column. */
  const readout = (now: State) => {
    const { shown } = now;
    if (!shown || !light) return;
    const { width, height } = shown.bitmap;
    const inside = hovered && hovered.x >= 0 && hovered.y >= 0 && hovered.x < width && hovered.y < height;
    const at = inside && hovered ? hovered : now.cursor;
    const share = `row light ${percent(light.rows[at.y] ?? 0)}, column light ${percent(light.columns[at.x] ?? 0)}`;
    setText(pixel, `${wordsAt(now, shown, at)}; ${share}`);
  };

  return { draw, follow: grid.follow };
}

function measure(root: HTMLElement, { bitmap, rowLines }: Shown): Geometry {
  const last = Math.max(bitmap.declaration.start.line + 1, ...rowLines.map((lines) => Math.max(0, ...lines)));
  return geometryOf(bitmap.width, bitmap.height, {
    width: root.clientWidth - 8,
    height: Math.max(320, window.innerHeight * 0.7),
    left: Math.max(3, String(last).length) * 7 + 14,
    ladder: LADDER,
  });
}

/** The pictures of all frames; each stays the same object until it changes. */
function picturesOf(): (state: State, shown: Shown) => readonly Uint32Array[] {
  let of: Pick<State, "shown" | "queue" | "stroke"> = { queue: [] };
  let known: Uint32Array[] = [];
  return (state, shown) => {
    if (of.shown !== shown || of.queue !== state.queue) {
      known = shown.frames.map((_, frame) => pictureOf(state, frame));
    } else if (of.stroke !== state.stroke) {
      const touched = new Set([of.stroke?.frame, state.stroke?.frame]);
      known = known.map((pixels, frame) => (touched.has(frame) ? pictureOf(state, frame) : pixels));
    }
    of = state;
    return known;
  };
}

function unwrittenOf(): (shown: Shown, frame: number) => ReadonlySet<number> {
  let of: Shown | undefined;
  let sets: ReadonlySet<number>[] = [];
  return (shown, frame) => {
    if (of !== shown) sets = shown.unwritten.map((indexes) => new Set(indexes));
    of = shown;
    return sets[frame] ?? new Set();
  };
}
