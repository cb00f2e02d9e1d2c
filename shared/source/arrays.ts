/** Arrays of numbers: which lists of an initialiser they are, and which annotations speak of them. */
import type { Arrangement, Gap } from "./aggregate.ts";
import { arrange, childLists } from "./aggregate.ts";
import type { Annotation } from "./annotationSyntax.ts";
import type { Declarator, Dimension } from "./declarations.ts";
import type { Initialiser, ListNode } from "./initialiser.ts";
import { membersOf } from "./members.ts";
import { lineEnd } from "./scan.ts";
import type { Span } from "./text.ts";
import type { CType, IntType } from "./types.ts";
import { stored, storedNumber } from "./types.ts";

/** An array of integers in the source. Element offsets are relative to `base` (see `Initialiser`). */
export interface SourceArray {
  /** Name of the variable; for a list inside it with the way there, such as `icons[2].data`. */
  readonly name: string;
  readonly nameSpan: Span;
  /** This array is number `ordinal` of the `siblings` that have its name in the file. */
  ordinal: number;
  siblings: number;
  /** From the first word of the statement to the end of the initialiser. */
  readonly declaration: Span;
  readonly base: number;
  /** Index of the array's list in `list.nodes`; without braces of its own, of the list that its elements stand in. */
  readonly node: number;
  /** Index of its first written element in `list`. */
  readonly first: number;
  /** It has no braces of its own. */
  readonly elided: boolean;
  /** undefined for an initialiser that is not a list. */
  readonly list: Initialiser | undefined;
  /** undefined when the element type is not known. */
  readonly type: IntType | undefined;
  readonly dimensions: readonly Dimension[];
  /** Elements that the compiler stores. */
  readonly count: number;
  /** Elements that are written. */
  readonly given: number;
  readonly slots: Arrangement["slots"];
  readonly gaps: readonly Gap[];
  readonly excess: number;
  /** Why values cannot be known or written; undefined for an array whose values are known. */
  readonly readOnly: string | undefined;
  /** Why none of its elements can be written, though their values are known. */
  readonly fixed?: string | undefined;
  /** It is a table of pointers. */
  readonly pointers?: true | undefined;
  /** For a table of pointers whose entries have been followed: the arrays that hold its elements, in order. */
  readonly parts?: readonly SourceArray[] | undefined;
  /** A string gives its values, and ends with a NUL that is not written. */
  readonly nul?: true | undefined;
  /** Where the reason stands, relative to `base`. */
  readonly readOnlySpan?: Span | undefined;
}

/** More elements than any display has; an array of them is not laid out. */
const MOST_ELEMENTS = 1 << 26;

/** The arrays of integers in an initialiser, as far as the declared type tells. */
export function collectArrays(
  placed: { base: number; list: Initialiser },
  declarator: Declarator | undefined,
  start: number,
): SourceArray[] {
  if (!declarator) return [];
  const { list } = placed;
  const { nameSpan, name, type, dimensions } = declarator;
  const scalar = elementOf(type);
  if (type.kind === "array" && scalar.kind !== "struct") {
    const whole = { placed, node: 0, name, nameSpan, start, type, dimensions: [...dimensions, ...standardSizes(type)] };
    if (scalar.kind === "int") return [makeArray(whole)];
    const children = list.nodes.length > 1 ? childLists(list, 0) : new Map<number, number[]>();
    return qualifies(list, children, 0, false) && !scalar.pointer ? [makeArray(whole)] : [];
  }
  return membersOf(list, 0, type).map((member) => {
    const own = member.type.span;
    return makeArray({
      placed,
      node: member.node,
      name: name + member.path,
      nameSpan,
      start,
      type: member.type,
      dimensions: own ? [{ span: own, size: member.type.count }] : [],
      range: member.range,
    });
  });
}

function elementOf(type: CType): Exclude<CType, { kind: "array" }> {
  return type.kind === "array" ? elementOf(type.of) : type;
}

function sizesOf(type: CType): (number | undefined)[] {
  return type.kind === "array" ? [type.count, ...sizesOf(type.of)] : [];
}

