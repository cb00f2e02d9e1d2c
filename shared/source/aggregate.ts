/**
 * Where the compiler puts each written element of a (multi-dimensional) array: inner braces, brace elision and
 * zero-fill (C17 6.7.9 paragraphs 17–22; C++17 [dcl.init.aggr]).
 */
import type { Initialiser, ListNode } from "./initialiser.ts";

/** A run of elements that the compiler fills with zero because a list ends early. */
export interface Gap {
  /** Flat indices, `to` exclusive. */
  readonly from: number;
  readonly to: number;
  /** The list that ends early. */
  readonly node: number;
}

export interface Arrangement {
  /** Elements that the compiler stores. */
  readonly count: number;
  /** Flat index of each written element, `NOWHERE` for one too many; undefined when element i stands at index i. */
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
  const inner = sizes.slice(1);
  if (inner.some((s) => s === undefined || s < 1)) return failed(given, "an inner dimension has no size");
  // span[k] is the number of elements of a sub-aggregate at level k; the scalar level has 1.
  const span = new Array<number>(sizes.length + 1).fill(1);
  for (let k = sizes.length - 1; k >= 0; k--)
    span[k] = (sizes[k] ?? Number.POSITIVE_INFINITY) * (span[k + 1] as number);
  const row = span[1] ?? 1;
  if (top.lists === 0) {
    const count = sizes[0] === undefined ? Math.ceil(given / row) * row : (span[0] as number);
    const gaps = given < count ? [{ from: given, to: count, node: root }] : [];
    return { count, slots: undefined, gaps, excess: Math.max(0, given - count), problem: undefined };
  }
  const children = childLists(list, root);
  const slots = new Uint32Array(given).fill(NOWHERE);
  const gaps: Gap[] = [];
  let excess = 0;
  let problem: string | undefined;
  const reached = place(root, 0, 0, 0);
  const count = sizes[0] === undefined ? Math.ceil(reached / row) * row : (span[0] as number);
  if (sizes[0] === undefined && reached < count) gaps.push({ from: reached, to: count, node: root });
  if (problem) return failed(given, problem);
  const identity = excess === 0 && slots.every((slot, i) => slot === i);
  return { count, slots: identity ? undefined : slots, gaps, excess, problem };

  /** Places the items of one list into the sub-aggregate at `base`; returns how many elements it covers. */
  function place(index: number, level: number, base: number, depth: number): number {
    const node = list.nodes[index] as ListNode;
    const size = span[level] as number;
    if (depth > MOST_LEVELS) {
      problem = "the braces nest too deep";
      return 0;
    }
    let position = 0;
    let element = node.firstElement;
    const scalars = (until: number) => {
      for (; element < until; element++) {
        if (position >= size) excess++;
        else slots[element - top.firstElement] = base + position++;
      }
    };
    for (const child of children.get(index) ?? []) {
      const inside = list.nodes[child] as ListNode;
      scalars(inside.firstElement);
      element = inside.endElement;
      if (position >= size) {
        excess += Math.max(1, inside.endElement - inside.firstElement);
        continue;
      }
      if (level >= sizes.length) {
        problem = "there are more braces than dimensions";
        return 0;
      }
      let sub = level + 1;
      while (position % (span[sub] as number) !== 0) sub++;
      place(child, sub, base + position, depth + 1);
      position += span[sub] as number;
    }
    scalars(node.endElement);
    if (Number.isFinite(size) && position < size) gaps.push({ from: base + position, to: base + size, node: index });
    return position;
  }
}

function failed(given: number, problem: string): Arrangement {
  return { count: given, slots: undefined, gaps: [], excess: 0, problem };
}

/** The lists directly inside each list at or below `root`, in order. */
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
