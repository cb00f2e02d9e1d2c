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
  numberEnd,
  OTHER,
  prefixedEnd,
  quotedEnd,
  SPACE,
} from "./scan.ts";
import { readString } from "./strings.ts";
import type { Span } from "./text.ts";
import type { Target, Typed } from "./types.ts";

/** One pair of braces, or one string (adjacent literals are one), whose code units are its elements. Elements of lists inside it count as its elements too. */
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
  /** For a string: the width of its code units. */
  readonly quoted: 8 | 16 | 32 | undefined;
}

/** Where an item says it belongs, such as `[3] =`, `[2 ... 5] =` or `.rows =` (C17 6.7.9; ranges are GNU's). */
export interface Designator {
  /** The list that the item stands in. */
  readonly parent: number;
  /** The item's first element, and its list if it is one (else -1). */
  readonly element: number;
  readonly child: number;
  /** From outside in; undefined where they can't be known. A range is written out as that many elements. */
  readonly steps: readonly (number | string)[] | undefined;
  readonly why: string;
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
  readonly designators: readonly Designator[];
  /** Why no element may be written, though the values are known. */
  readonly fixed: string | undefined;
  /** Only literals: the values depend on nothing but this text. */
  readonly pure: boolean;
  /** Why the list as a whole cannot be trusted: not closed, or a condition inside that is not known. */
  readonly broken: string | undefined;
  readonly closed: boolean;
  /** Comments inside that may hold an annotation. */
  readonly comments: readonly Span[];
}

/** What names mean at the end of the file, for spelling a value by name. */
export interface Meaning {
  evaluate(expression: string): Typed | Unknown;
  /** Whether a macro means the same wherever it is used. */
  settled(name: string): boolean;
}

/** What a preprocessor line inside a list does. */
interface Directive {
  readonly next: number;
  /** Why what follows is not known. */
  readonly why?: string;
  /** Elements that an included file brings, as text, and its name. */
  readonly items?: { readonly text: string; readonly name: string };
}

export interface ListReader {
  readonly target: Target;
  /** The text holds the bytes of a file that is not UTF-8, one to a character. */
  readonly bytes: boolean;
  /** How many characters may still be read a second time in this file. */
  readonly rereads: { left: number };
  /** Whether an `@` stands in this range of the text. */
  mayAnnotate(start: number, end: number): boolean;
  evaluate(expression: string): Typed | Unknown;
  /** Values of an item that may make several elements, where a macro in it holds commas. */
  evaluateItem(expression: string): readonly (Typed | Unknown)[];
  readonly meaning: Meaning;
  /** Handles the preprocessor line at an absolute offset; returns where to go on, and why what follows is not known. */
  directive(at: number): Directive;
}

const NONE: ReadonlyMap<number, never> = new Map<number, never>();

/** Elements that one range designator may make. */
const MOST_REPEATED = 1 << 16;

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
      c = text.charCodeAt(i);
      const next = text.charCodeAt(i + 1);
      // Most art is written with two digits.
      if (text.charCodeAt(i + 2) === 44 && (c | next) < 256 && ((HEX[c] as number) | (HEX[next] as number)) >= 0) {
        value = ((HEX[c] as number) << 4) | (HEX[next] as number);
        i += 2;
        c = 44;
      } else {
        for (; c < 256; c = text.charCodeAt(++i)) {
          const digit = HEX[c] as number;
          if (digit < 0) break;
          value = value * 16 + digit;
        }
        plain = i > first && i - first <= 12;
      }
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

/**
 * Reads the initialiser whose opening brace stands at `base`, or the string from there to `quotedTo`. Never throws, and
 * always ends.
 */
