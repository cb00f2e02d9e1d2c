/**
 * The arrays inside the initialiser of a struct or of a table of structs: items go to members in order or by
 * designator, and a member without braces of its own takes as many items as it has room for (C17 6.7.9 paragraphs 17–20).
 */
import { childLists } from "./aggregate.ts";
import type { Designator, Initialiser, ListNode } from "./initialiser.ts";
import type { CType } from "./types.ts";

/** An array of numbers inside an initialiser. */
export interface Member {
  /** Way from the variable, such as `[2].rows`. */
  readonly path: string;
  readonly type: CType & { kind: "array" };
  /** Its list; for one without braces the list that its elements stand in. */
  readonly node: number;
  /** Its elements in the list, where it has no braces of its own. */
  readonly range: { readonly from: number; readonly to: number } | undefined;
}

type Item = { readonly kind: "list" | "string"; readonly node: number } | { readonly kind: "scalar" };

/** The items of one list, taken one after the other. */
interface Cursor {
  readonly node: number;
  readonly children: readonly number[];
  readonly designators: readonly Designator[];
  element: number;
  child: number;
  designator: number;
  /** Items can no longer be told apart: an expression may stand for a whole struct. */
  lost: boolean;
}

const MOST_DEPTH = 16;

/** Finds the arrays of numbers at or below the list `root`, which initialises a thing of the type. */
export function membersOf(list: Initialiser, root: number, type: CType): Member[] {
  const out: Member[] = [];
  const children = list.nodes.length > 1 ? childLists(list, root) : new Map<number, number[]>();
  fill(type, "", root, 0);
  return out;

  function cursorOf(node: number): Cursor {
    return {
      node,
      children: children.get(node) ?? [],
      designators: list.designators.filter((d) => d.parent === node),
      element: (list.nodes[node] as ListNode).firstElement,
      child: 0,
      designator: 0,
      lost: false,
    };
  }

  function peek(c: Cursor): Item | undefined {
    const child = c.children[c.child];
    const node = child === undefined ? undefined : (list.nodes[child] as ListNode);
    if (child !== undefined && node && node.firstElement <= c.element)
      return { kind: node.quoted ? "string" : "list", node: child };
    return c.element < (list.nodes[c.node] as ListNode).endElement ? { kind: "scalar" } : undefined;
  }

  function advance(c: Cursor, item: Item): void {
    if (item.kind === "scalar") c.element++;
    else {
      c.element = (list.nodes[item.node] as ListNode).endElement;
      c.child++;
    }
  }

  /** The designator of the next item, taken. */
  function designatorAt(c: Cursor, item: Item): Designator | undefined {
    const d = c.designators[c.designator];
    if (!d || (item.kind === "scalar" ? d.child >= 0 || d.element !== c.element : d.child !== item.node))
      return undefined;
    c.designator++;
    return d;
  }

  /** The list `node` initialises a thing of the type. */
  function fill(type: CType, path: string, node: number, depth: number): void {
    if (depth > MOST_DEPTH) return;
    if (isNumbers(type)) {
      out.push({ path, type, node, range: undefined });
      return;
    }
    if (type.kind === "int" || type.kind === "other") return;
    const c = cursorOf(node);
    let index = 0;
    for (let item = peek(c); item && !c.lost; item = peek(c)) {
      const d = designatorAt(c, item);
      if (d) {
        const [step, ...further] = d.steps ?? [];
        if (step === undefined || further.length > 0) return;
        index = type.kind === "struct" ? type.members.findIndex((m) => m.name === step) : Number(step);
      }
      const to = partOf(type, index);
      if (!to) return;
      if (!takes(() => consume(to.type, path + to.path, c, depth + 1, true), c)) return;
      index++;
    }
  }

  /** Gives the next items to a thing of the type; false once the list is used up. */
  function consume(type: CType, path: string, c: Cursor, depth: number, direct: boolean): boolean {
    const item = peek(c);
    if (!item || c.lost || depth > MOST_DEPTH) return false;
    // An item that says itself where it belongs ends what has no braces.
    if (!direct && c.designators[c.designator]?.element === c.element) return false;
    if (item.kind === "list") {
      const { lead } = list.nodes[item.node] as ListNode;
      if (!lead) fill(type, path, item.node, depth);
      advance(c, item);
      return true;
    }
    if (item.kind === "string") {
      if (type.kind === "array" && type.of.kind === "int") {
        out.push({ path, type, node: item.node, range: undefined });
        advance(c, item);
        return true;
      }
      if (type.kind === "int" || type.kind === "other") {
        advance(c, item);
        return true;
      }
    } else if (type.kind === "int" || type.kind === "other") {
      advance(c, item);
      return true;
    } else if (isNumbers(type)) {
      elided(type, path, c);
      return true;
    } else if (list.unreadable.has(c.element)) {
      c.lost = true;
      return false;
    }
    for (let index = 0; ; index++) {
      const to = partOf(type, index);
      if (!to || !takes(() => consume(to.type, path + to.path, c, depth + 1, index === 0 && direct), c)) return true;
    }
  }

  /** A thing without members takes nothing: any number of them would, so the items can't be told apart any more. */
  function takes(consumed: () => boolean, c: Cursor): boolean {
    const { element, child } = c;
    const more = consumed();
    if (more && c.element === element && c.child === child) c.lost = true;
    return more && !c.lost;
  }

  /** An array of numbers without braces takes the numbers that follow. */
  function elided(type: CType & { kind: "array" }, path: string, c: Cursor): void {
    const room = sizeOf(type);
    if (room === undefined) {
      c.lost = true;
      return;
    }
    const { firstElement, endElement } = list.nodes[c.node] as ListNode;
    const from = c.element;
    // The braces of `std::array` may be those of the array itself.
    if (path === "" && from === firstElement && c.children.length === 0) {
      c.element = endElement;
      out.push({ path, type, node: c.node, range: undefined });
      return;
    }
    const until = list.nodes[c.children[c.child] ?? -1]?.firstElement ?? endElement;
    const marked = c.designators.slice(c.designator).find((d) => d.element > from)?.element ?? until;
    const to = Math.min(from + room, until, marked);
    c.element = to;
    // Braces in the middle of it would begin a row; such a list is not taken apart.
    if (to - from < room && to < endElement && to === until) c.lost = true;
    else out.push({ path, type, node: c.node, range: { from, to } });
  }
}

function partOf(type: CType, index: number): { type: CType; path: string } | undefined {
  if (type.kind === "array") {
    if (type.count !== undefined && index >= type.count) return undefined;
    return { type: type.of, path: `[${index}]` };
  }
  const member = type.kind === "struct" ? type.members[index] : undefined;
  return member && { type: member.type, path: member.name === "" ? "" : `.${member.name}` };
}

function isNumbers(type: CType): type is CType & { kind: "array" } {
  return type.kind === "array" && (type.of.kind === "int" || isNumbers(type.of));
}

/** Numbers that an array of known sizes holds. */
function sizeOf(type: CType): number | undefined {
  if (type.kind !== "array") return 1;
  const inner = sizeOf(type.of);
  return type.count === undefined || inner === undefined ? undefined : type.count * inner;
}
