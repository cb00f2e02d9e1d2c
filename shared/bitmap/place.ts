/** Where a new statement may stand: at namespace level, on lines of its own, and between no annotation and its array. */
import type { Item } from "../source/outline.ts";
import { outlineOf } from "../source/outline.ts";
import type { SourceFile } from "../source/read.ts";
import { afterBreak, indentAt, lineEnd, lineStart } from "../source/scan.ts";
import type { Span, TextEdit } from "../source/text.ts";

export interface Place {
  /** What the new text replaces: the white space of a blank line, else nothing. */
  readonly span: Span;
  /** White space that its lines begin with. */
  readonly indent: string;
  /** Line breaks that go before and after it. */
  readonly before: number;
  readonly after: number;
}

/**
 * The place nearest to an offset: its line where that is blank, else after the statement (with the comments that
 * belong to it), directive, comment or body that the offset stands in.
 */
export function placeNear(source: SourceFile, offset: number): Place {
  const { text } = source;
  const start = lineStart(text, offset);
  const end = lineEnd(text, offset);
  const groups = groupsOf(source, outlineOf(source).items, { start, end });
  const blank = isBlank(text, start, end);
  const inside = (at: number) => groups.find((g) => g.start < at && at < g.end);
  let place: Place;
  if (blank && !inside(offset)) place = onBlankLine(text, { start, end });
  else {
    const own = groups.find((g) => g.start <= offset && offset <= g.end);
    const group = own ?? groups.filter((g) => g.start <= end && g.end >= start).pop();
    place = afterLine(text, lastOnLine(text, groups, group?.end ?? end), group?.start ?? start);
  }
  const waiting = waitingAt(source, groups, place.span.start);
  return waiting ? beforeLine(text, waiting.start) : place;
}

/** The edit that puts a statement there, and where in the new text it begins. */
export function placed(place: Place, body: string, eol: string): { readonly edit: TextEdit; readonly lead: number } {
  const { span, indent, before, after } = place;
  const lead = eol.repeat(before) + indent;
  return { edit: { ...span, text: lead + body + eol.repeat(after) }, lead: lead.length };
}

/** Statements with the comments right above them; on the line asked about also with an annotation further up. */
function groupsOf({ text, annotations, arrays }: SourceFile, items: readonly Item[], line: Span): Span[] {
  const groups: { start: number; end: number; waits: boolean }[] = [];
  for (const item of items) {
    const last = groups[groups.length - 1];
    const between = last ? text.slice(last.end, item.start) : "";
    const breaks = between.match(/\r\n|\r|\n/g)?.length ?? 0;
    if (last?.waits && item.kind !== "directive" && breaks <= 1) {
      last.end = item.end;
      last.waits = item.kind === "comment";
    } else if (last && item.kind === "comment" && breaks === 0) last.end = item.end;
    else groups.push({ start: item.start, end: item.end, waits: item.kind === "comment" });
  }
  for (const { comment, arrays: bound } of annotations) {
    const array = arrays[bound[0] ?? -1];
    if (!array || comment.start > line.end || array.declaration.end < line.start) continue;
    const from = groups.findIndex((g) => g.start <= comment.start && comment.start < g.end);
    const to = groups.findIndex((g) => g.start <= array.base && array.base < g.end);
    const first = groups[from];
    const last = groups[to];
    if (from >= 0 && to > from && first && last) groups.splice(from, to - from + 1, { ...last, start: first.start });
  }
  return groups;
}

/** Goes on over all that begins before the end of the line. */
function lastOnLine(text: string, groups: readonly Span[], from: number): number {
  let end = from;
  for (const group of groups) if (group.end > end && group.start < lineEnd(text, end)) end = group.end;
  return end;
}

/** The comments of an annotation that waits for its array still, where the place would give it the new one. */
function waitingAt({ annotations, text }: SourceFile, groups: readonly Span[], at: number): Span | undefined {
  for (const { marker, comment, arrays } of annotations) {
    if (marker === "panel" || arrays.length > 0 || comment.start >= at) continue;
    const group = groups.filter((g) => g.start <= comment.start).pop();
    const rest = groups.find((g) => g.start > comment.start && !/^\/[/*]/.test(text.slice(g.start, g.start + 2)));
    const ends = group && !/^\s*$/.test(text.slice(comment.end, group.end));
    if (group && !ends && at <= (rest?.start ?? text.length)) return group;
  }
  return undefined;
}

function onBlankLine(text: string, { start, end }: Span): Place {
  const indent = text.slice(start, end).replaceAll("\uFEFF", "");
  const above = start > 0 && !isBlank(text, lineStart(text, breakBefore(text, start)), breakBefore(text, start));
  const from = start === 0 && text.startsWith("\uFEFF") ? 1 : start;
  return { span: { start: from, end }, indent, before: above ? 1 : 0, after: afterAt(text, end) };
}

function afterLine(text: string, at: number, start: number): Place {
  const end = lineEnd(text, at);
  return {
    span: { start: end, end },
    indent: indentAt(text, start),
    before: end === 0 ? 0 : 2,
    after: afterAt(text, end),
  };
}

function beforeLine(text: string, at: number): Place {
  const start = lineStart(text, at);
  const before = breakBefore(text, start);
  const above = start > 0 && !isBlank(text, lineStart(text, before), before);
  return { span: { start, end: start }, indent: indentAt(text, start), before: above ? 1 : 0, after: 2 };
}

/** One more line break where the next line is not blank, or where the file ends. */
function afterAt(text: string, end: number): number {
  if (end >= text.length) return 1;
  const next = afterBreak(text, end);
  return next < text.length && !isBlank(text, next, lineEnd(text, next)) ? 1 : 0;
}

function breakBefore(text: string, start: number): number {
  return text[start - 1] === "\n" && text[start - 2] === "\r" ? start - 2 : Math.max(0, start - 1);
}

function isBlank(text: string, start: number, end: number): boolean {
  return /^[\s\uFEFF]*$/.test(text.slice(start, end));
}
