/** The line to the extension: VS Code's message port as an rpc, and what the page keeps while it is hidden. */
import { createRpc, type Handlers, type Rpc } from "../shared/protocol/rpc.ts";
import type { ToHost, ToPage } from "../shared/protocol/webview.ts";
import type { Kept } from "./kept.ts";

export interface Host {
  readonly rpc: Rpc<ToHost>;
  /** What the page kept last time, if it did. */
  readonly kept: Kept | undefined;
  keep(kept: Kept): void;
}

declare function acquireVsCodeApi(): {
  postMessage(message: unknown): void;
  getState(): unknown;
  setState(state: unknown): void;
};

export function connect(handlers: Handlers<ToPage>): Host {
  const api = acquireVsCodeApi();
  const rpc = createRpc<ToPage, ToHost>((message) => api.postMessage(message), handlers);
  window.addEventListener("message", (event) => rpc.receive(event.data));
  const kept = api.getState();
  return {
    rpc,
    kept: typeof kept === "object" && kept !== null && "identity" in kept ? (kept as Kept) : undefined,
    keep: (state) => api.setState(state),
  };
}
