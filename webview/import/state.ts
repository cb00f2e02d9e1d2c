/** What the page of an import knows: what has been chosen, and what the extension says it would make; pure. */
import type { Channel } from "../../shared/image/choices.ts";
import { FORMATS } from "../../shared/pixels/formats.ts";
import type {
  ImportBegin,
  ImportHome,
  ImportPreview,
  PagePlace,
  PictureChoices,
} from "../../shared/protocol/importing.ts";
import { formatIn, sizeIn } from "./words.ts";

export interface State {
  readonly begin: ImportBegin;
  readonly place: PagePlace;
  readonly choices: PictureChoices;
  /** Something has been chosen: then what was chosen for another panel is left aside. */
  readonly touched: boolean;
  /** The question that is open. */
  readonly open: string;
  /** Of which picture source and result are shown. */
  readonly frame: number;
  /** The last preview, also while another one is made. */
  readonly preview?: ImportPreview;
  /** Why there is none. */
  readonly refused?: string;
  readonly waiting: boolean;
}

export type Change =
  | { readonly type: "place"; readonly place: PagePlace }
  | {
      readonly type: "choose";
      readonly choices: { readonly [K in keyof PictureChoices]?: PictureChoices[K] | undefined };
    }
  | { readonly type: "open"; readonly question: string }
  | { readonly type: "frame"; readonly frame: number }
  | { readonly type: "preview"; readonly preview: ImportPreview }
  | { readonly type: "refused"; readonly why: string }
  | { readonly type: "waiting" }
  | { readonly type: "changed"; readonly line: number; readonly homes: readonly ImportHome[] };

/** What the page keeps while it is hidden. */
export type Kept = Pick<State, "place" | "choices" | "touched" | "open" | "frame">;

export function keptOf({ place, choices, touched, open, frame }: State): Kept {
  return { place, choices, touched, open, frame };
}

export function started(begin: ImportBegin, kept?: Kept): State {
  if (kept) return { begin, ...kept, waiting: true };
  const { place } = begin;
  const state = { begin, place, choices: {}, touched: false, open: "place", frame: 0, waiting: true };
  return { ...state, choices: begin.remembered[keyOf(state)] ?? {} };
}

export function changed(state: State, change: Change): State {
  switch (change.type) {
    case "place": {
      const next = { ...state, place: change.place, frame: 0 };
      // For another panel, what was chosen for that one last time.
      const other = !state.touched && keyOf(next) !== keyOf(state);
      return other ? { ...next, choices: state.begin.remembered[keyOf(next)] ?? {} } : next;
    }
    case "choose": {
      const merged = Object.entries({ ...state.choices, ...change.choices }).filter(([, value]) => value !== undefined);
      return { ...state, choices: Object.fromEntries(merged) as PictureChoices, touched: true };
    }
    case "open":
      return { ...state, open: change.question };
    case "frame":
      return { ...state, frame: change.frame };
    case "preview": {
      const { refused: _, ...rest } = state;
      return { ...rest, preview: change.preview, waiting: false };
    }
    case "refused":
      return { ...state, refused: change.why, waiting: false };
    case "waiting":
      return { ...state, waiting: true };
    case "changed": {
      const { line, homes } = change;
      return { ...state, begin: { ...state.begin, line, homes } };
    }
  }
}

/** What the choices are remembered by: the panel, else the words of the annotation. */
export function keyOf({ place, begin }: Pick<State, "place" | "begin">): string {
  if (place.kind === "new") {
    const panels = begin.start.panels.map(({ name }) => name);
    return panels.find((name) => place.words.split(/\s+/).includes(name)) ?? place.words.trim();
  }
  const home = homeOf({ place, begin });
  return home ? (home.panel ?? `${home.width}x${home.height} ${home.format}`) : "";
}

/** The bitmap that the pictures go into. */
export function homeOf({ place, begin }: Pick<State, "place" | "begin">): ImportHome | undefined {
  if (place.kind === "new") return undefined;
  const { name, ordinal } = place.identity;
  return begin.homes.find(({ identity }) => identity.name === name && identity.ordinal === ordinal);
}

/** The format of the bitmap to be, as far as it is known. */
export function formatOf({ place, begin, preview }: State): string {
  const home = homeOf({ place, begin });
  if (home) return home.format;
  if (place.kind === "new") {
    const [format = ""] = formatIn(place.words).split(" ");
    if (FORMATS.has(format)) return format;
    const panel = sizeIn(
      place.words,
      begin.start.panels.map(({ name }) => name),
    );
    const of = begin.start.panels.find(({ name }) => name === panel)?.format;
    if (of !== undefined) return of;
  }
  return preview?.bitmap.format ?? "gray8";
}

/** Whether the bitmap holds colours, levels, or only lit and dark. */
export function kindOf(state: State): "mono" | "gray" | "rgb" | "palette" {
  return FORMATS.get(formatOf(state))?.kind ?? "gray";
}

/** The channel that is taken. */
export function channelOf(state: State): Channel {
  const kind = kindOf(state);
  return state.choices.channel ?? (kind === "rgb" || kind === "palette" ? "colours" : "luminance");
}

/** The choices without those that say nothing for this format, as a panel's last ones may. */
export function choicesFor(state: State): PictureChoices {
  const kind = kindOf(state);
  const { channel, threshold, dither, linear, colours, paletteFormat, overCap, ...rest } = state.choices;
  const levels = kind === "mono" || kind === "gray";
  const ordered = dither?.startsWith("ordered") === true;
  const lit = threshold !== undefined && !ordered && (kind === "mono" || (kind === "gray" && dither === undefined));
  const own = kind === "palette" && state.place.kind === "new";
  return {
    ...rest,
    ...(channel && !(levels && channel === "colours") ? { channel } : {}),
    ...(lit ? { threshold } : {}),
    ...(dither && !(kind === "palette" && ordered) ? { dither } : {}),
    ...(linear && kind === "gray" ? { linear } : {}),
    ...(overCap && kind !== "mono" ? { overCap } : {}),
    ...(own && colours !== undefined ? { colours } : {}),
    ...(own && paletteFormat !== undefined ? { paletteFormat } : {}),
  };
}
