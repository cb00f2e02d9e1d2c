/**
 * Requests over a pair of message ports, the same at both ends with the types swapped. Every request gets a reply: the
 * result, or an error in words; a handler that throws is an error too. Calls that wait are refused on dispose.
 */

interface Message {
  readonly params: unknown;
  readonly result: unknown;
}

/** The messages of one direction, by name. */
export type Messages<T> = { readonly [K in keyof T]: Message };

export type Handlers<T extends Messages<T>> = {
  readonly [K in keyof T]: (params: T[K]["params"]) => T[K]["result"] | Promise<T[K]["result"]>;
};

interface Request {
  readonly dotwright: "request";
  readonly id: number;
  readonly method: string;
  readonly params: unknown;
}

type Reply = { readonly dotwright: "reply"; readonly id: number } & (
  | { readonly ok: unknown }
  | { readonly err: string }
);

export interface Rpc<Out extends Messages<Out>> {
  call<K extends keyof Out & string>(method: K, params: Out[K]["params"]): Promise<Out[K]["result"]>;
  /** Takes what has come from the other end; anything that is no message of ours is left alone. */
  receive(message: unknown): void;
  dispose(): void;
}

/** One end of the line: `post` sends to the other end, `handlers` answer what it asks. */
export function createRpc<In extends Messages<In>, Out extends Messages<Out>>(
  post: (message: Request | Reply) => void,
  handlers: Handlers<In>,
): Rpc<Out> {
  const waiting = new Map<number, { resolve: (value: never) => void; reject: (error: Error) => void }>();
  let last = 0;
  let over = false;

  const answer = async (request: Request): Promise<void> => {
    const { id, method } = request;
    let reply: Reply;
    try {
      const known = Object.hasOwn(handlers, method) ? handlers[method as keyof In] : undefined;
      if (!known) throw new Error(`there is no request ${method}`);
      reply = { dotwright: "reply", id, ok: await known(request.params as never) };
    } catch (error) {
      reply = { dotwright: "reply", id, err: error instanceof Error ? error.message : String(error) };
    }
    if (!over) post(reply);
  };

  return {
    call: (method, params) =>
      new Promise((resolve, reject) => {
        if (over) {
          reject(new Error("the other side is gone"));
          return;
        }
        const id = ++last;
        waiting.set(id, { resolve, reject });
        post({ dotwright: "request", id, method, params });
      }),
    receive: (message) => {
      if (typeof message !== "object" || message === null || !("dotwright" in message)) return;
      const ours = message as Request | Reply;
      if (ours.dotwright === "request") {
        void answer(ours);
        return;
      }
      const call = waiting.get(ours.id);
      if (!call) return;
      waiting.delete(ours.id);
      if ("ok" in ours) call.resolve(ours.ok as never);
      else call.reject(new Error(ours.err));
    },
    dispose: () => {
      over = true;
      for (const { reject } of waiting.values()) reject(new Error("the other side is gone"));
      waiting.clear();
    },
  };
}
