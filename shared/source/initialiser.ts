/**
 * Reads one braced initialiser: its lists, its elements, their places and values. Plain integer literals take a fast
 * path; anything else is handed to the expression evaluator. Offsets are relative to the opening brace, so that an
 * initialiser that did not change is shared between versions of a document.
 */
import { characterValue, literalValue } from "./literals.ts";
import type { Unknown } from "./names.ts";
import {
  classOf,
  commentEnd,
  HEX,
  identEnd,
  isComment,
  isRawPrefix,
  numberEnd,
  OTHER,
  quotedEnd,
  rawStringEnd,
  SPACE,
} from "./scan.ts";
import type { Span } from "./text.ts";
import type { Target, Typed } from "./types.ts";

/** One pair of braces. Elements of lists inside it count as its elements too. */
export interface ListNode {
  readonly open: number;
  /** Offset of the closing brace; of the place where reading gave up for a list that is not closed. */
  close: number;
  readonly parent: number;
  readonly firstElement: number;
  endElement: number;
  /** Direct items by kind: expressions, strings and lists. */
  numbers: number;
  strings: number;
  lists: number;
  /** End of the last direct item, or of the opening brace. */
  lastEnd: number;
  trailingComma: boolean;
  /** Text before the brace inside the item, such as a cast or a designator. */
  readonly lead: Span | undefined;
  designated: boolean;
}

export interface Initialiser {
  /** Length of the text from the opening brace to after the closing one. */
  readonly length: number;
  readonly nodes: readonly ListNode[];
  readonly starts: Uint32Array;
  /** Characters of each element's text. */
  readonly lengths: Uint8Array | Uint32Array;
  /** Values as written, not yet stored in an element type; 0 for unreadable elements and for those in `wide`. */
  readonly values: Uint8Array | Int32Array | Float64Array;
  /** Exact values of elements that a double cannot hold. */
  readonly wide: ReadonlyMap<number, bigint>;
  /** Why an element's value is not known. */
  readonly unreadable: ReadonlyMap<number, string>;
  /** Only literals: the values depend on nothing but this text. */
  readonly pure: boolean;
  /** Why the list as a whole cannot be trusted: not closed, or a condition inside that is not known. */
  readonly broken: string | undefined;
  readonly closed: boolean;
  /** Comments inside that may hold an annotation. */
  readonly comments: readonly Span[];
}

export interface ListReader {
  readonly target: Target;
  /** How many characters may still be read a second time in this file. */
  readonly rereads: { left: number };
  /** Whether an `@` stands in this range of the text. */
  mayAnnotate(start: number, end: number): boolean;
  evaluate(expression: string): Typed | Unknown;
  /** Handles the preprocessor line at an absolute offset; returns where to go on, and why what follows is not known. */
  directive(at: number): { readonly next: number; readonly why?: string };
}

// Scratch space for the elements of the list being read; reading is not re-entrant.
let starts = new Uint32Array(4096);
let lengths = new Uint32Array(4096);
let values = new Int32Array(4096);
let count = 0;
/** All values, and all lengths, or-ed together: they tell how few bytes hold each. */
let valueBits = 0;
let lengthBits = 0;

function grow(): void {
  const size = starts.length * 2;
  const copy = <T extends Uint32Array | Int32Array>(from: T, to: T): T => {
    to.set(from);
    return to;
  };
  starts = copy(starts, new Uint32Array(size));
  lengths = copy(lengths, new Uint32Array(size));
  values = copy(values, new Int32Array(size));
}

/**
 * The fast path: reads as many items as are plain decimal, hexadecimal or binary literals with a comma after them.
 * Returns the offset of the first thing that is not one (white space before it skipped).
 */
function readPlain(text: string, at: number, base: number): number {
  let n = count;
  let i = at;
  let allValues = 0;
  let allLengths = 0;
  for (;;) {
    let c = text.charCodeAt(i);
    while (c === 32 || c === 10 || c === 13 || c === 9) c = text.charCodeAt(++i);
    if (!(c >= 48 && c <= 57)) break;
    const start = i;
    let value = c - 48;
    let plain = true;
    c = text.charCodeAt(++i);
    if (value !== 0) {
      for (; c >= 48 && c <= 57; c = text.charCodeAt(++i)) value = value * 10 + c - 48;
      plain = i - start <= 15;
    } else if ((c | 32) === 120) {
      const first = ++i;
      for (c = text.charCodeAt(i); c < 256; c = text.charCodeAt(++i)) {
        const digit = HEX[c] as number;
        if (digit < 0) break;
        value = value * 16 + digit;
      }
      plain = i > first && i - first <= 12;
    } else if ((c | 32) === 98) {
      const first = ++i;
      for (c = text.charCodeAt(i); c === 48 || c === 49; c = text.charCodeAt(++i)) value = value * 2 + c - 48;
      plain = i > first && i - first <= 48;
    } else if (c >= 48 && c <= 57) plain = false;
    const end = i;
    while (c === 32) c = text.charCodeAt(++i);
    if (!plain || c !== 44 || value > 0x7fffffff) {
      i = start;
      break;
    }
    if (n === starts.length) grow();
    starts[n] = start - base;
    lengths[n] = end - start;
    values[n] = value;
    allValues |= value;
    allLengths |= end - start;
    n++;
    i++;
  }
  count = n;
  valueBits |= allValues;
  lengthBits |= allLengths;
  return i;
}

