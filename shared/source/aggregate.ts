/**
 * Where the compiler puts each written element of a (multi-dimensional) array: inner braces, brace elision, strings,
 * designators and zero-fill (C17 6.7.9 paragraphs 14–23; C++17 [dcl.init.aggr], [dcl.init.string]).
 */
import type { Designator, Initialiser, ListNode } from "./initialiser.ts";

/** A run of elements that the compiler fills with zero because nothing is written for them. */
export interface Gap {
  /** Flat indices, `to` exclusive. */
  readonly from: number;
  readonly to: number;
  /** The list that ends early, so that its end is where they would be written; -1 where there is no such place. */
  readonly node: number;
}

export interface Arrangement {
  /** Elements that the compiler stores. */
  readonly count: number;
  /**
   * Flat index of each written element, `NOWHERE` for one too many or overridden; undefined when element i stands at
   * index i.
   */
  readonly slots: Uint32Array | undefined;
  readonly gaps: readonly Gap[];
  /** Written elements for which there is no room. */
  readonly excess: number;
  readonly problem: string | undefined;
}

const NOWHERE = 0xffffffff;
const MOST_LEVELS = 16;

/**
 * Arranges the elements of a list in an array of the given sizes (outermost first; undefined for `[]`, which takes
 * its size from the list).
 */
export function arrange(list: Initialiser, root: number, sizes: readonly (number | undefined)[]): Arrangement {
  const top = list.nodes[root] as ListNode;
  const given = top.endElement - top.firstElement;
  if (sizes.slice(1).some((s) => s === undefined || s < 1)) return failed(given, "an inner dimension has no size");
  // span[k] is the number of elements of a sub-aggregate at level k; the scalar level has 1.
  const span = new Array<number>(sizes.length + 1).fill(1);
  for (let k = sizes.length - 1; k >= 0; k--)
    span[k] = (sizes[k] ?? Number.POSITIVE_INFINITY) * (span[k + 1] as number);
  const row = span[1] ?? 1;
  const designators = list.designators.length === 0 ? NONE : within(list, top);
  if (top.lists === 0 && top.strings === 0 && designators.size === 0) {
    const reached = given + (top.quoted ? 1 : 0);
    const count = sizes[0] === undefined ? Math.ceil(reached / row) * row : (span[0] as number);
    const gaps = given < count ? [{ from: given, to: count, node: root }] : [];
    const problem = top.quoted && sizes.length > 1 ? "a string is given to an array of arrays" : undefined;
    return { count, slots: undefined, gaps, excess: Math.max(0, given - count), problem };
  }
  const children = childLists(list, root);
  const slots = new Uint32Array(given).fill(NOWHERE);
  const gaps: Gap[] = [];
  let excess = 0;
  let problem: string | undefined;
  /** Which element has a flat index, where a later one may take it over. */
  const owner = designators.size > 0 ? new Map<number, number>() : undefined;
  const reached = place(root, 0, 0, 0);
  const count = sizes[0] === undefined ? Math.ceil(reached / row) * row : (span[0] as number);
  if (sizes[0] === undefined && reached < count) gaps.push({ from: reached, to: count, node: root });
  if (problem) return failed(given, problem);
  const identity = excess === 0 && slots.every((slot, i) => slot === i);
  return { count, slots: identity ? undefined : slots, gaps: valid(gaps), excess, problem };

  /** In order, and without those of lists that later items have overridden. */
  function valid(found: Gap[]): Gap[] {
    const kept: Gap[] = [];
    for (const gap of owner ? found.reverse() : found) {
      let free = !owner || !kept.some((other) => other.from < gap.to && gap.from < other.to);
      // The declared size may be any number, and those written are few.
      if (owner && free && gap.to - gap.from > owner.size)
        for (const slot of owner.keys()) free &&= slot < gap.from || slot >= gap.to;
      else for (let slot = gap.from; owner && free && slot < gap.to; slot++) free = !owner.has(slot);
      if (free) kept.push(gap);
    }
    return kept.sort((a, b) => a.from - b.from);
  }

  /** Places the items of one list into the sub-aggregate at `base`; returns how many elements it covers. */
  function place(index: number, level: number, base: number, depth: number): number {
    const node = list.nodes[index] as ListNode;
    const size = span[level] as number;
    if (depth > MOST_LEVELS) {
      problem = "the braces nest too deep";
      return 0;
    }
    const own = designators.get(index) ?? [];
    const covered: [number, number][] = [];
    let next = 0;
    let position = 0;
    let furthest = 0;
    let element = node.firstElement;
    /** Goes to where a designator says; false where that is not known. */
    const jump = (d: Designator): boolean => {
      let to = 0;
      d.steps?.forEach((step, k) => {
        const inner = span[level + 1 + k];
        if (typeof step === "string" || inner === undefined) problem ??= "a designator does not fit its array";
        else if (sizes[level + k] !== undefined && step >= (sizes[level + k] as number))
          problem ??= "a designator lies outside its array";
        else to += step * inner;
      });
      if (!d.steps) problem ??= d.why;
      position = to;
      return problem === undefined;
    };
    const cover = (width: number) => {
      if (own.length > 0) covered.push([position, position + width]);
      position += width;
      furthest = Math.max(furthest, position);
    };
    const scalars = (until: number) => {
      for (; element < until; element++) {
        const d = own[next];
        if (d && d.child < 0 && d.element === element) {
          next++;
          if (!jump(d)) return;
        }
        if (position >= size) excess++;
        else {
          take(base + position, element - top.firstElement);
          cover(1);
        }
      }
    };
    for (const child of children.get(index) ?? []) {
      const inside = list.nodes[child] as ListNode;
      scalars(inside.firstElement);
      element = inside.endElement;
      const d = own[next];
      let sub = level + 1;
      const designated = d !== undefined && d.child === child;
      if (designated) {
        next++;
        if (!jump(d)) return 0;
        sub = level + (d.steps?.length ?? 1);
      }
      if (inside.quoted) {
        // A string in braces of its own fills the array that the braces are for.
        const whole = level === sizes.length - 1 && (children.get(index) ?? []).length === 1 && node.numbers === 0;
        if (whole && !designated) return string(child, base, size);
        sub = Math.max(sub, sizes.length - 1);
        if (sub >= sizes.length || position % (span[sub] as number) !== 0) {
          problem = "a string stands where a number belongs";
          return 0;
        }
        if (position >= size) excess += Math.max(1, inside.endElement - inside.firstElement);
        else {
          clear(base + position, span[sub] as number);
          string(child, base + position, span[sub] as number);
          cover(span[sub] as number);
        }
        continue;
      }
      if (position >= size) {
        excess += Math.max(1, inside.endElement - inside.firstElement);
        continue;
      }
      if (sub > sizes.length || (sub === sizes.length && !bracedScalar(inside))) {
        problem = "there are more braces than dimensions";
        return 0;
      }
      if (!designated) while (position % (span[sub] as number) !== 0) sub++;
      clear(base + position, span[sub] as number);
      place(child, sub, base + position, depth + 1);
      cover(span[sub] as number);
    }
    scalars(node.endElement);
    const end = Number.isFinite(size) ? size : furthest;
    if (own.length === 0) {
      if (position < end) gaps.push({ from: base + position, to: base + end, node: index });
    } else leftOut(covered, end, base, position === furthest ? index : -1);
    return furthest;
  }

  function take(slot: number, element: number): void {
    if (owner) {
      release(slot);
      owner.set(slot, element);
    }
    slots[element] = slot;
  }

  /** What is given anew loses all that was given before (C17 6.7.9 paragraph 19). */
  function clear(from: number, size: number): void {
    for (let slot = from; owner && slot < from + size; slot++) release(slot);
  }

  function release(slot: number): void {
    const before = owner?.get(slot);
    if (before === undefined) return;
    slots[before] = NOWHERE;
    owner?.delete(slot);
  }

  /** Puts a string into a row of `size` elements; its NUL only where there is room. Returns what it covers. */
  function string(index: number, base: number, size: number): number {
    const { firstElement, endElement } = list.nodes[index] as ListNode;
    const length = endElement - firstElement;
    for (let i = 0; i < length; i++) {
      if (i >= size) excess++;
      else take(base + i, firstElement + i - top.firstElement);
    }
    const end = Number.isFinite(size) ? size : length + 1;
    if (length < end) gaps.push({ from: base + length, to: base + end, node: index });
    return end;
  }

  /** The runs that designators leave out; only those after the last item have a place to be written at. */
  function leftOut(covered: [number, number][], end: number, base: number, last: number): void {
    covered.sort((a, b) => a[0] - b[0]);
    let at = 0;
    for (const [from, to] of covered) {
      if (from > at) gaps.push({ from: base + at, to: base + from, node: -1 });
      at = Math.max(at, to);
    }
    if (at < end) gaps.push({ from: base + at, to: base + end, node: last });
  }
}

