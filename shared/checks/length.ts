import type { Bitmap, BitmapFile } from "../bitmap/resolve.ts";
import type { Layout } from "../pixels/layout.ts";
import { layOut } from "../pixels/layout.ts";
import type { SourceArray } from "../source/arrays.ts";
import { elementSpan, slotOf } from "../source/arrays.ts";
import { emitRows } from "../source/emit.ts";
import type { ListNode } from "../source/initialiser.ts";
import { literalStyle } from "../source/literals.ts";
import { writeOut } from "../source/rewrite.ts";
import type { Span, TextEdit } from "../source/text.ts";
import { lineLayout } from "../source/writeOut.ts";
import type { BitmapFinding, Fix, Rule } from "./rules.ts";
import { bitmapOf, counted } from "./rules.ts";

/** What the array stores, against what the bitmap takes and what is written. */
export const length: Rule = {
  codes: ["length"],
  doc: "The array has fewer or more elements than its bitmap takes, or than its declared size.",
  checkBitmap: (text, bitmap) => {
    const { array, layout } = bitmap;
    if (!layout || !array.list?.closed || array.type === undefined || array.dimensions.some((d) => d.why)) return [];
    // Where values are not known, neither is how many elements they make.
    if (array.readOnly !== undefined) return [];
    return judge(text, bitmap, layout).map((f): BitmapFinding => ({ code: "length", ...f }));
  },
  fixes: (file, finding) => {
    const bitmap = bitmapOf(file, finding);
    if (!bitmap?.layout || bitmap.array.readOnly !== undefined) return [];
    const { layout } = bitmap;
    switch (finding.data.case) {
      case "overflow": {
        const { given } = bitmap.array;
        if (given < layout.elements) return some(extend(file, bitmap, layout));
        return some(cut(file, bitmap, layout.elements), given === layout.elements ? declare(bitmap, given) : undefined);
      }
      case "zero-filled":
        return some(
          pad(file, bitmap, layout),
          bitmap.array.given < layout.elements ? undefined : declare(bitmap, bitmap.array.given),
        );
      case "declared":
        return some(...exactFirst(bitmap, preferred(declare(bitmap, layout.elements))));
      case "short":
        return some(...exactFirst(bitmap, extend(file, bitmap, layout)), ...resizes(bitmap, layout));
      case "long":
        return some(...exactFirst(bitmap, cut(file, bitmap, layout.elements)), ...resizes(bitmap, layout));
      default:
        return [];
    }
  },
};

type Judgement = Pick<BitmapFinding, "severity" | "message" | "span" | "data">;

function judge(text: string, bitmap: Bitmap, layout: Layout): Judgement[] {
  const { array } = bitmap;
  const { given, name } = array;
  // The NUL after a string is stored, but no pixel.
  const count = array.nul && array.count === layout.elements + 1 ? layout.elements : array.count;
  const needed = layout.elements;
  const close = closeOf(array);
  if (array.excess > 0) {
    const message = `${counted(array.excess, "element")} of ${name} ${array.excess === 1 ? "has" : "have"} no room: it is declared with ${count} and ${given} are written. The compiler refuses or drops what is too many.`;
    return [{ severity: "error", message, span: excessSpan(array), data: { case: "overflow" } }];
  }
  if (count < needed) {
    const message =
      `${name} has ${counted(count, "element")}; ${describe(bitmap, layout)}. ${missing(bitmap, layout, count)} ${rest(bitmap, layout, count)}`.trim();
    return [{ severity: "error", message, span: given < count ? array.nameSpan : close, data: { case: "short" } }];
  }
  if (count > needed) {
    if (given <= needed && declaredSpan(array)) {
      const message =
        `${name} is declared with ${count} elements, but ${describe(bitmap, layout)} and ${given} are written. ${each(bitmap) ? EACH : ""}`.trim();
      return [
        {
          severity: given === needed ? "warning" : severityOfGap(text, array),
          message,
          span: declaredSpan(array) as Span,
          data: { case: "declared" },
        },
      ];
    }
    const more = count - needed;
    const message =
      `${name} has ${counted(count, "element")}; ${describe(bitmap, layout)}, so ${more} ${more === 1 ? "is" : "are"} left over. ${rest(bitmap, layout, count)}`.trim();
    const span =
      given > needed && !array.slots
        ? { start: elementSpan(array, needed).start, end: elementSpan(array, given - 1).end }
        : array.nameSpan;
    return [{ severity: "warning", message, span, data: { case: "long" } }];
  }
  if (array.gaps.length > 0 && !(array.nul && given === needed)) {
    const empty = array.gaps.reduce((sum, gap) => sum + gap.to - gap.from, 0);
    const message = `${empty} of ${count} elements of ${name} are not written; the compiler fills them with 0 (${zeroPixels(bitmap, layout)}).`;
    const gap = array.gaps[0];
    const node = gap && (array.list?.nodes[gap.node] as ListNode);
    const span = node ? { start: array.base + node.close, end: array.base + node.close + 1 } : close;
    return [{ severity: severityOfGap(text, array), message, span, data: { case: "zero-filled" } }];
  }
  return [];
}