export function readInitialiser(text: string, base: number, reader: ListReader, quotedTo = 0): Initialiser {
  const nodes: ListNode[] = [];
  // Most lists have none of these: made when the first one comes.
  let unreadable: Map<number, string> | undefined;
  let wide: Map<number, bigint> | undefined;
  const comments: Span[] = [];
  const designators: Designator[] = [];
  let fixed: string | undefined;
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
    newNode(at, -1, lead, undefined);
    current = nodes.length - 1;
    at++;
  };

  const newNode = (from: number, close: number, lead: Span | undefined, quoted: ListNode["quoted"]): ListNode => {
    const node: ListNode = {
      open: from - base,
      close,
      parent: current,
      firstElement: count,
      endElement: count,
      numbers: 0,
      strings: 0,
      lists: 0,
      lastEnd: from + 1 - base,
      trailingComma: false,
      lead,
      quoted,
    };
    nodes.push(node);
    return node;
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

  /** The next element is not known. */
  const because = (why: string): void => {
    unreadable ??= new Map();
    unreadable.set(count, why);
  };

  /** The next element is one that a double does not hold. */
  const exactly = (value: bigint): void => {
    wide ??= new Map();
    wide.set(count, value);
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
        if (line.items) pushIncluded(at, line);
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
    let designator: Span | undefined;
    resume = -1;
    for (;;) {
      const c = skip();
      if (Number.isNaN(c) || c === 59) return false;
      if (nesting === 0 && (c === 44 || c === 125)) break;
      if (c === 123 && nesting === 0) {
        node.lists++;
        if (designator) designate(designator, nodes.length, 0);
        open(end > valueStart ? { start: valueStart - base, end: end - base } : undefined);
        return true;
      }
      if (c === 40 || c === 91 || c === 123) nesting++;
      else if (c === 41 || c === 93 || c === 125) {
        if (nesting === 0) return false;
        nesting--;
      }
      if (c === 61 && nesting === 0 && text.charCodeAt(at + 1) !== 61 && !/[=!<>]/.test(text[at - 1] ?? "")) {
        const first = text.charCodeAt(start);
        if ((first !== 46 && first !== 91) || valueStart !== start) return false;
        designator = { start, end };
        at++;
        skip();
        valueStart = at;
        resume = at;
        end = at;
        string = false;
        other = false;
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
        const word = kind === 2 ? identEnd(text, at) : numberEnd(text, at);
        at = prefixedEnd(text, from, word);
        if (at > word) string = true;
        else other = true;
      }
      end = at;
    }
    if (string && !other) {
      node.strings++;
      if (designator) designate(designator, nodes.length, 0);
      pushString(valueStart, end);
    } else {
      node.numbers++;
      const times = designator ? designate(designator, -1, 1) : 1;
      const first = count;
      pushExpression(valueStart, end);
      for (let i = 1; i < times; i++) repeat(first);
    }
    itemDone(node, end);
    return true;
  };

  /** A string is a list of its code units. Offsets are those of the text. */
  const pushString = (start: number, end: number): ListNode => {
    const {
      bits,
      starts: from,
      ends: to,
      values: units,
      problem,
    } = readString(text, start, end, reader.target, reader.bytes);
    const node = newNode(start, end - 1 - base, undefined, bits);
    for (let i = 0; i < units.length; i++) push(from[i] as number, to[i] as number, units[i] as number);
    if (problem) {
      because(problem.why);
      push(problem.at, problem.end, 0);
    }
    node.endElement = count;
    node.numbers = count - node.firstElement;
    node.lastEnd = end - 1 - base;
    return node;
  };

  const pushExpression = (start: number, end: number): void => {
    const source = text.slice(start, end);
    const literal = literalValue(source, reader.target) ?? characterValue(source, reader.target);
    if (literal) pushValue(start, end, literal);
    else {
      pure = false;
      if (source === "") pushValue(start, end, { why: "an element is missing here" });
      else for (const value of reader.evaluateItem(source)) pushValue(start, end, value);
    }
  };

  const pushValue = (start: number, end: number, known: Typed | Unknown): void => {
    if ("why" in known) {
      because(known.why);
      push(start, end, 0);
    } else {
      const value = Number(known.value);
      const exact = Number.isSafeInteger(value);
      if (!exact) exactly(known.value);
      push(start, end, exact ? value : 0);
    }
  };

  /** One more element of the same text and value as `first`. */
  const repeat = (first: number): void => {
    const why = unreadable?.get(first);
    const exact = wide?.get(first);
    if (why !== undefined) because(why);
    if (exact !== undefined) exactly(exact);
    const start = base + (starts[first] as number);
    push(start, start + (lengths[first] as number), values[first] as number);
  };

  /** The elements that an `#include` inside the list brings all stand for that line. */
  const pushIncluded = (start: number, line: Directive): void => {
    const { text: items, name } = line.items as { text: string; name: string };
    const node = nodes[current];
    if (!node) return;
    fixed ??= `its elements stand in \`${name}\``;
    // Reading the other text takes the scratch space, so what was read so far is set aside.
    const kept = { starts: starts.slice(0, count), lengths: lengths.slice(0, count), values: values.slice(0, count) };
    const [keptCount, keptValueBits, keptLengthBits] = [count, valueBits, lengthBits];
    const list = readInitialiser(`{${items}\n}`, 0, {
      ...reader,
      mayAnnotate: () => false,
      directive: (at) => ({ next: at + 1, why: `\`${name}\` holds preprocessor lines` }),
    });
    starts.set(kept.starts);
    lengths.set(kept.lengths);
    values.set(kept.values);
    count = keptCount;
    valueBits = keptValueBits;
    lengthBits = keptLengthBits;
    if (list.broken || list.nodes.length > 1 || list.designators.length > 0)
      broken ??= list.broken ?? `\`${name}\` holds lists or designators`;
    for (let i = 0; i < list.values.length; i++) {
      const why = list.unreadable.get(i);
      const exact = list.wide.get(i);
      if (why !== undefined) because(why);
      if (exact !== undefined) exactly(exact);
      push(start, line.next, list.values[i] as number);
    }
    node.numbers += list.values.length;
    node.trailingComma = true;
    itemDone(node, line.next);
  };

  /** Notes where the next item belongs; returns how many elements a range makes of a scalar. */
  const designate = (span: Span, child: number, most: number): number => {
    const steps: (number | string)[] = [];
    let times = 1;
    let why = "";
    const index = (source: string): number => {
      const plain = literalValue(source, reader.target) ?? characterValue(source, reader.target);
      if (!plain) pure = false;
      const known = plain ?? reader.evaluate(source);
      if ("why" in known) why ||= known.why;
      else if (known.value < 0n || known.value > 0xffffffn) why ||= "an index is out of range";
      return "why" in known ? 0 : Number(known.value);
    };
    let source = text.slice(span.start, span.end);
    while (source !== "" && why === "") {
      const member = /^\.\s*([A-Za-z_]\w*)\s*/.exec(source);
      const square = /^\[([^[\]]*)\]\s*/.exec(source);
      const whole = member?.[0] ?? square?.[0];
      if (whole === undefined || times > 1) why = "its designators are not understood";
      else {
        const [from = "", to] = (square?.[1] ?? "").split("...");
        const first = member ? 0 : index(from.trim());
        steps.push(member?.[1] ?? first);
        if (to !== undefined) {
          times = index(to.trim()) - first + 1;
          if (most === 0 && times !== 1) why ||= "a list is given to a range of elements";
          else if (times < 1 || times > MOST_REPEATED) why ||= "a range of elements is out of order or too long";
        }
        source = source.slice(whole.length);
      }
    }
    designators.push({ parent: current, element: count, child, steps: why === "" ? steps : undefined, why });
    return why === "" ? times : 1;
  };

  /** The fast path leaves the end of the last item to this: it is that of the last element or of the last list. */
  const closeElements = (node: ListNode): void => {
    node.endElement = count;
    if (count > node.firstElement)
      node.lastEnd = Math.max(node.lastEnd, (starts[count - 1] as number) + (lengths[count - 1] as number));
  };

  if (quotedTo > 0) {
    const node = pushString(base, quotedTo);
    at = quotedTo;
    node.close = quotedTo - 1 - base;
  } else open(undefined);
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
      const list = current;
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
      if (current !== list) continue;
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
  const made: Initialiser = {
    length: at - base,
    nodes,
    starts: ownStarts,
    lengths: ownLengths,
    values: large.length === 0 ? ownValues : widened(ownValues, large),
    wide: wide ?? NONE,
    unreadable: unreadable ?? NONE,
    // What follows a string might go on with it, so a string is read anew.
    pure: pure && closed && quotedTo === 0,
    designators,
    fixed,
    broken,
    closed,
    comments,
  };
  if (!pure) meanings.set(made, reader.meaning);
  return made;
}

/** Beside the lists, which are plain data. */
const meanings = new WeakMap<Initialiser, Meaning>();

/** What the names in a list mean; undefined for one that has none. */
export function meaningOf(list: Initialiser): Meaning | undefined {
  return meanings.get(list);
}

function widened(values: Uint8Array | Int32Array, large: readonly [number, number][]): Float64Array {
  const out = Float64Array.from(values);
  for (const [index, value] of large) out[index] = value;
  return out;
}
