/** The page: its parts one under the other, and the drawing of a state on them. */
import * as l10n from "@vscode/l10n";
import type { PageDeed } from "../keys/key.ts";
import { dotsOf } from "../look.ts";
import { type Clipboard, makeSelectionRow } from "../selection/row.ts";
import { selectionWords } from "../selection/selection.ts";
import type { Action, State } from "../state.ts";
import type { Symmetry } from "../tools/mirror.ts";
import { toolOf } from "../tools/tools.ts";
import { makeWiring, type Rewire } from "../wiring/section.ts";
import { el, setText } from "./dom.ts";
import { type MotionWishes, makeEdgePanel } from "./edgePanel.ts";
import { drawFindings, makeFindingList } from "./findingList.ts";
import { makeFoot } from "./foot.ts";
import { makeFrames } from "./frames.ts";
import { type Geometry, zoomFrom } from "./geometry.ts";
import { makeGlyphRow } from "./glyphRow.ts";
import { type Hovered, makeGrid } from "./grid.ts";
import { makeHead } from "./head.ts";
import { lampsOf } from "./lamps.ts";
import { type Model, marksOf, modeller } from "./model.ts";
import { makeOptionRow } from "./optionRow.ts";
import { longestReadout, pixelTold, readoutOf, tellParts, tipOf } from "./readout.ts";
import { measure, scrollBar } from "./room.ts";
import { onThemeChange, readTheme, tellStyle } from "./theme.ts";
import type { Choose } from "./together.ts";
import { makeToolRow } from "./toolRow.ts";
import { makeValues, type Recolour } from "./values.ts";
import { makeViewRow } from "./viewRow.ts";

export interface Page {
  draw(state: State): void;
  /** The pixel cursor was moved by the user or the extension: keep it in view. */
  follow(): void;
  /** To the pixel cursor, where the keyboard is nowhere on the page. */
  settle(): void;
  readonly deeds: Readonly<Record<PageDeed, () => void>>;
}

/** What the page asks of the extension. */
interface Wishes {
  readonly choose: Choose;
  readonly setWidth: (frame: number, width: number) => void;
  readonly recolour: Recolour;
  readonly clipboard: Clipboard;
  readonly motion: MotionWishes;
  readonly rewire: Rewire;
}