/** Reads the initialiser whose opening brace stands at `base`. Never throws, and always ends. */
export function readInitialiser(text: string, base: number, reader: ListReader): Initialiser {
  const nodes: ListNode[] = [];
  const unreadable = new Map<number, string>();
  const wide = new Map<number, bigint>();
  const comments: Span[] = [];
  count = 0;
  valueBits = 0;
  lengthBits = 0;
  /** Where to go on if the item being read turns out not to be one: after a designator, else at its start. */
  let resume = -1;
  /** Elements whose value 32 bits do not hold, with that value. */
  const large: [number, number][] = [];
  let pure = true;
  let broken: string | undefined;
  let at = base;
  let current = -1;

  const open = (lead: Span | undefined): void => {
    const node: ListNode = {
      open: at - base,
      close: -1,
      parent: current,
      firstElement: count,
      endElement: count,
      numbers: 0,
      strings: 0,
      lists: 0,
      lastEnd: at + 1 - base,
      trailingComma: false,
      lead,
      designated: false,
    };
    current = nodes.push(node) - 1;
    at++;
  };

  const push = (start: number, end: number, value: number): void => {
    if (count === starts.length) grow();
    starts[count] = start - base;
    lengths[count] = end - start;
    values[count] = value;
    valueBits |= value;
    lengthBits |= end - start;
    if (value !== values[count]) large.push([count, value]);
    count++;
  };

  /** Ends a direct item of the current list. */
  const itemDone = (node: ListNode, end: number): void => {
    node.lastEnd = end - base;
    node.trailingComma = false;
  };

  /** Skips white space, comments and preprocessor lines; returns the first character code that is none of them. */
  const skip = (): number => {
    for (;;) {
      const c = text.charCodeAt(at);
      if (classOf(c) === SPACE) at++;
      else if (c === 47 && isComment(text, at)) {
        const end = commentEnd(text, at);
        if (reader.mayAnnotate(at, end)) comments.push({ start: at - base, end: end - base });
        at = end;
      } else if (c === 92 && (text.charCodeAt(at + 1) === 10 || text.charCodeAt(at + 1) === 13)) at += 2;
      else if (c === 35) {
        const line = reader.directive(at);
        pure = false;
        if (line.why) broken ??= line.why;
        at = line.next;
      } else return c;
    }
  };

  /** Reads an item that is not a plain literal; false where the list breaks off. */
  const readItem = (node: ListNode): boolean => {
    const start = at;
    let end = at;
    let nesting = 0;
    let string = false;
    let other = false;
    let valueStart = start;
    resume = -1;
    for (;;) {
      const c = skip();
      if (Number.isNaN(c) || c === 59) return false;
      if (nesting === 0 && (c === 44 || c === 125)) break;
      if (c === 123 && nesting === 0) {
        node.lists++;
        if (valueStart !== start) node.designated = true;
        open({ start: start - base, end: end - base });
        return true;
      }
      if (c === 40 || c === 91 || c === 123) nesting++;
      else if (c === 41 || c === 93 || c === 125) {
        if (nesting === 0) return false;
        nesting--;
      }
      if (c === 61 && nesting === 0 && text.charCodeAt(at + 1) !== 61 && !/[=!<>]/.test(text[at - 1] ?? "")) {
        const designator = text.charCodeAt(start);
        if ((designator !== 46 && designator !== 91) || valueStart !== start) return false;
        at++;
        skip();
        valueStart = at;
        resume = at;
        node.designated = true;
        continue;
      }
      const kind = classOf(c);
      if (c === 34 || c === 39) {
        string = string || c === 34;
        other = other || c === 39;
        at = quotedEnd(text, at);
      } else if (kind === OTHER) {
        other = true;
        at = c === 61 && text.charCodeAt(at + 1) === 61 ? at + 2 : at + 1;
      } else {
        const from = at;
        at = kind === 2 ? identEnd(text, at) : numberEnd(text, at);
        const raw = text.charCodeAt(at) === 34 && isRawPrefix(text.slice(from, at));
        if (raw) {
          at = rawStringEnd(text, at);
          string = true;
        } else other = other || text.charCodeAt(at) !== 34;
      }
      end = at;
    }
    if (string && !other) {
      node.strings++;
      unreadable.set(count, "a string is not a number");
      push(start, end, 0);
      pure = false;
    } else {
      node.numbers++;
      pushExpression(valueStart, end);
    }
    itemDone(node, end);
    return true;
  };

  const pushExpression = (start: number, end: number): void => {
    const source = text.slice(start, end);
    const literal = literalValue(source, reader.target) ?? characterValue(source, reader.target);
    if (!literal) pure = false;
    const known = literal ?? (source === "" ? { why: "an element is missing here" } : reader.evaluate(source));
    if ("why" in known) {
      unreadable.set(count, known.why);
      push(start, end, 0);
    } else {
      const value = Number(known.value);
      const exact = Number.isSafeInteger(value);
      if (!exact) wide.set(count, known.value);
      push(start, end, exact ? value : 0);
    }
  };

  /** The fast path leaves the end of the last item to this: it is that of the last element or of the last list. */
  const closeElements = (node: ListNode): void => {
    node.endElement = count;
    if (count > node.firstElement)
      node.lastEnd = Math.max(node.lastEnd, (starts[count - 1] as number) + (lengths[count - 1] as number));
  };

  open(undefined);
  reading: while (current >= 0) {
    const node = nodes[current] as ListNode;
    const before = count;
    at = readPlain(text, at, base);
    if (count > before) {
      node.numbers += count - before;
      node.trailingComma = true;
    }
    const from = at;
    let c = skip();
    // After a comment the fast path goes on.
    if (at > from && c >= 48 && c <= 57) continue;
    if (c === 125) {
      node.close = at - base;
      closeElements(node);
      at++;
      current = node.parent;
      if (current < 0) break;
      itemDone(nodes[current] as ListNode, at);
    } else if (c === 123) {
      node.lists++;
      open(undefined);
      continue;
    } else if (Number.isNaN(c) || c === 59) break;
    else {
      const start = at;
      const opened = nodes.length;
      if (!readItem(node)) {
        // What broke the list off (often the next declaration) is read again on its own.
        // The budget keeps hostile text from being read over and over.
        const again = Math.max(start, base + 1, resume);
        if (at < text.length && text.charCodeAt(at) !== 59 && reader.rereads.left > at - again) {
          reader.rereads.left -= at - again;
          at = again;
        }
        break;
      }
      if (nodes.length > opened) continue;
    }
    // After an item: a comma, or the end of the list.
    for (;;) {
      const here = nodes[current] as ListNode;
      c = skip();
      if (c === 44) {
        here.trailingComma = true;
        at++;
        break;
      }
      if (c === 125) break;
      if (Number.isNaN(c) || c === 59 || c === 123 || c === 61) break reading;
      // A list followed by something else, such as `{1, 2}.size()`: not ours to read.
      broken ??= "something stands after a list that is not a comma";
      at = classOf(c) >= 2 ? numberEnd(text, at) : c === 34 || c === 39 ? quotedEnd(text, at) : at + 1;
    }
  }

  const closed = current < 0;
  if (!closed) {
    for (let i = current; i >= 0; i = (nodes[i] as ListNode).parent) {
      const node = nodes[i] as ListNode;
      node.close = at - base;
      closeElements(node);
    }
    broken = "the list is not closed";
  }
  // One block of memory holds all three, which is cheaper to make than three; most values and lengths fit in a byte.
  const lengthSize = lengthBits >>> 8 === 0 ? 1 : 4;
  const valueSize = valueBits >>> 8 === 0 ? 1 : 4;
  const memory = new ArrayBuffer(count * (4 + lengthSize + valueSize) + 8);
  const ownStarts = new Uint32Array(memory, 0, count);
  ownStarts.set(starts.subarray(0, count));
  const wideFirst = valueSize === 4 ? 4 * count : 4 * count + (lengthSize === 4 ? 4 * count : 0);
  const ownValues =
    valueSize === 4 ? new Int32Array(memory, wideFirst, count) : new Uint8Array(memory, wideFirst, count);
  ownValues.set(values.subarray(0, count));
  const lengthAt = valueSize === 4 ? 8 * count : lengthSize === 4 ? 4 * count : 5 * count;
  const ownLengths =
    lengthSize === 4 ? new Uint32Array(memory, lengthAt, count) : new Uint8Array(memory, lengthAt, count);
  ownLengths.set(lengths.subarray(0, count));
  return {
    length: at - base,
    nodes,
    starts: ownStarts,
    lengths: ownLengths,
    values: large.length === 0 ? ownValues : widened(ownValues, large),
    wide,
    unreadable,
    pure: pure && closed,
    broken,
    closed,
    comments,
  };
}

function widened(values: Uint8Array | Int32Array, large: readonly [number, number][]): Float64Array {
  const out = Float64Array.from(values);
  for (const [index, value] of large) out[index] = value;
  return out;
}
