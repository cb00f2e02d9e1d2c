/** Starts the page: the state, who hears of its changes, and the line to the extension. */
import "./translate.ts";
import * as l10n from "@vscode/l10n";
import { listenToDrops } from "./drops.ts";
import { motionWriter } from "./edge/write.ts";
import { glyphFetcher } from "./glyphFetcher.ts";
import { connect } from "./host.ts";
import { keptOf, restored, showing } from "./kept.ts";
import { keyAction } from "./keys/grid.ts";
import { pageKey } from "./keys/page.ts";
import { player } from "./player.ts";
import { playPressed } from "./playing.ts";
import { recolourer } from "./recolour.ts";
import { whyNot } from "./refusal.ts";
import { restructurer } from "./restructure.ts";
import { makeClipboard } from "./selection/clipboard.ts";
import { type Action, reduce, START, type State } from "./state.ts";
import { reasonOf, revealer, strokeSender } from "./strokes.ts";
import { toldOf } from "./telling.ts";
import { isTyping } from "./view/dom.ts";
import { makePage } from "./view/page.ts";

function start(root: HTMLElement): void {
  let state: State = START;
  let waiting = false;
  let following = false;
  const now = () => state;

  const dispatch = (action: Action) => {
    const before = state;
    state = reduce(state, action);
    if (state !== before) changed(action, before);
  };
  const act = (actions: readonly Action[]) => {
    for (const action of actions) dispatch(action);
  };

  const host = connect({
    show: (shown) => {
      act(showing(shown, host.kept, state));
      return {};
    },
    nothing: ({ why }) => {
      dispatch({ type: "nothing", why });
      return {};
    },
    play: () => {
      if (!state.playing) act(playPressed(state));
      return {};
    },
    cursor: ({ pixels, ...place }) => {
      dispatch({ type: "hostCursor", place });
      if (pixels) dispatch({ type: "selectText", pixels });
      return {};
    },
  });
  const { rpc } = host;
  const reveal = revealer(rpc);
  const listeners = [
    strokeSender(rpc, dispatch),
    restructurer(rpc, dispatch),
    player(dispatch, now),
    glyphFetcher(rpc, dispatch),
  ];

  const changed = (action: Action, before: State) => {
    for (const hear of listeners) hear(state);
    const kept = keptOf(state, before);
    if (kept) host.keep(kept);
    if (action.type === "move" || action.type === "hostCursor") following = true;
    const told = toldOf(action, before, state);
    if (told && state.shown) reveal(state.shown.bitmap.identity, told.place, told.pixels);
    if (waiting) return;
    waiting = true;
    const draw = () => {
      waiting = false;
      page.draw(state);
      if (state.shown) settle();
      if (state.shown && state.shown.bitmap.frames > 1) defineButton();
      // Only now does the cursor stand where it was moved to.
      if (following) page.follow();
      following = false;
    };
    // Who asks for a frame while an input is handled has the browser hold messages back until it is drawn, to answer
    // the eye first. Under a finished stroke little changes on the page: its message goes first.
    if (state.lastId !== before.lastId) setTimeout(() => requestAnimationFrame(draw));
    else requestAnimationFrame(draw);
  };

  const settle = once(() => page.settle());

  /** The toolkit takes longer to start than the rest of the page, and only a picture with frames has its button. */
  const defineButton = once(() => {
    // In a task of its own, which comes after this frame is on the screen.
    setTimeout(async () => (await import("./toolkit.ts")).defineComponents());
  });

  const clipboard = makeClipboard(rpc, dispatch, now);
  clipboard.listen();
  /** Says what has come of a wish where it is refused. */
  const orSay = (asked: Promise<unknown>, words: (reason: string) => string) => {
    asked.catch((error: unknown) => dispatch({ type: "say", note: words(reasonOf(error)) }));
  };
  listenToDrops(
    now,
    (dropped) => orSay(rpc.call("pictures", dropped), (reason) => l10n.t("Not imported: {0}", reason)),
    dispatch,
  );
  const page = makePage(root, dispatch, now, {
    choose: (identity, together = []) =>
      orSay(rpc.call("choose", { identity, together }), (reason) => l10n.t("Not shown: {0}", reason)),
    setWidth: (frame, width) => {
      const refused = whyNot(state);
      // The frame that it is meant for may be another one in a moment.
      if (refused !== undefined) dispatch({ type: "say", note: l10n.t("Not changed: {0}", refused) });
      else if (state.shown)
        orSay(rpc.call("glyphWidth", { identity: state.shown.bitmap.identity, frame, width }), (reason) =>
          l10n.t("Not changed: {0}", reason),
        );
    },
    recolour: recolourer(rpc, dispatch, now),
    clipboard,
    motion: motionWriter(rpc, dispatch, now),
    rewire: (index, wire) => {
      const { shown } = state;
      const refused = whyNot(state);
      if (!shown || refused !== undefined) {
        dispatch({ type: "say", note: l10n.t("Not written: {0}", refused ?? "") });
        return;
      }
      const { version, bitmap } = shown;
      const asked = rpc.call("wire", {
        version,
        identity: bitmap.identity,
        index,
        ...(wire === undefined ? {} : { wire }),
      });
      orSay(
        asked.then(() => {
          dispatch({ type: "probe", step: "stop" });
          dispatch({ type: "say", note: l10n.t("wiring written") });
        }),
        (reason) => l10n.t("Not written: {0}", reason),
      );
    },
  });

  document.addEventListener("keydown", (event) => {
    if (isTyping(event) || event.defaultPrevented) return;
    let deed = pageKey(event, state);
    // After a click beside all there is to press, keys of the grid are meant for it still.
    if (deed === undefined && event.target === document.body) {
      deed = keyAction(event, state);
      if (deed.length > 0) page.settle();
    }
    if (deed === undefined || deed.length === 0) return;
    // Else a letter would be typed into the field that it goes to.
    event.preventDefault();
    if (typeof deed === "string") page.deeds[deed]();
    else act(deed);
  });
  if (host.kept) act(restored(host.kept));
  page.draw(state);
  // A message keeps where it was posted from; inside of this script that would make the engine read all of it again.
  queueMicrotask(() => {
    rpc.call("ready", {}).catch((error: unknown) => dispatch({ type: "nothing", why: reasonOf(error) }));
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
