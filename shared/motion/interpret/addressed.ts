/** Which names have their address taken somewhere, found before anything is compiled: these are kept in memory. */
import type { Lexeme } from "./tokens.ts";

/** Names after `&` where that takes an address, and all that is handed to functions which take references. */
export function addressedIn(list: readonly Lexeme[]): Set<string> {
  const found = new Set<string>();
  const references = new Set<string>();
  for (let i = 1; i + 1 < list.length; i++) {
    const { kind, text } = list[i] as Lexeme;
    if (kind !== "operator" || text !== "&") continue;
    const before = list[i - 1] as Lexeme;
    const after = list[i + 1] as Lexeme;
    if (after.kind !== "word") continue;
    const value = before.kind === "number" || before.kind === "character" || before.text === "]";
    const keyword = /^(?:return|case)$/.test(before.text);
    if (!value && (before.kind !== "word" || keyword)) found.add(after.text);
    else if (before.kind === "word") {
      const owner = nameBefore(list, i);
      if (owner !== undefined) references.add(owner);
    }
    // `uint8_t &row = frame[0];`: what it is bound to.
    const bound = list[i + 2]?.text === "=" ? list[i + 3] : undefined;
    if (before.kind === "word" && bound?.kind === "word") found.add(bound.text);
  }
  if (references.size > 0)
    for (let i = 0; i + 1 < list.length; i++) {
      const { kind, text } = list[i] as Lexeme;
      if (kind !== "word" || !references.has(text) || list[i + 1]?.text !== "(") continue;
      let nesting = 0;
      for (let k = i + 1; k < list.length; k++) {
        const inner = list[k] as Lexeme;
        if (inner.kind === "word") found.add(inner.text);
        if (inner.text === "(") nesting++;
        if (inner.text === ")" && --nesting === 0) break;
      }
    }
  return found;
}

/** The function in whose parameters a token stands, if it may be one. */
function nameBefore(list: readonly Lexeme[], at: number): string | undefined {
  let nesting = 0;
  for (let i = at - 1; i > 0 && i > at - 60; i--) {
    const { text, kind } = list[i] as Lexeme;
    if (kind !== "operator") continue;
    if (text === ";" || text === "{" || text === "}") return undefined;
    if (text === ")") nesting++;
    if (text === "(" && nesting-- === 0) return list[i - 1]?.kind === "word" ? list[i - 1]?.text : undefined;
  }
  return undefined;
}
