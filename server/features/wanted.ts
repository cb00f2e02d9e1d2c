import type { CodeActionContext } from "vscode-languageserver/node";

/** Whether a client wants actions of a kind: all where it does not choose, else those of the kinds chosen and below them. */
export function isWanted({ only }: CodeActionContext, kind: string): boolean {
  return only === undefined || only.some((asked) => asked === "" || kind === asked || kind.startsWith(`${asked}.`));
}
