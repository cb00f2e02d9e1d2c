/** Starts the page of an import: what is chosen, the preview that follows it, and the line to the extension. */
import "../translate.ts";
import * as l10n from "@vscode/l10n";
import type { ImportToHost, ImportToPage } from "../../shared/protocol/importing.ts";
import { createRpc } from "../../shared/protocol/rpc.ts";
import { reasonOf } from "../strokes.ts";
import { makeImportPage } from "./page.ts";
import { type Change, changed, choicesFor, type Kept, keptOf, keyOf, type State, started } from "./state.ts";

declare function acquireVsCodeApi(): {
  postMessage(message: unknown): void;
  getState(): unknown;
  setState(state: unknown): void;
};

function start(root: HTMLElement): void {
  let state: State | undefined;
  /** The newest wish for a preview; an answer to an older one is not shown. */
  let wish = 0;
  const api = acquireVsCodeApi();
  const rpc = createRpc<ImportToPage, ImportToHost>((message) => api.postMessage(message), {
    changed: ({ line, homes }) => {
      tell([{ type: "changed", line, homes }]);
      return {};
    },
  });
  window.addEventListener("message", (event) => rpc.receive(event.data));

  const tell = (changes: readonly Change[]) => {
    if (!state || changes.length === 0) return;
    state = changes.reduce(changed, state);
    api.setState(keptOf(state));
    if (changes.some(({ type }) => type !== "open" && type !== "preview" && type !== "refused")) void preview();
    page.draw(state);
  };

  const preview = async () => {
    if (!state) return;
    const mine = ++wish;
    state = changed(state, { type: "waiting" });
    const { place, frame } = state;
    try {
      const made = await rpc.call("preview", { place, choices: choicesFor(state), frame });
      if (mine === wish) tell([{ type: "preview", preview: made }]);
    } catch (error) {
      if (mine === wish) tell([{ type: "refused", why: reasonOf(error) }]);
    }
  };

  const page = makeImportPage(root, {
    tell,
    write: async () => {
      if (!state || state.refused !== undefined || state.waiting) return;
      try {
        await rpc.call("write", { place: state.place, choices: choicesFor(state), key: keyOf(state) });
      } catch (error) {
        tell([{ type: "refused", why: reasonOf(error) }]);
      }
    },
    leave: () => void rpc.call("leave", {}).catch(() => undefined),
  });
  rpc.call("ready", {}).then(
    (begin) => {
      state = started(begin, (api.getState() ?? undefined) as Kept | undefined);
      page.draw(state);
      void preview();
    },
    (error: unknown) => page.fail(l10n.t("The picture can’t be shown: {0}", reasonOf(error))),
  );
}

const root = document.getElementById("dotwright");
if (root) start(root);
