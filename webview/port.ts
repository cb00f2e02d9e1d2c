/** VS Code's message port as an rpc: one for each page. */
import { createRpc, type Handlers, type Messages, type Rpc } from "../shared/protocol/rpc.ts";

interface Api {
  postMessage(message: unknown): void;
  getState(): unknown;
  setState(state: unknown): void;
}

declare function acquireVsCodeApi(): Api;

/** `kept` is what the page kept last time, of which nothing is known. */
export interface Port<Out extends Messages<Out>> {
  readonly rpc: Rpc<Out>;
  readonly kept: unknown;
  keep(state: unknown): void;
}

export function openPort<In extends Messages<In>, Out extends Messages<Out>>(handlers: Handlers<In>): Port<Out> {
  const api = acquireVsCodeApi();
  const rpc = createRpc<In, Out>((message) => api.postMessage(message), handlers);
  window.addEventListener("message", (event) => rpc.receive(event.data));
  return { rpc, kept: api.getState(), keep: (state) => api.setState(state) };
}