/** An initialiser of just `{}` or `{0}` is a usual way to ask for an empty picture. */
function severityOfGap(text: string, array: SourceArray): "information" | "warning" {
  const span = array.given === 1 ? elementSpan(array, 0) : undefined;
  const zero = span === undefined || /^0+(?:[xX]0+)?$/.test(text.slice(span.start, span.end));
  return array.given === 0 || (array.given === 1 && zero) ? "information" : "warning";
}

function describe(bitmap: Bitmap, layout: Layout): string {
  const frames = bitmap.frames > 1 ? `${bitmap.frames} frames of ` : "";
  const driver = layout.driver && `the driver's canvas of ${layout.driver.width}×${layout.driver.height}`;
  const size = driver ?? `${bitmap.width}×${bitmap.height}`;
  return `${frames}${size} ${bitmap.format.name} ${frames ? "take" : "takes"} ${layout.elements}`;
}

function wholeFrames(bitmap: Bitmap, layout: Layout, count: number): string {
  const { frameElements } = layout;
  if (frameElements === 0 || (bitmap.frames === 1 && count < 2 * frameElements)) return "";
  const data = count - layout.skip;
  const whole = Math.floor(data / frameElements);
  const rest = data % frameElements;
  if (rest === 0) return `That is ${counted(whole, "whole frame")}.`;
  return `That is not a whole number of frames: ${whole} and ${counted(rest, "element")}.`;
}

/** Which part of the picture lies after the end of the array. */
function missing(bitmap: Bitmap, layout: Layout, count: number): string {
  for (let frame = 0; frame < bitmap.frames; frame++) {
    const { element } = layout.table(frame);
    for (let i = 0; i < element.length; i++) {
      if ((element[i] as number) + layout.span <= count) continue;
      const inFrame = bitmap.frames > 1 ? ` of frame ${frame}` : "";
      return `The first pixel without an element is ${i % bitmap.width},${Math.floor(i / bitmap.width)}${inFrame}.`;
    }
  }
  return "";
}

function zeroPixels(bitmap: Bitmap, layout: Layout): string {
  const { array } = bitmap;
  const inGap = (slot: number) => array.gaps.some((g) => g.from <= slot && slot < g.to);
  let pixels = 0;
  let first = "";
  for (let frame = 0; frame < bitmap.frames; frame++) {
    const { element } = layout.table(frame);
    for (let i = 0; i < element.length; i++) {
      if (!inGap(element[i] as number)) continue;
      if (pixels === 0)
        first = `${i % bitmap.width},${Math.floor(i / bitmap.width)}${bitmap.frames > 1 ? ` of frame ${frame}` : ""}`;
      pixels++;
    }
  }
  return pixels === 0 ? "no pixel is among them" : `${counted(pixels, "pixel")}, from ${first} on`;
}

function closeOf(array: SourceArray): Span {
  const node = array.list?.nodes[array.node] as ListNode;
  return { start: array.base + node.close, end: array.base + node.close + 1 };
}

function excessSpan(array: SourceArray): Span {
  let first = -1;
  let last = -1;
  for (let i = 0; i < array.given; i++) {
    if (slotOf(array, i) >= 0) continue;
    if (first < 0) first = i;
    last = i;
  }
  if (first < 0) return array.nameSpan;
  return { start: elementSpan(array, first).start, end: elementSpan(array, last).end };
}

