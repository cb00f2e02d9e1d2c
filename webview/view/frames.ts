/** The frames: playing, the strip, and the words for what is done with them. Nothing ever plays by itself. */
import * as l10n from "@vscode/l10n";
import { movedTo } from "../frameEditing.ts";
import { deedActions } from "../keys/frames.ts";
import { turnOf } from "../look.ts";
import { besides, differing, speedOf } from "../motion.ts";
import type { Action, State } from "../state.ts";
import { findingCount, frameWords, pixelCount } from "../words.ts";
import { el, setText } from "./dom.ts";
import { makeFindingList } from "./findingList.ts";
import { makeEditRow, makeMotionRow, makeQuestion, makeSightRow } from "./frameRows.ts";
import { lampsOf } from "./lamps.ts";
import type { Model } from "./model.ts";
import { makeStrip } from "./strip.ts";
import type { Theme } from "./theme.ts";

export interface FramesView {
  readonly element: HTMLElement;
  draw(model: Model, theme: Theme): void;
}

export function makeFrames(dispatch: (action: Action) => void, state: () => State): FramesView {
  const act = (actions: readonly Action[]) => {
    for (const action of actions) dispatch(action);
  };
  const edit = makeEditRow(act, state);
  const element = el("section", { class: "frames", "aria-label": l10n.t("Frames") }, edit.element);
  // Most bitmaps are one picture: what only several frames need is made when they are there.
  let several: ReturnType<typeof makeSeveral> | undefined;
  return {
    element,
    draw: (model, theme) => {
      const { now, shown } = model;
      const many = shown.bitmap.frames > 1;
      if (many && !several) {
        several = makeSeveral(act, state);
        element.prepend(several.above);
        element.append(several.below);
      }
      if (several) several.above.hidden = several.below.hidden = !many;
      if (many) several?.draw(model, theme);
      edit.draw(now);
    },
  };
}

function makeSeveral(act: (actions: readonly Action[]) => void, state: () => State) {
  const play = el("vscode-button", { appearance: "secondary", class: "play", "aria-keyshortcuts": "k" });
  play.title = l10n.t("key K");
  const where = el("span", { class: "dim" });
  const caution = el("p", {
    class: "dim small",
    text: l10n.t("Fast changes of light can harm photosensitive viewers (WCAG 2.2, 2.3.1)."),
  });
  const findings = makeFindingList(l10n.t("Findings about frames"), () => undefined);
  const motion = makeMotionRow(act, state);
  const sight = makeSightRow(act, state);
  const strip = makeStrip({
    go: (frame) =>
      act([
        { type: "playing", playing: false },
        { type: "frame", frame },
      ]),
    key: (event) => {
      const { key, ctrlKey, metaKey } = event;
      const moves = ctrlKey || metaKey ? ({ ArrowLeft: "earlier", ArrowRight: "later" } as const)[key] : undefined;
      const deed = moves ?? (key === "Delete" ? "delete" : undefined);
      if (deed) act(deedActions(deed, state()));
      return deed !== undefined;
    },
    move: (from, to) => {
      const moved = movedTo(state(), from, to);
      if (moved) act([moved]);
    },
  });
  let question: ReturnType<typeof makeQuestion> | undefined;
  play.addEventListener("click", () => act(deedActions("play", state())));
  const above = el("div", {}, el("div", { class: "playRow" }, play, where), motion.element, strip.element);
  const below = el("div", {}, sight.element, findings.element, caution);
  return {
    above,
    below,
    draw: ({ now, shown, pictures, scale, placed }: Model, theme: Theme) => {
      const { bitmap } = shown;
      const { frame } = now;
      if (now.motion.asking !== undefined && !question) {
        question = makeQuestion(act, state, () => play.focus());
        question.element.hidden = true;
        motion.element.after(question.element);
      }
      question?.draw(now);
      setText(play, now.playing ? l10n.t("Pause") : l10n.t("Play"));
      const fps = now.motion.fps ?? bitmap.fps;
      const { characters } = bitmap;
      const words = frameWords(frame, { ...bitmap, fps });
      setText(
        where,
        fps || characters ? words : l10n.t("{0} (no fps given: plays {1} a second)", words, speedOf(now.motion, shown)),
      );
      // A glyph set is seldom played, and its neighbours are other characters.
      motion.element.hidden = characters !== undefined && !now.playing;
      motion.draw(now);
      sight.draw(now, now.motion.changes && !now.playing ? differenceWords(now, pictures) : "");
      const found = placed.frames.get(frame)?.length ?? 0;
      const told = found > 0 ? `${words}, ${findingCount(found)}` : words;
      const lines = placed.ofFrames.map((one) => ({ finding: one.finding, where: l10n.t("frame {0}", one.frame) }));
      findings.draw(lines, placed);
      strip.draw({
        bitmap,
        pictures,
        lamps: lampsOf(scale, theme),
        frame,
        placed,
        theme,
        turn: turnOf(bitmap, now.view),
        fps,
        words: told,
        busy: now.stroke !== undefined,
      });
    },
  };
}

/** How much of the frame at hand differs from the one before it. */
function differenceWords({ motion, frame }: State, pictures: readonly Uint32Array[]): string {
  const { before } = besides(motion, pictures.length, frame);
  const [one, other] = [pictures[frame], before === undefined ? undefined : pictures[before]];
  if (!one || !other || before === undefined) return l10n.t("no frame before");
  const count = differing(one, other);
  return count === 0
    ? l10n.t("none since frame {0}", before)
    : l10n.t("{0} since frame {1}", pixelCount(count), before);
}
