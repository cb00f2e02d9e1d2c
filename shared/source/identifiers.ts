/** Names that a new array may have. */
import { classOf, commentEnd, DIGIT, IDENT, identEnd, isComment, numberEnd, prefixedEnd, quotedEnd } from "./scan.ts";
import type { Span } from "./text.ts";
import { namedType } from "./types.ts";

/** C17 6.4.1 and C++17 [lex.key] tables 5 and 6, `asm` and the later keywords of C23 and C++20. */
const KEYWORDS = new Set(
  (
    "alignas alignof and and_eq asm auto bitand bitor bool break case catch char char8_t char16_t char32_t class " +
    "co_await co_return co_yield compl concept const const_cast consteval constexpr constinit continue decltype " +
    "default delete do double dynamic_cast else enum explicit export extern false float for friend goto if inline " +
    "int long mutable namespace new noexcept not not_eq nullptr operator or or_eq private protected public register " +
    "reinterpret_cast requires restrict return short signed sizeof static static_assert static_cast struct switch " +
    "template this thread_local throw true try typedef typeid typename typeof typeof_unqual union unsigned using " +
    "virtual void volatile wchar_t while xor xor_eq _Alignas _Alignof _Atomic _Bool _Complex _Generic _Imaginary " +
    "_Noreturn _Static_assert _Thread_local"
  ).split(" "),
);

/** Why a word can't name an array; undefined for one that can. */
export function nameProblem(name: string): string | undefined {
  if (name === "") return "An array needs a name.";
  if (!/^[A-Za-z_]\w*$/.test(name))
    return `\`${name}\` can't be a name in C: letters, digits and \`_\`, and no digit first.`;
  if (KEYWORDS.has(name)) return `\`${name}\` is a keyword of C or C++.`;
  if (namedType(name, "avr") || name === "PROGMEM") return `\`${name}\` already means something in C.`;
  return undefined;
}

/** `icon`, else `icon_2` or the next free number: a name that occurs nowhere in the text. */
export function freeName(text: string, wanted: string): string {
  return occurs(text, wanted) ? nextName(text, wanted) : wanted;
}

/** `icon_2` for `icon`, `icon_3` for `icon_2`, or the next number that occurs nowhere in the text. */
export function nextName(text: string, name: string): string {
  const [, stem = name, number] = /^(.*\D)_(\d{1,6})$/.exec(name) ?? [];
  for (let n = number === undefined ? 2 : Number(number) + 1; ; n++) {
    const next = `${stem}_${n}`;
    if (!occurs(text, next)) return next;
  }
}

/** Whether a name stands anywhere in the text, also in comments. */
function occurs(text: string, name: string): boolean {
  for (let at = text.indexOf(name); at >= 0; at = text.indexOf(name, at + 1)) {
    if (!/[\w$]/.test(text[at - 1] ?? "") && !/[\w$]/.test(text[at + name.length] ?? "")) return true;
  }
  return false;
}

/** Where a name stands in the code of a text: not in comments, strings and characters. Takes any text. */
export function occurrencesIn(text: string, name: string): Span[] {
  const found: Span[] = [];
  // Most texts do not hold it at all.
  const last = text.lastIndexOf(name);
  for (let at = 0; at <= last; ) {
    const c = text.charCodeAt(at);
    const kind = classOf(c);
    if (kind === IDENT) {
      const end = identEnd(text, at);
      if (text.slice(at, end) === name) found.push({ start: at, end });
      at = prefixedEnd(text, at, end);
    } else if (kind === DIGIT) at = numberEnd(text, at);
    else if (c === 34 || c === 39) at = quotedEnd(text, at);
    else if (c === 47 && isComment(text, at)) at = commentEnd(text, at);
    else at++;
  }
  return found;
}
