/** Words about frames, in rows: how they are played, what is done with them, and what is seen of their neighbours. */
import * as l10n from "@vscode/l10n";
import { deedActions, type FrameDeed } from "../keys/frames.ts";
import type { Mode } from "../motion.ts";
import { MOST_FPS, parseSpeed, speedOf } from "../motion.ts";
import { allowed, tried } from "../playing.ts";
import type { Action, State } from "../state.ts";
import { el, setText } from "./dom.ts";
import { word } from "./keyed.ts";

interface Row {
  readonly element: HTMLElement;
  draw(state: State): void;
}

type Do = (actions: readonly Action[]) => void;

/** What comes after the last frame, and the speed: that of the source, or one that is tried out. */
export function makeMotionRow(act: Do, state: () => State): Row {
  const modes: readonly (readonly [Mode, string])[] = [
    ["loop", l10n.t("Loop")],
    ["back", l10n.t("There and back")],
    ["once", l10n.t("Once")],
  ];
  const buttons = modes.map(
    ([mode, text]) => [mode, word(text, undefined, () => act(tried(state(), { mode })))] as const,
  );
  const speed = el("input", { "aria-label": l10n.t("Frames a second"), class: "speed", inputmode: "decimal" });
  const unit = el("span", { class: "dim", text: l10n.t("a second") });
  const write = word(l10n.t("Write"), undefined, () => {
    const { shown, frame, motion } = state();
    const fps = speedOf(motion, shown);
    const note = l10n.t("fps={0} is written", fps);
    act([{ type: "restructure", change: { kind: "speed", fps }, frame, note }]);
  });
  write.title = l10n.t("write this speed into the annotation");
  const reset = word(l10n.t("As written"), undefined, () => act(tried(state(), { fps: undefined })));
  const take = () => {
    const fps = parseSpeed(speed.value);
    const { motion, shown } = state();
    if (fps === undefined) {
      act([{ type: "say", note: l10n.t("“{0}” is no speed: write 12 or 7.5, up to {1}", speed.value, MOST_FPS) }]);
      speed.value = String(speedOf(motion, shown));
    } else if (fps !== speedOf(motion, shown)) act(tried(state(), { fps }));
  };
  speed.addEventListener("change", take);
  speed.addEventListener("keydown", (event) => {
    if (event.key === "Enter") take();
  });
  const element = el(
    "div",
    { class: "frameRow" },
    el("div", { role: "group", "aria-label": l10n.t("After the last frame") }, ...buttons.map(([, b]) => b)),
    el("div", {}, speed, unit, write, reset),
  );
  return {
    element,
    draw: ({ motion, shown }) => {
      for (const [mode, button] of buttons) button.setAttribute("aria-pressed", String(mode === motion.mode));
      const fps = String(speedOf(motion, shown));
      if (document.activeElement !== speed || speed.dataset.fps !== fps) speed.value = fps;
      speed.dataset.fps = fps;
      const { fps: written } = shown?.bitmap ?? {};
      const other = speedOf(motion, shown) !== written;
      if (!other && (document.activeElement === write || document.activeElement === reset)) speed.focus();
      write.hidden = !other || shown?.readOnly === true;
      reset.hidden = !other || motion.fps === undefined || written === undefined;
    },
  };
}

