/** The motion that a bitmap's frames are of: its edge over the mask, its frames along time, and what the cap holds. */
import * as l10n from "@vscode/l10n";
import type { MotionInfo } from "../../shared/protocol/lsp.ts";
import { type Draft, draftOf, movingOf, type Part, positionAt, withPart, wordsFor } from "../edge/draft.ts";
import { sumsAt } from "../edge/sums.ts";
import type { Action } from "../state.ts";
import { el, setText } from "./dom.ts";
import { type Grip, makeEdgeFigure } from "./edgeFigure.ts";
import { makeEdgePictures } from "./edgePictures.ts";
import { makeEdgeWords } from "./edgeWords.ts";
import { word } from "./keyed.ts";
import { lampsOf } from "./lamps.ts";
import type { Model } from "./model.ts";
import type { Theme } from "./theme.ts";
import { makeTimeFigure } from "./timeFigure.ts";

export interface EdgePanel {
  readonly element: HTMLElement;
  draw(model: Model, theme: Theme): void;
}

/** What is asked of the extension. */
export interface MotionWishes {
  /** `refused` is called where nothing is written. */
  readonly write: (words: Readonly<Record<string, string>>, refused: () => void) => void;
  readonly bake: () => void;
}

export function makeEdgePanel(dispatch: (action: Action) => void, { write, bake }: MotionWishes): EdgePanel {
  let last: { readonly model: Model; readonly theme: Theme; readonly info: MotionInfo } | undefined;
  let draft: Draft | undefined;
  /** Where the edge was put by hand; else it stands where the frame at hand has it. */
  let placed: number | undefined;
  /** The frame in the run, where the array does not hold it. */
  let frame: number | undefined;
  let shownFrame = -1;
  let painted: readonly unknown[] = [];
  const redraw = () => {
    painted = [];
    if (last) paint(last.model, last.theme, last.info);
  };
  const change = (next: Draft) => {
    draft = next;
    redraw();
  };
  const commit = () => {
    if (!last || !draft) return;
    const { info } = last;
    const words = wordsFor(info, draft);
    // What was dragged goes back to what the text says.
    if (Object.keys(words).length > 0) write(words, () => last?.info === info && change(draftOf(info)));
  };
  const fixed = () => last === undefined || last.model.shown.readOnly || last.model.now.why !== undefined;
  const figure = makeEdgeFigure(
    (grip: Grip, value) => {
      if (!draft || !last) return;
      if (grip === "position") {
        const [low, high] = [Math.min(draft.from, draft.to), Math.max(draft.from, draft.to)];
        placed = Math.min(high, Math.max(low, Math.round(value)));
        redraw();
      } else if (!fixed()) change(withPart(draft, grip, value, last.info.cap));
    },
    (grip) => {
      if (grip !== "position") commit();
    },
  );
  const time = makeTimeFigure((to) => {
    placed = undefined;
    frame = to;
    if (last && to < last.model.shown.bitmap.frames) {
      dispatch({ type: "playing", playing: false });
      dispatch({ type: "frame", frame: to });
    }
    redraw();
  });
  const pictures = makeEdgePictures();
  const words = makeEdgeWords({
    set: (part: Part, value) => {
      if (!draft || !last) return;
      change(withPart(draft, part, value, last.info.cap));
      commit();
    },
    choose: (choice) => {
      if (!draft) return;
      change({ ...draft, ...choice });
      commit();
    },
    refuse: (part, typed) => {
      dispatch({ type: "say", note: l10n.t("“{0}” is no whole number for {1}", typed, part) });
      redraw();
    },
  });
  const title = el("p", { class: "edgeTitle" });
  const told = el("p", { class: "dim small" });
  const again = word("", undefined, bake);
  const element = el(
    "section",
    { class: "motion", "aria-label": l10n.t("Motion") },
    title,
    figure.element,
    told,
    pictures.element,
    time.element,
    words.element,
    el("div", { class: "frameRow" }, again),
  );

  const paint = ({ now, shown, scale }: Model, theme: Theme, info: MotionInfo) => {
    if (!draft) return;
    // The page is drawn at every stroke, which changes nothing here.
    const seen = [info, draft, placed, frame, now.frame, scale, theme, fixed(), now.motion.fps, window.innerWidth];
    if (seen.every((one, i) => one === painted[i])) return;
    painted = seen;
    const { bitmap } = shown;
    const moving = movingOf(info, bitmap.width, bitmap.height, draft);
    const at = frame ?? now.frame;
    const position = placed ?? positionAt(moving, at);
    const width = element.clientWidth;
    const { image = "", mask = "radial" } = info.words;
    setText(title, `@motion ${image} · ${mask}`);
    figure.draw({ moving, position, from: draft.from, to: draft.to, width, fixed: fixed() });
    const sums = sumsAt(moving, position);
    const moves = sums.held.length - sums.dark - sums.shown;
    setText(told, l10n.t("{0} dark, {1} in the edge, {2} shown", sums.dark, moves, sums.shown));
    pictures.draw({ sums, columns: bitmap.width, lamps: lampsOf(scale, theme), cap: info.cap, width });
    time.draw({ timeline: moving.timeline, frame: at, width, fps: now.motion.fps ?? bitmap.fps });
    words.draw(draft, fixed());
    again.hidden = fixed() || !info.stale;
    setText(again, l10n.t("Bake {0} frames", info.bakes));
  };

  return {
    element,
    draw: (model, theme) => {
      const info = model.shown.motion;
      element.hidden = info === undefined;
      if (!info) {
        last = draft = undefined;
        painted = [];
        return;
      }
      // What the text says now is what goes on being changed.
      if (last?.info !== info) {
        draft = draftOf(info);
        if (last?.model.shown.bitmap.name !== model.shown.bitmap.name) placed = frame = undefined;
      }
      if (model.now.frame !== shownFrame) {
        shownFrame = model.now.frame;
        // Who goes to another frame sees where its edge stands.
        placed = frame = undefined;
      }
      last = { model, theme, info };
      paint(model, theme, info);
    },
  };
}