const NONE: ReadonlyMap<number, Designator[]> = new Map();

/** The designators inside a list, by the list that they stand in. */
function within(list: Initialiser, top: ListNode): Map<number, Designator[]> {
  const found = new Map<number, Designator[]>();
  for (const d of list.designators) {
    const { open } = list.nodes[d.parent] as ListNode;
    if (open < top.open || open > top.close) continue;
    const siblings = found.get(d.parent);
    if (siblings) siblings.push(d);
    else found.set(d.parent, [d]);
  }
  return found;
}

/** `{5}` or `{}` where one number belongs. */
function bracedScalar(node: ListNode): boolean {
  return node.lists === 0 && node.strings === 0 && node.endElement - node.firstElement <= 1;
}

function failed(given: number, problem: string): Arrangement {
  return { count: given, slots: undefined, gaps: [], excess: 0, problem };
}

/** The lists and strings directly inside each list at or below `root`, in order. */
export function childLists(list: Initialiser, root: number): Map<number, number[]> {
  const children = new Map<number, number[]>();
  const close = (list.nodes[root] as ListNode).close;
  for (let i = root + 1; i < list.nodes.length; i++) {
    const node = list.nodes[i] as ListNode;
    if (node.open > close) break;
    const siblings = children.get(node.parent);
    if (siblings) siblings.push(i);
    else children.set(node.parent, [i]);
  }
  return children;
}
