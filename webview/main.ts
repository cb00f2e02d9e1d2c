/** Starts the page: the state, who hears of its changes, and the line to the extension. */
import { connect } from "./host.ts";
import { sameBitmap } from "./picture.ts";
import { player } from "./player.ts";
import { type Action, reduce, START, type State } from "./state.ts";
import { reasonOf, revealer, strokeSender } from "./strokes.ts";
import { defineComponents } from "./toolkit.ts";
import { pageKeyAction } from "./view/keys.ts";
import { makePage } from "./view/page.ts";

function start(root: HTMLElement): void {
  defineComponents();
  let state: State = START;
  let waiting = false;

  const host = connect({
    show: (shown) => {
      const { kept } = host;
      const first = state.shown === undefined && kept && sameBitmap(kept.identity, shown.bitmap.identity);
      dispatch({ type: "show", shown });
      if (first) dispatch({ type: "frame", frame: kept.frame });
      return {};
    },
    nothing: ({ why }) => {
      dispatch({ type: "nothing", why });
      return {};
    },
    cursor: (place) => {
      dispatch({ type: "hostCursor", place });
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
    play(state);
    const identity = state.shown?.bitmap.identity;
    if (identity && (state.tool !== before.tool || state.level !== before.level || state.frame !== before.frame)) {
      if (!state.playing) host.keep({ tool: state.tool, level: state.level, frame: state.frame, identity });
    }
    tell(action, before);
    if (waiting) return;
    waiting = true;
    requestAnimationFrame(() => {
      waiting = false;
      page.draw(state);
    });
  };

  /** Where the user moves the pixel cursor, the text cursor follows: after the stroke, not while it is drawn. */
  const tell = (action: Action, before: State) => {
    if (action.type === "move" || action.type === "hostCursor") requestAnimationFrame(() => page.follow());
    const byUser = ["move", "begin", "drag", "end", "drop", "frame"].includes(action.type);
    if (!byUser || state.stroke || state.playing || !state.shown) return;
    const moved = state.cursor !== before.cursor || state.frame !== before.frame || before.stroke !== undefined;
    if (moved) reveal(state.shown.bitmap.identity, { frame: state.frame, ...state.cursor });
  };

  const sender = strokeSender(host.rpc, (action) => dispatch(action));
  const play = player(dispatch, () => state);
  const page = makePage(
    root,
    dispatch,
    () => state,
    (identity) => {
      host.rpc.call("choose", { identity }).catch((error: unknown) => {
        dispatch({ type: "say", note: `Not shown: ${reasonOf(error)}` });
      });
    },
  );
  document.addEventListener("keydown", (event) => {
    const typing = event.target instanceof Element && event.target.closest("input, select") !== null;
    const action = typing || event.defaultPrevented ? undefined : pageKeyAction(event, state);
    if (!action) return;
    event.preventDefault();
    dispatch(action);
  });
  if (host.kept) {
    dispatch({ type: "tool", tool: host.kept.tool });
    dispatch({ type: "level", level: host.kept.level });
  }
  page.draw(state);
  host.rpc.call("ready", {}).catch((error: unknown) => dispatch({ type: "nothing", why: reasonOf(error) }));
}

const root = document.getElementById("dotwright");
if (root) start(root);
