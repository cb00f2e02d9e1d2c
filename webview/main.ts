/** Starts the page: the state, who hears of its changes, and the line to the extension. */
import "./translate.ts";
import * as l10n from "@vscode/l10n";
import { earlyText } from "./drawing.ts";
import { glyphFetcher } from "./glyphFetcher.ts";
import { connect } from "./host.ts";
import { sameBitmap } from "./picture.ts";
import { player } from "./player.ts";
import { recolourer } from "./recolour.ts";
import { restructurer } from "./restructure.ts";
import { makeClipboard } from "./selection/clipboard.ts";
import { selectedByUser } from "./selection/told.ts";
import { type Action, reduce, START, type State } from "./state.ts";
import { reasonOf, revealer, strokeSender } from "./strokes.ts";
import { optionsFrom } from "./tools/options.ts";
import { frameKeyActions } from "./view/frameKeys.ts";
import { jumpKey, keyAction, pageKeyAction, zoomKey } from "./view/keys.ts";
import { makePage } from "./view/page.ts";

/** What of the state is kept while the page is hidden. */
const KEPT = ["tool", "level", "frame", "view", "zoom", "options"] as const;

function start(root: HTMLElement): void {
  let state: State = START;
  let waiting = false;
  let following = false;

  /** The toolkit takes longer to start than the rest of the page, and only a picture with frames has its button. */
  const defineButton = once(() => {
    // In a task of its own, which comes after this frame is on the screen.
    setTimeout(async () => (await import("./toolkit.ts")).defineComponents());
  });

  const settle = once(() => page.settle());

  const host = connect({
    show: (shown) => {
      const { kept } = host;
      const first = state.shown === undefined && kept && sameBitmap(kept.identity, shown.bitmap.identity);
      // A raw value of another format means something else.
      const other = state.shown === undefined && kept?.format !== undefined && kept.format !== shown.bitmap.format;
      if (other) dispatch({ type: "level", level: START.level });
      dispatch({ type: "show", shown });
      if (first) dispatch({ type: "frame", frame: kept.frame });
      return {};
    },
    nothing: ({ why }) => {
      dispatch({ type: "nothing", why });
      return {};
    },
    cursor: ({ pixels, ...place }) => {
      dispatch({ type: "hostCursor", place });
      if (pixels) dispatch({ type: "selectText", pixels });
      return {};
    },
  });
  const reveal = revealer(host.rpc);

  const dispatch = (action: Action) => {
    const before = state;
    state = reduce(state, action);
    if (state === before) return;
    changed(action, before);
  };

  const changed = (action: Action, before: State) => {
    sender(state);
    restructure(state);
    play(state);
    fetchGlyphs(state);
    const identity = state.shown?.bitmap.identity;
    if (identity && !state.playing && KEPT.some((key) => state[key] !== before[key])) {
      const { tool, level, frame, view, zoom, options } = state;
      host.keep({
        tool,
        level,
        frame,
        view,
        options,
        identity,
        format: state.shown?.bitmap.format ?? "",
        ...(zoom === undefined ? {} : { zoom }),
      });
    }
    tell(action, before);
    if (waiting) return;
    waiting = true;
    requestAnimationFrame(() => {
      waiting = false;
      page.draw(state);
      if (state.shown) settle();
      if (state.shown && state.shown.bitmap.frames > 1) defineButton();
      // Only now does the cursor stand where it was moved to.
      if (following) page.follow();
      following = false;
    });
  };

  /** Where the user moves the pixel cursor, the text cursor follows: after the stroke, not while it is drawn. */
  const tell = (action: Action, before: State) => {
    if (action.type === "move" || action.type === "hostCursor") following = true;
    if (state.stroke || state.grip || state.playing || !state.shown) return;
    const place = { frame: state.frame, ...state.cursor };
    const pixels = selectedByUser(action, before, state);
    if (pixels) return reveal(state.shown.bitmap.identity, place, pixels);
    const settled = before.pending !== undefined && state.pending === undefined;
    const byUser = settled || ["move", "begin", "drag", "end", "drop", "frame"].includes(action.type);
    const ended = before.stroke !== undefined || before.grip !== undefined;
    const moved = state.cursor !== before.cursor || state.frame !== before.frame || ended;
    if (byUser && moved) reveal(state.shown.bitmap.identity, place);
  };

  const sender = strokeSender(host.rpc, (action) => dispatch(action));
  const fetchGlyphs = glyphFetcher(host.rpc, (action) => dispatch(action));
  const restructure = restructurer(host.rpc, (action) => dispatch(action));
  const play = player(dispatch, () => state);
  const clipboard = makeClipboard(
    host.rpc,
    (action) => dispatch(action),
    () => state,
  );
  clipboard.listen();
  const page = makePage(
    root,
    dispatch,
    () => state,
    (identity, together = []) => {
      host.rpc.call("choose", { identity, together }).catch((error: unknown) => {
        dispatch({ type: "say", note: l10n.t("Not shown: {0}", reasonOf(error)) });
      });
    },
    (frame, width) => {
      const identity = state.shown?.bitmap.identity;
      if (!identity) return;
      host.rpc.call("glyphWidth", { identity, frame, width }).catch((error: unknown) => {
        dispatch({ type: "say", note: l10n.t("Not changed: {0}", reasonOf(error)) });
      });
    },
    recolourer(
      host.rpc,
      (action) => dispatch(action),
      () => state,
    ),
    clipboard,
  );
  document.addEventListener("keydown", (event) => {
    const typing = event.target instanceof Element && event.target.closest("input, select") !== null;
    if (typing || event.defaultPrevented) return;
    const by = zoomKey(event);
    if (by !== undefined) {
      event.preventDefault();
      page.zoom(by);
    }
    if (jumpKey(event) && !earlyText(event, state)) {
      // Else the letter would be typed into the field.
      event.preventDefault();
      page.jump();
      return;
    }
    if (event.key === "#" && !event.ctrlKey && !event.metaKey) {
      event.preventDefault();
      page.type();
    }
    const early = earlyText(event, state);
    const action = early ?? pageKeyAction(event, state);
    const ofPage = action ? [action] : frameKeyActions(event, state);
    // After a click beside all there is to press, keys of the grid are meant for it still.
    const ofGrid = ofPage.length === 0 && event.target === document.body ? keyAction(event, state) : [];
    if (ofGrid.length > 0) page.settle();
    const actions = [...ofPage, ...ofGrid];
    if (actions.length === 0) return;
    event.preventDefault();
    for (const one of actions) dispatch(one);
  });
  if (host.kept) {
    dispatch({ type: "tool", tool: host.kept.tool });
    dispatch({ type: "level", level: host.kept.level });
    dispatch({ type: "view", view: host.kept.view });
    dispatch({ type: "zoom", zoom: host.kept.zoom });
    dispatch({ type: "options", options: optionsFrom(host.kept.options) });
  }
  page.draw(state);
  // A message keeps where it was posted from; inside of this script that would make the engine read all of it again.
  queueMicrotask(() => {
    host.rpc.call("ready", {}).catch((error: unknown) => dispatch({ type: "nothing", why: reasonOf(error) }));
  });
}

function once(run: () => void): () => void {
  let ran = false;
  return () => {
    if (ran) return;
    ran = true;
    run();
  };
}

const root = document.getElementById("dotwright");
if (root) start(root);