export function makePage(
  root: HTMLElement,
  dispatch: (action: Action) => void,
  state: () => State,
  { choose, setWidth, recolour, clipboard, motion, rewire }: Wishes,
): Page {
  const again = () => draw(state());
  let geometry: Geometry | undefined;
  const zoom = (by: 1 | -1 | 0) => {
    if (!geometry) return;
    // Several turns of the wheel may come before the page is drawn: each goes on from the one before.
    const from = state().zoom ?? geometry.side;
    dispatch({ type: "zoom", zoom: by === 0 ? undefined : zoomFrom(from, by) });
  };
  let hovered: Hovered | undefined;
  const hover = (at: Hovered | undefined) => {
    hovered = at;
    if (last) tell(last);
  };
  const go = (to: { readonly x: number; readonly y: number }) => dispatch({ type: "move", to });
  const head = makeHead(choose);
  const whole = makeFindingList(l10n.t("Findings"), go);
  const glyph = makeGlyphRow(dispatch, state, setWidth);
  const tools = makeToolRow(dispatch);
  const views = makeViewRow(dispatch, zoom);
  const selecting = makeSelectionRow(dispatch, state, clipboard);
  const grid = makeGrid(dispatch, state, hover, zoom);
  const values = makeValues(dispatch, state, recolour, () => {
    grid.focus();
    // On a small or enlarged page the field may stand below all of the picture.
    grid.follow();
  });
  const frames = makeFrames(dispatch, state);
  /** Few bitmaps have a motion: its part is made when one comes. */
  let edge: ReturnType<typeof makeEdgePanel> | undefined;
  const wiring = makeWiring(dispatch, state, rewire);
  const foot = makeFoot();
  const options = makeOptionRow(dispatch, state, grid.focus);
  const placed = makeFindingList(l10n.t("Findings in the picture"), go);
  const readout = el("p", { class: "readout" });
  const longest = el("p");
  const told = el("div", { class: "pointed", "aria-hidden": "true" }, longest, readout);
  const why = el("p", { class: "why" });
  const work = el(
    "div",
    { class: "work" },
    grid.element,
    told,
    options.element,
    selecting.element,
    values.element,
    placed.element,
  );
  const rows = el("div", { class: "choices" }, tools.element, views.element);
  const page = el(
    "div",
    { class: "page" },
    head.element,
    whole.element,
    glyph.element,
    rows,
    work,
    wiring.element,
    frames.element,
    foot.keys,
  );
  // Until there is a picture: what is not to be seen needs no layout.
  page.hidden = true;
  const empty = el("p", { class: "empty" });
  // Asking for the theme styles what there is: so first, before there is much.
  let theme = readTheme();
  root.replaceChildren(page, empty, el("footer", {}, why, foot.status));
  tellStyle(root, theme);
  onThemeChange(() => {
    theme = readTheme();
    tellStyle(root, theme);
    again();
  });
  new ResizeObserver(again).observe(root);
  const modelOf = modeller();
  let bar: number | undefined;
  let drawnBefore = false;
  let last: Model | undefined;

  const draw = (now: State) => {
    const { shown } = now;
    // Asked while the page is still hidden the first time, when there is next to nothing to lay out for an answer.
    const { clientWidth } = root;
    if (shown) bar ??= scrollBar(root);
    page.hidden = shown === undefined;
    page.classList.toggle("stale", now.why !== undefined);
    empty.hidden = shown !== undefined || now.why === undefined;
    setText(empty, now.why ?? "");
    why.hidden = now.why === undefined || shown === undefined;
    setText(why, now.why === undefined ? "" : l10n.t("Shown as it last was. {0}", now.why));
    last = shown && modelOf(now, shown);
    const away = now.why === undefined ? [] : [now.why];
    const seen = now.selection !== undefined && now.note === selectionWords(now.selection);
    foot.say(now.note, seen, [...away, ...(last ? [pixelTold(last, now.cursor)] : [])].join(" "));
    if (!shown || !last) return;
    const { bitmap } = shown;
    const { pixels, light, scale, lines, unwritten } = last;
    head.draw(shown, light);
    const readOnly = shown.readOnly || now.why !== undefined;
    glyph.draw(bitmap, now.frame, readOnly);
    tools.draw(now.tool, shown.readOnly, readOnly);
    views.draw(now, bitmap, shown.wiring && now.wiring === true);
    selecting.draw(now);
    geometry = measure(clientWidth, shown, now, bar ?? 0);
    root.style.setProperty("--gutter", `${geometry.left}px`);
    root.style.setProperty("--pane", `${geometry.viewWidth}px`);
    work.classList.toggle("beside", geometry.beside);
    grid.draw({
      geometry,
      theme,
      cells: { pixels, lamps: lampsOf(scale, theme), unwritten, dots: dotsOf(bitmap, now.view) },
      rulers: {
        lines,
        light,
        fullBar: scale.lightOf(scale.limit ?? scale.full),
        marks: last.placed.rows,
        ...now.cursor,
      },
      glyphWidth: bitmap.widths?.[now.frame],
      name: bitmap.name,
      words: pixelTold(last, now.cursor),
      marks: marksOf(last),
      readOnly,
      symmetry: symmetryShown(now),
      selected: now,
    });
    values.draw(last, theme);
    // The first picture comes before what can be chosen for the tools.
    if (drawnBefore) options.draw(now, bitmap);
    else requestAnimationFrame(again);
    drawnBefore = true;
    wiring.draw(now, theme, clientWidth - geometry.left - 16);
    frames.draw(last, theme);
    if (shown.motion && !edge) {
      edge = makeEdgePanel(dispatch, motion);
      frames.element.after(edge.element);
    }
    edge?.draw(last, theme);
    drawFindings(whole, placed, last.placed, lines);
    tellParts(longest, longestReadout(last));
    tell(last);
  };

  /** What the pointer is over, else the pixel cursor. */
  const tell = (model: Model) => {
    tellParts(readout, readoutOf(model, hovered));
    grid.tip(tipOf(model, hovered));
  };

  const settle = () => {
    // A page that takes the focus from the text would be typed into unasked.
    if (document.hasFocus() && document.activeElement === document.body) grid.focus();
  };
  window.addEventListener("focus", settle);

  return {
    draw,
    follow: grid.follow,
    settle,
    deeds: {
      jump: glyph.jump,
      type: values.type,
      closer: () => zoom(1),
      farther: () => zoom(-1),
      fit: () => zoom(0),
    },
  };
}

/** The axes are shown where the tool that is chosen draws by them. */
function symmetryShown({ tool, options }: State): Symmetry {
  return toolOf(tool).uses.includes("symmetry") ? options.symmetry : "off";
}
