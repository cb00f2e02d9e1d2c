/** The line to the extension, and what the page keeps while it is hidden. */
import type { Handlers, Rpc } from "../shared/protocol/rpc.ts";
import type { ToHost, ToPage } from "../shared/protocol/webview.ts";
import type { Kept } from "./kept.ts";
import { openPort } from "./port.ts";

export interface Host {
  readonly rpc: Rpc<ToHost>;
  /** What the page kept last time, if it did. */
  readonly kept: Kept | undefined;
  keep(kept: Kept): void;
}

export function connect(handlers: Handlers<ToPage>): Host {
  const { rpc, kept, keep } = openPort<ToPage, ToHost>(handlers);
  return {
    rpc,
    kept: typeof kept === "object" && kept !== null && "identity" in kept ? (kept as Kept) : undefined,
    keep,
  };
}