/** The sizes of a `std::array` of others, outermost first. */
function standardSizes(type: CType): Dimension[] {
  if (type.kind !== "array") return [];
  return [...(type.span ? [{ span: type.span, size: type.count }] : []), ...standardSizes(type.of)];
}

const shelled = (type: CType): boolean => type.kind === "array" && (type.shell === true || shelled(type.of));

/** Where braces stand for shells, the end of a list says no more which elements are missing there. */
const placeless = (arrangement: Arrangement): Arrangement => ({
  ...arrangement,
  gaps: arrangement.gaps.map((gap) => ({ ...gap, node: -1 })),
});

function makeArray(a: {
  placed: { base: number; list: Initialiser };
  node: number;
  name: string;
  nameSpan: Span;
  start: number;
  type: CType;
  dimensions: readonly Dimension[];
  range?: { readonly from: number; readonly to: number } | undefined;
}): SourceArray {
  const { list, base } = a.placed;
  const node = list.nodes[a.node] as ListNode;
  const { from: first, to: end } = a.range ?? { from: node.firstElement, to: node.endElement };
  const element = elementOf(a.type);
  const type = element.kind === "int" ? element : undefined;
  const sizes = sizesOf(a.type);
  const arrangement = a.range
    ? inOrder(end - first, sizes, end === node.endElement ? a.node : -1)
    : shelled(a.type)
      ? placeless(arrange(list, a.node, sizes))
      : arrange(list, a.node, sizes.length > 0 ? sizes : [undefined]);
  const given = end - first;
  let readOnly: string | undefined;
  let readOnlySpan: Span | undefined;
  const because = (why: string, span?: Span) => {
    if (readOnly !== undefined) return;
    readOnly = why;
    readOnlySpan = span;
  };
  if (element.kind !== "int") because(element.kind === "other" ? element.why : "its elements are structs");
  if (list.broken) because(list.broken);
  const unknownSize = a.dimensions.find((d) => d.why !== undefined);
  if (unknownSize) because(`its size is not known: ${unknownSize.why}`);
  if (arrangement.problem) because(arrangement.problem);
  if (arrangement.count > MOST_ELEMENTS) because(`it has ${arrangement.count} elements, too many to lay out`);
  let string = node.quoted !== undefined;
  if (list.nodes.length > 1 && !a.range) {
    for (let i = a.node; i < list.nodes.length && (list.nodes[i] as ListNode).open < node.close; i++) {
      const inner = list.nodes[i] as ListNode;
      if (inner.lead && i !== a.node) because("it has lists with a type or a call before them");
      if (inner.quoted) string = true;
      if (inner.quoted && type && inner.quoted !== type.bits)
        because(`a string of ${inner.quoted}-bit characters is given to elements of ${type.bits} bits`);
    }
  } else if (node.quoted && type && node.quoted !== type.bits)
    because(`a string of ${node.quoted}-bit characters is given to elements of ${type.bits} bits`);
  if (string && type?.truth) because("a string is given to truth values");
  for (const [index, why] of list.unreadable) {
    if (index < first || index >= end) continue;
    because(why, { start: list.starts[index] as number, end: endOf(list, index) });
    break;
  }
  const nul = string && arrangement.count === given + 1 && arrangement.gaps.length === 1;
  return {
    name: a.name,
    nameSpan: a.nameSpan,
    ordinal: 0,
    siblings: 1,
    declaration: { start: a.start, end: base + list.length },
    base,
    node: a.node,
    first,
    elided: a.range !== undefined,
    list,
    type,
    dimensions: a.dimensions,
    count: arrangement.count,
    given,
    slots: arrangement.slots,
    gaps: arrangement.gaps,
    excess: arrangement.excess,
    readOnly,
    readOnlySpan,
    fixed: list.fixed,
    pointers: element.kind === "other" && element.pointer ? true : undefined,
    nul: nul ? true : undefined,
  };
}

/** Elements without braces of their own stand in order. `node`: the list at whose end more could be written. */
function inOrder(given: number, sizes: readonly (number | undefined)[], node: number): Arrangement {
  const count = sizes.reduce<number>((product, size) => product * (size ?? 0), 1);
  const gaps = given < count ? [{ from: given, to: count, node }] : [];
  return { count, slots: undefined, gaps, excess: 0, problem: undefined };
}