/** Where the one declared size stands; undefined for `[]` and for several dimensions. */
function declaredSpan(array: SourceArray): Span | undefined {
  const only = array.dimensions.length === 1 ? array.dimensions[0] : undefined;
  return only?.size === undefined ? undefined : only.span;
}

const some = (...fixes: (Fix | undefined)[]): Fix[] => fixes.filter((f) => f !== undefined);

function declare(bitmap: Bitmap, size: number): Fix | undefined {
  const span = declaredSpan(bitmap.array);
  if (!span || bitmap.array.count === size) return undefined;
  return { kind: "declare", title: `Change the declared size to ${size}`, edits: [{ ...span, text: String(size) }] };
}

const preferred = (fix: Fix | undefined): Fix | undefined => fix && { ...fix, preferred: true };

/** Removes the written elements from `keep` on, with the commas before them. */
function cut(file: BitmapFile, bitmap: Bitmap, keep: number): Fix | undefined {
  const { array } = bitmap;
  const node = array.list?.nodes[array.node] as ListNode;
  // A size declared over several dimensions can't follow, and the compiler fills a row that is begun.
  const row = array.dimensions.slice(1).reduce((product, d) => product * (d.size ?? 1), 1);
  const fixed = array.dimensions.length > 1 && array.dimensions.every((d) => d.size !== undefined);
  if (
    array.slots ||
    node.lists + node.strings > 0 ||
    node.quoted ||
    array.elided ||
    array.fixed !== undefined ||
    keep % row !== 0 ||
    (fixed && keep !== array.count) ||
    keep >= array.given ||
    keep < 1
  )
    return undefined;
  const text = file.source.text;
  const edits: TextEdit[] = [];
  const from = elementSpan(array, keep - 1).end;
  const to = elementSpan(array, array.given - 1).end;
  // Comments between them are kept; commas and elements go.
  if (/\/[/*]/.test(text.slice(from, to))) {
    for (let i = keep; i < array.given; i++) {
      const { start, end } = elementSpan(array, i);
      const before = elementSpan(array, i - 1).end;
      const comma =
        before +
        text
          .slice(before, start)
          .replace(/\/\*[\s\S]*?\*\/|\/\/[^\r\n]*/g, (c) => " ".repeat(c.length))
          .indexOf(",");
      edits.push({ start: comma, end: comma + 1, text: "" }, { start, end, text: "" });
    }
  } else edits.push({ start: from, end: to, text: "" });
  const span = declaredSpan(array);
  if (span && keep !== array.count) edits.unshift({ ...span, text: String(keep) });
  const more = array.given - keep;
  return { kind: "cut", title: `Remove the last ${counted(more, "element")}`, edits };
}

/** Writes out the elements that the compiler fills with zero. */
function pad(file: BitmapFile, bitmap: Bitmap, layout: Layout): Fix | undefined {
  const edits = writeOut(file.source.text, bitmap.array, layout.lineElements || 16);
  if (edits.length === 0) return undefined;
  return { kind: "pad", title: "Write the missing zeros out", edits, preferred: true };
}