/** What can be done with the frame at hand. */
export function makeEditRow(act: Do, state: () => State): Row {
  const deed = (text: string, what: FrameDeed, key: string, title: string) => {
    const button = word(text, key, () => act(deedActions(what, state())));
    button.title = title;
    return button;
  };
  const fresh = deed(l10n.t("New"), "new", "n", l10n.t("a dark frame behind this one"));
  const copy = deed(l10n.t("Duplicate"), "copy", "Shift+N", l10n.t("a copy behind this one: keys Shift+N"));
  const gone = deed(l10n.t("Delete"), "delete", "Shift+Delete", l10n.t("keys Shift+Delete"));
  const earlier = deed(l10n.t("Earlier"), "earlier", "<", l10n.t("before the frame before: key <"));
  const later = deed(l10n.t("Later"), "later", ">", l10n.t("behind the next frame: key >"));
  const label = el("span", { class: "dim", text: l10n.t("Frame") });
  const all = [fresh, copy, gone, earlier, later];
  const element = el("div", { class: "frameRow", role: "group", "aria-label": l10n.t("Frame") }, label, ...all);
  return {
    element,
    draw: ({ shown, frame, pending, why }) => {
      const { frames = 1 } = shown?.bitmap ?? {};
      const fixed = shown?.readOnly === true || why !== undefined;
      element.hidden = shown?.readOnly === true;
      // Under the strip it is plain what is meant.
      label.hidden = frames > 1;
      for (const button of all) button.disabled = fixed;
      // A word that can't be pressed for now keeps the focus; one that goes hands it on.
      earlier.setAttribute("aria-disabled", String(frame === 0));
      later.setAttribute("aria-disabled", String(frame === frames - 1));
      const going = [gone, earlier, later];
      if (frames < 2 && going.some((button) => button === document.activeElement)) fresh.focus();
      for (const button of going) button.hidden = frames < 2;
      element.setAttribute("aria-busy", String(pending !== undefined));
    },
  };
}

interface SightRow {
  readonly element: HTMLElement;
  /** `counted` says how much differs. */
  draw(state: State, counted: string): void;
}

/** The neighbours of the frame at hand: as ghosts, and how much of it differs. */
export function makeSightRow(act: Do, state: () => State): SightRow {
  const flip = (what: "before" | "after" | "changes") => () =>
    act([{ type: "motion", motion: { [what]: !state().motion[what] } }]);
  const before = word(l10n.t("Before"), undefined, flip("before"));
  const after = word(l10n.t("After"), undefined, flip("after"));
  const ghost = word(l10n.t("Ghost"), "h", () => act(deedActions("ghost", state())));
  ghost.title = l10n.t("the neighbours of this frame, faintly: key H");
  const changes = word(l10n.t("Changes"), "c", flip("changes"));
  before.title = l10n.t("rings where the frame before is lit");
  after.title = l10n.t("dots where the frame after is lit");
  changes.title = l10n.t("crosses where this frame differs from the one before");
  const count = el("span", { class: "dim" });
  const element = el(
    "div",
    { class: "frameRow" },
    el("div", { role: "group", "aria-label": l10n.t("Ghost") }, ghost, before, after),
    el("div", {}, changes, count),
  );
  return {
    element,
    draw: ({ motion }, counted) => {
      for (const [button, on] of [
        [ghost, motion.before || motion.after],
        [before, motion.before],
        [after, motion.after],
        [changes, motion.changes],
      ] as const)
        button.setAttribute("aria-pressed", String(on));
      count.hidden = !motion.changes;
      setText(count, counted);
    },
  };
}

/** The question before light flashes; `back` takes the focus once it is answered. */
export function makeQuestion(act: Do, state: () => State, back: () => void): Row {
  const words = el("p", { id: "flashes" });
  const standard = el("p", {
    class: "dim small",
    text: l10n.t(
      "More than three flashes a second can harm photosensitive viewers (WCAG 2.2, 2.3.1). This compares the frames with those thresholds; it is not a medical assurance: brightness, distance and surroundings matter.",
    ),
  });
  const play = word(l10n.t("Play anyway"), undefined, () => act(allowed(state())));
  const still = word(l10n.t("Keep still"), undefined, () => act([{ type: "motion", motion: { asking: undefined } }]));
  const element = el(
    "div",
    { class: "question", role: "alertdialog", "aria-label": l10n.t("Flashing light"), "aria-describedby": "flashes" },
    words,
    standard,
    el("div", { class: "frameRow" }, still, play),
  );
  element.addEventListener("keydown", (event) => {
    if (event.key !== "Escape") return;
    event.stopPropagation();
    event.preventDefault();
    act([{ type: "motion", motion: { asking: undefined } }]);
  });
  return {
    element,
    draw: ({ motion }) => {
      const was = element.hidden;
      setText(words, motion.asking ?? "");
      // Who has answered goes on where it was asked from.
      if (!was && motion.asking === undefined && element.contains(document.activeElement)) back();
      element.hidden = motion.asking === undefined;
      if (was && !element.hidden) still.focus();
    },
  };
}