/** Whether a list holds only numbers, or only lists that do (`declared`: an array of integers mixes both freely). */
function qualifies(list: Initialiser, children: Map<number, number[]>, index: number, declared: boolean): boolean {
  const stack = [index];
  for (let next = stack.pop(); next !== undefined; next = stack.pop()) {
    const node = list.nodes[next] as ListNode;
    // A string that is the whole initialiser is a list; one among numbers is a key or a name.
    if (node.strings > 0 || (node.quoted && next !== 0)) return declared;
    if (node.lists > 0 && node.numbers > 0 && !declared) return false;
    for (const child of children.get(next) ?? []) stack.push(child);
  }
  return true;
}

/**
 * Binds annotations to lists: one that stands before the initialiser to its first list of numbers, one inside a list
 * to the first such list after it in that list, else to the list itself; at the end of a line with an opening brace,
 * to that brace. Lists that are bound but were not found by type join the arrays, without a known type.
 */
export function bindAnnotations(
  text: string,
  placed: { base: number; list: Initialiser },
  found: readonly SourceArray[],
  annotations: readonly Annotation[],
  declarator: Declarator | undefined,
  start: number,
): { readonly arrays: SourceArray[]; readonly bindings: number[][] } {
  const arrays = [...found];
  if (annotations.length === 0) return { arrays, bindings: [] };
  const { base, list } = placed;
  const children = childLists(list, 0);
  const good = (node: number) =>
    qualifies(
      list,
      children,
      node,
      arrays.some((a) => a.node === node && !a.elided && a.type !== undefined),
    );
  const isString = (node: number) => list.nodes[node]?.quoted !== undefined;
  const isOpen = (node: ListNode, at: number) => node.open < at && at < node.close;
  const bindings = annotations.map((annotation) => {
    const at = annotation.comment.start - base;
    let around = -1;
    // Lists come in the order of their opening braces, so the last one open is the innermost.
    for (let i = 0; at > 0 && i < list.nodes.length; i++) {
      if (isOpen(list.nodes[i] as ListNode, at) && !isString(i)) around = i;
    }
    const node = around < 0 ? undefined : (list.nodes[around] as ListNode);
    const ownLine =
      node !== undefined &&
      lineEnd(text, base + node.open) > annotation.comment.start &&
      /^\s*$/.test(text.slice(annotation.comment.end, lineEnd(text, annotation.comment.end)));
    if (annotation.words.some((w) => w.text === "entries")) {
      const table = Math.max(0, around);
      if (table === 0 && found.some((a) => a.node !== 0 || a.elided)) return entriesByType(at);
      const entries = (children.get(table) ?? []).filter((c) => (list.nodes[c] as ListNode).open > at);
      return entries
        .map((c) => firstGood(c, -1))
        .filter((n) => n >= 0)
        .map(arrayAt);
    }
    if (node === undefined) {
      const member = found.findIndex((a) => (a.node !== 0 || a.elided) && !isString(a.node));
      if (member >= 0) return [member];
      const first = firstGood(0, -1);
      return first < 0 ? [] : [arrayAt(first)];
    }
    if (ownLine && good(around)) return [arrayAt(around)];
    const inside = (children.get(around) ?? []).map((c) => firstGood(c, at)).find((n) => n >= 0);
    if (inside !== undefined) return [arrayAt(inside)];
    const elided = found.findIndex((a) => a.elided && a.node === around && (list.starts[a.first] ?? 0) > at);
    if (elided >= 0) return [elided];
    return good(around) ? [arrayAt(around)] : [];
  });
  return { arrays, bindings };

  /** The array of each entry of a table of structs: its first list of numbers, else its first string. */
  function entriesByType(at: number): number[] {
    const chosen = new Map<string, number>();
    found.forEach((array, i) => {
      if ((list.starts[array.first] ?? Number.POSITIVE_INFINITY) < at) return;
      const entry = /^[^.[]*(\[\d+\])/.exec(array.name)?.[1] ?? "";
      const before = chosen.get(entry);
      const better = before !== undefined && isString(found[before]?.node ?? 0) && !isString(array.node);
      if (before === undefined || better) chosen.set(entry, i);
    });
    return [...chosen.values()];
  }

  /**
   * First list at or below `node` that opens after `after` and holds only numbers, else the first such string that is
   * an array; -1 if there is none.
   */
  function firstGood(node: number, after: number): number {
    const { close } = list.nodes[node] as ListNode;
    let string = -1;
    for (let i = node; i < list.nodes.length && (list.nodes[i] as ListNode).open <= close; i++) {
      if ((list.nodes[i] as ListNode).open <= after || !good(i)) continue;
      if (!isString(i)) return i;
      if (string < 0) string = i;
    }
    return string;
  }

  function rowAt(node: number): SourceArray | undefined {
    const row = rowInside(list, found, node);
    if (!row) return undefined;
    const { outer, type, dimensions, path } = row;
    return makeArray({ placed, node, name: outer.name + path, nameSpan: outer.nameSpan, start, type, dimensions });
  }

  function arrayAt(node: number): number {
    const index = arrays.findIndex((a) => a.node === node && !a.elided);
    if (index >= 0) return index;
    const row = rowAt(node);
    if (row) return arrays.push(row) - 1;
    const why = node === 0 && declarator ? whyOf(declarator.type) : "the type of this list is not known from this file";
    const pointed = node === 0 && declarator ? elementOf(declarator.type) : undefined;
    const pointer = pointed?.kind === "other" && pointed.pointer ? { pointer: pointed.pointer } : {};
    const type: CType = { kind: "array", of: { kind: "other", why, ...pointer }, count: undefined };
    const name = declarator?.name ?? "";
    const nameSpan = declarator?.nameSpan ?? { start: base, end: base + 1 };
    return arrays.push(makeArray({ placed, node, name, nameSpan, start, type, dimensions: [] })) - 1;
  }
}

/** The list of a row inside an array whose type is known, as an array of its own. */
function rowInside(
  list: Initialiser,
  found: readonly SourceArray[],
  node: number,
): { outer: SourceArray; type: CType; dimensions: readonly Dimension[]; path: string } | undefined {
  let depth = 0;
  for (let i = node; i >= 0; i = (list.nodes[i] as ListNode).parent, depth++) {
    const outer = found.find((a) => a.node === i && !a.elided && a.type !== undefined);
    if (!outer?.type) continue;
    const dimensions = outer.dimensions.slice(depth);
    if (depth === 0 || dimensions.length === 0 || dimensions.some((d) => d.size === undefined)) return undefined;
    const sizes = dimensions.map((d) => d.size as number);
    let type: CType = outer.type;
    for (const size of [...sizes].reverse()) type = { kind: "array", of: type, count: size };
    const { firstElement, endElement } = list.nodes[node] as ListNode;
    const first = firstElement - (list.nodes[i] as ListNode).firstElement;
    // A list without elements of its own is where its gap is, not where the next element goes.
    const gap = firstElement === endElement ? outer.gaps.find((g) => g.node === node) : undefined;
    const slot = gap?.from ?? (outer.slots ? (outer.slots[first] ?? 0) : first);
    const indices: number[] = [];
    for (let k = depth; k > 0; k--) {
      const inner = outer.dimensions.slice(k).reduce((product, d) => product * (d.size as number), 1);
      const size = outer.dimensions[k - 1]?.size ?? Number.POSITIVE_INFINITY;
      indices.unshift(Math.floor(slot / inner) % size);
    }
    return { outer, type, dimensions, path: indices.map((n) => `[${n}]`).join("") };
  }
  return undefined;
}

function whyOf(type: CType): string {
  const element = elementOf(type);
  return element.kind === "other" ? element.why : "it is not an array of numbers";
}

/**
 * The element values as unsigned bit patterns, zero-filled as the compiler does, in the order of memory.
 * undefined for arrays whose values are not known. Cost: one pass over the written elements.
 */
export function storedBits(array: SourceArray): Uint8Array | Uint16Array | Uint32Array | BigUint64Array | undefined {
  const { type, list, count } = array;
  if (!type || !list || array.readOnly !== undefined) return undefined;
  const { slots, first } = array;
  if (type.bits === 64) {
    const out = new BigUint64Array(count);
    for (let i = 0; i < array.given; i++) {
      const slot = slots ? (slots[i] as number) : i;
      if (slot >= count) continue;
      const value = list.wide.get(first + i) ?? BigInt(list.values[first + i] as number);
      out[slot] = BigInt.asUintN(64, stored(value, type));
    }
    return out;
  }
  const out =
    type.bits === 8 ? new Uint8Array(count) : type.bits === 16 ? new Uint16Array(count) : new Uint32Array(count);
  if (!slots && !type.truth && list.wide.size === 0 && !(list.values instanceof Float64Array)) {
    const fitting = Math.min(array.given, count);
    const source = list.values.subarray(first, first + fitting);
    out.set(source);
    return out;
  }
  for (let i = 0; i < array.given; i++) {
    const slot = slots ? (slots[i] as number) : i;
    if (slot >= count) continue;
    const wide = list.wide.get(first + i);
    out[slot] = wide === undefined ? storedNumber(list.values[first + i] as number, type) : Number(stored(wide, type));
  }
  return out;
}

/** The element values as the compiler stores them, with their sign; 64-bit ones as decimal strings. */
export function storedValues(array: SourceArray): (number | string)[] | undefined {
  const bits = storedBits(array);
  const { type } = array;
  if (!bits || !type) return undefined;
  if (bits instanceof BigUint64Array) {
    return Array.from(bits, (b) => (type.signed ? BigInt.asIntN(64, b) : b).toString());
  }
  const shift = 32 - type.bits;
  return Array.from(bits, (b) => (type.signed ? (b << shift) >> shift : b));
}

function endOf(list: Initialiser, at: number): number {
  return (list.starts[at] as number) + (list.lengths[at] as number);
}

/** Span of a written element in the text. `index` counts the written elements of this array. */
export function elementSpan(array: SourceArray, index: number): Span {
  const list = array.list as Initialiser;
  const at = array.first + index;
  return { start: array.base + (list.starts[at] as number), end: array.base + endOf(list, at) };
}

/** Index of the written element at an offset of the text (its token or the space up to the next), or -1. */
export function elementAtOffset(array: SourceArray, offset: number): number {
  const { list } = array;
  if (!list) return -1;
  if (array.parts) {
    let before = 0;
    for (const part of array.parts) {
      const found = elementAtOffset(part, offset);
      if (found >= 0) return before + found;
      before += part.given;
    }
    return -1;
  }
  const at = offset - array.base;
  let low = array.first;
  let high = array.first + array.given - 1;
  while (low <= high) {
    const middle = (low + high) >> 1;
    if (at < (list.starts[middle] as number)) high = middle - 1;
    else if (at > endOf(list, middle)) low = middle + 1;
    else return middle - array.first;
  }
  return -1;
}

/** Flat index that the compiler gives a written element; -1 for one too many. */
export function slotOf(array: SourceArray, index: number): number {
  const slot = array.slots ? (array.slots[index] as number) : index;
  return slot < array.count ? slot : -1;
}

/** Index of the written element that fills a flat index; -1 where the compiler fills with zero. */
export function elementOfSlot(array: SourceArray, slot: number): number {
  const { slots } = array;
  if (!slots) return slot < array.given ? slot : -1;
  let inverse = inverses.get(slots);
  if (!inverse) {
    inverse = new Int32Array(array.count).fill(-1);
    // Elements one too many, or overridden, lie outside and are dropped.
    for (let i = 0; i < slots.length; i++) if ((slots[i] as number) < array.count) inverse[slots[i] as number] = i;
    inverses.set(slots, inverse);
  }
  return inverse[slot] ?? -1;
}

const inverses = new WeakMap<Uint32Array, Int32Array>();

/** Whether an element has no text of its own: several come from one macro, range or `#include`. */
export function sharesText(array: SourceArray, index: number): boolean {
  const list = array.list as Initialiser;
  const at = array.first + index;
  const start = list.starts[at];
  return start !== undefined && (list.starts[at - 1] === start || list.starts[at + 1] === start);
}

/** Value of a written element as written (before it is stored in the element type). */
export function elementValue(array: SourceArray, index: number): bigint {
  const list = array.list as Initialiser;
  const at = array.first + index;
  return list.wide.get(at) ?? BigInt(list.values[at] as number);
}
