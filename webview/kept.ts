/** What of the state is kept while the page is hidden, and how it comes back; pure. */
import type { BitmapIdentity } from "../shared/bitmap/edit.ts";
import type { Shown } from "../shared/protocol/webview.ts";
import { sameArray } from "./frameEditing.ts";
import type { Shows, View } from "./look.ts";
import { type KeptMotion, motionFrom, motionKept } from "./motion.ts";
import { sameBitmap } from "./picture.ts";
import { type Action, START, type State } from "./state.ts";
import { optionsFrom } from "./tools/options.ts";
import type { ToolName } from "./tools/tools.ts";

export interface Kept {
  readonly tool: ToolName;
  readonly level: number;
  readonly frame: number;
  readonly identity: BitmapIdentity;
  /** That of the bitmap, which says what the level means. */
  readonly format?: string;
  readonly view: View;
  /** An older page kept none. */
  readonly shows?: Shows;
  readonly zoom?: number;
  /** The options of the tools; an older page kept none. */
  readonly options?: unknown;
  /** How its frames are played and seen; an older page kept nothing of it. */
  readonly motion?: KeptMotion;
}

const KEPT = ["tool", "level", "view", "shows", "zoom", "options", "motion"] as const;

/** What is to be kept, where it has changed; undefined where all is as it was. While frames run, each is only passing. */
export function keptOf(state: State, before: State): Kept | undefined {
  const { shown, playing, tool, level, frame, view, shows, zoom, options } = state;
  const still = !playing && (before.playing || frame !== before.frame);
  if (!shown || (!still && KEPT.every((key) => state[key] === before[key]))) return undefined;
  const { identity, format } = shown.bitmap;
  const motion = motionKept(state.motion);
  return {
    tool,
    level,
    frame,
    view,
    shows,
    options,
    identity,
    format,
    motion,
    ...(zoom === undefined ? {} : { zoom }),
  };
}

/** Before anything is shown. */
export function restored({ tool, level, view, shows = "seen", zoom, options }: Kept): Action[] {
  return [
    { type: "tool", tool },
    { type: "level", level },
    { type: "view", view },
    { type: "shows", shows: shows === "driven" ? shows : "seen" },
    { type: "zoom", zoom },
    { type: "options", options: optionsFrom(options) },
  ];
}

/** What is shown; the first time with what was kept of it. */
export function showing(shown: Shown, kept: Kept | undefined, state: State): Action[] {
  const show: Action = { type: "show", shown };
  if (state.shown !== undefined || !kept) return [show];
  // A raw value of another format means something else.
  const other = kept.format !== undefined && kept.format !== shown.bitmap.format;
  const same = sameBitmap(kept.identity, shown.bitmap.identity);
  // As it is looked at goes with the array, also where it has other frames by now.
  const motion = sameArray(kept.identity, shown.bitmap.identity) ? motionFrom(kept.motion) : {};
  return [
    ...(other ? [{ type: "level", level: START.level } as const] : []),
    show,
    ...(same ? [{ type: "frame", frame: kept.frame } as const] : []),
    ...(Object.keys(motion).length > 0 ? [{ type: "motion", motion } as const] : []),
  ];
}