/** Adds elements that the array lacks altogether, and enlarges its declared size. */
function extend(file: BitmapFile, bitmap: Bitmap, layout: Layout): Fix | undefined {
  const { array } = bitmap;
  const node = array.list?.nodes[array.node] as ListNode;
  if (array.dimensions.length > 1 || node.lists + node.strings > 0 || node.quoted || array.elided || !array.type)
    return undefined;
  // Behind designators, which may go back, it is not the last elements that would be added.
  if (array.fixed !== undefined || array.slots !== undefined) return undefined;
  const span = declaredSpan(array);
  const { text } = file.source;
  const perLine = layout.lineElements || 16;
  const lines = lineLayout(text, array, node);
  const last = array.given > 0 ? elementSpan(array, array.given - 1) : undefined;
  const decimal = last ? literalStyle(text.slice(last.start, last.end))?.base === 10 : false;
  const at = array.base + node.lastEnd;
  const zeros = (count: number) => new Array<number>(count).fill(0);
  const options = { bits: array.type.bits, decimal, eol: lines.eol };
  const missing = layout.elements - array.given;
  let added: string;
  if (lines.indent === undefined) {
    added = zeros(missing)
      .map(
        (_, i) => `${i > 0 || last ? `,${lines.space}` : ""}${emitRows([0], { ...options, perLine: 1, indent: "" })}`,
      )
      .join("");
  } else {
    const toLine = array.given === 0 ? 0 : (perLine - (array.given % perLine)) % perLine;
    const onLine = Math.min(missing, toLine);
    added = onLine > 0 ? `,${lines.space}${emitRows(zeros(onLine), { ...options, perLine: onLine, indent: "" })}` : "";
    if (missing > onLine) {
      const rows = emitRows(zeros(missing - onLine), { ...options, perLine, indent: lines.indent });
      added += `${array.given > 0 || onLine > 0 ? "," : ""}${lines.eol}${rows}`;
    }
  }
  const edits: TextEdit[] = [{ start: at, end: at, text: added }];
  if (span) edits.unshift({ ...span, text: String(layout.elements) });
  return { kind: "pad", title: `Add ${counted(missing, "element")} of 0`, edits, preferred: true };
}

/** Corrections of the annotation that make the array's length right: more or fewer frames, or another height. */
function resizes(bitmap: Bitmap, layout: Layout): (Fix | undefined)[] {
  return [resize(bitmap, layout, bitmap.array.count), reheight(bitmap, layout)];
}

/** Where one pixel to an element makes the length right to the last, that is what was meant: it comes first. */
function exactFirst(bitmap: Bitmap, change: Fix | undefined): (Fix | undefined)[] {
  const exact = each(bitmap);
  return exact ? [preferred(exact), change && { ...change, preferred: false }] : [change];
}

const EACH = "With one pixel to an element (`pack=each`) the length is right.";

/** What else the length would fit. */
function rest(bitmap: Bitmap, layout: Layout, count: number): string {
  if (each(bitmap)) return EACH;
  return wholeFrames(bitmap, layout, count);
}

function resize(bitmap: Bitmap, layout: Layout, count: number): Fix | undefined {
  const data = count - layout.skip;
  if (layout.frameElements === 0 || data <= 0 || data % layout.frameElements !== 0) return undefined;
  const frames = data / layout.frameElements;
  if (frames === bitmap.frames) return undefined;
  const edits = optionEdit(bitmap, "frames", `frames=${frames}`);
  return edits && { kind: "frames", title: `Change the annotation to ${counted(frames, "frame")}`, edits };
}

function reheight(bitmap: Bitmap, layout: Layout): Fix | undefined {
  const size = bitmap.words.get("size");
  const data = bitmap.array.count - layout.skip;
  if (
    !size ||
    layout.driver ||
    bitmap.frames > 1 ||
    layout.lineElements === 0 ||
    layout.lines !== layout.height ||
    data <= 0
  )
    return undefined;
  if (data % layout.lineElements !== 0 || layout.lead > 0) return undefined;
  const text = `${bitmap.width}x${data / layout.lineElements}`;
  return {
    kind: "size",
    title: `Change the annotation to ${text}`,
    edits: [{ start: size.start, end: size.end, text }],
  };
}

/** One pixel to an element, where that is what the length says. */
function each(bitmap: Bitmap): Fix | undefined {
  const { layout, array } = bitmap;
  if (!layout || layout.alone) return undefined;
  const alone = layOut({ ...layout, pack: "each" });
  if ("why" in alone || alone.elements !== array.count) return undefined;
  const edits = optionEdit(bitmap, "pack", "pack=each");
  return edits && { kind: "each", title: "Change the annotation to one pixel per element", edits };
}

/** Replaces an option's word in the annotation, or adds it after the last word. */
function optionEdit(bitmap: Bitmap, key: string, text: string): TextEdit[] | undefined {
  const { annotation, words } = bitmap;
  if (!annotation) return undefined;
  const word = words.get(key);
  if (word) return [{ start: word.start, end: word.end, text }];
  const last = annotation.words[annotation.words.length - 1];
  const at = last?.end ?? annotation.markerSpan.end;
  return [{ start: at, end: at, text: ` ${text}` }];
}
