/** Initialisers: what sets a variable to its first value. */
import type { SourceArray } from "../../source/arrays.ts";
import { storedBits } from "../../source/arrays.ts";
import type { Span } from "../../source/text.ts";
import type { Context, Home } from "./context.ts";
import { accept, elsewhere, expect, is, nested, peek, refuse, skipGroup, take } from "./context.ts";
import { constantNumber, fitted, OPEN } from "./declarations.ts";
import { assignment, decayed } from "./expressions.ts";
import type { Type } from "./types.ts";
import { sizeOf } from "./types.ts";
import { stored } from "./values.ts";

type Set = () => void;

/** Reads the initialiser at the cursor (behind the `=`, or its brace) and gives what stores it. */
export function initialiser(cx: Context, type: Type, home: Home): Set[] {
  const span = peek(cx);
  if (type.kind === "array" || type.kind === "struct") {
    if (home.kind !== "memory") return refuse("This is not played.", span);
    const at = home.address;
    if (peek(cx).kind === "list") return [numbers(cx, take(cx).array, type, at, span)];
    if (is(cx, "{")) {
      const { machine } = cx;
      const size = sizeOf(type, cx.target);
      const clear = () => void machine.bytes.fill(0, at(), at() + size);
      return [clear, ...braced(cx, type, at)];
    }
    if (type.kind === "array") refuse("An array is given its numbers in braces.", span);
  }
  const brace = accept(cx, "{");
  if (brace && accept(cx, "}")) return [];
  const value = fitted(decayed(assignment(cx)), type);
  if (brace) {
    accept(cx, ",");
    expect(cx, "}");
  }
  return [stored(cx, type, home, value.run, value.span)];
}

/** How many elements the initialiser at an index gives an array whose size is left open. */
export function countGiven(cx: Context, at: number, of: Type): number {
  return elsewhere(cx, at, cx.scopes, () => {
    const { array } = peek(cx);
    if (array) {
      let inner = 1;
      for (let type = of; type.kind === "array"; type = type.of) inner *= type.count;
      return Math.ceil(array.count / inner);
    }
    if (!is(cx, "{")) refuse("The size of this array is not known.", peek(cx));
    cx.at++;
    let count = 0;
    while (!is(cx, "}")) {
      if (is(cx, "["))
        refuse("Elements with an index of their own are only played in arrays of whole numbers.", peek(cx));
      count++;
      while (!is(cx, ",") && !is(cx, "}") && peek(cx).kind !== "end") {
        if (is(cx, "(") || is(cx, "[") || is(cx, "{")) skipGroup(cx);
        else cx.at++;
      }
      if (!accept(cx, ",")) break;
    }
    return Math.max(1, count);
  });
}

/** Numbers that have been read already, as the bytes that the compiler stores. */
function numbers(cx: Context, array: SourceArray | undefined, type: Type, at: () => number, span: Span): Set {
  const bits = array && storedBits(array);
  if (!bits || type.kind !== "array")
    return refuse(`The numbers of this array are not known${array?.readOnly ? `: ${array.readOnly}` : ""}.`, span);
  let element: Type = type;
  while (element.kind === "array") element = element.of;
  // A list of whole numbers may stand before an array of floats.
  if (element.kind !== "int" || element.bits !== array.type?.bits)
    return refuse("The numbers of this array are not known.", span);
  const bytes = new Uint8Array(bits.buffer, bits.byteOffset, bits.byteLength).subarray(0, sizeOf(type, cx.target));
  const { machine } = cx;
  return () => machine.bytes.set(bytes, at());
}

function braced(cx: Context, type: Type, at: () => number): Set[] {
  expect(cx, "{");
  const sets: Set[] = [];
  const slots = partsOf(cx, type);
  let i = 0;
  while (!accept(cx, "}")) {
    if (is(cx, "[") && type.kind === "array") {
      cx.at++;
      i = constantNumber(cx);
      expect(cx, "]");
      expect(cx, "=");
    } else if (is(cx, ".") && type.kind === "struct") {
      cx.at++;
      const name = take(cx);
      i = type.members.findIndex((m) => m.name === name.text);
      if (!accept(cx, "=") && !is(cx, "{")) refuse("`=` is expected here.", peek(cx));
    }
    const part = slots(i) ?? refuse("There are more values than this holds.", peek(cx));
    const { offset, type: own } = part;
    const home: Home = { kind: "memory", address: () => at() + offset, safe: true, fixed: false };
    const inner = own.kind === "array" || own.kind === "struct";
    if (inner && !is(cx, "{") && peek(cx).kind !== "list" && own.kind === "array")
      refuse("Lists inside of lists are played with braces of their own.", peek(cx));
    for (const set of nested(cx, () => initialiser(cx, own, home))) sets.push(set);
    i++;
    if (!accept(cx, ",")) {
      expect(cx, "}");
      break;
    }
  }
  return sets;
}

function partsOf(cx: Context, type: Type): (i: number) => { offset: number; type: Type } | undefined {
  if (type.kind === "struct") return (i) => type.members[i];
  if (type.kind !== "array") return () => undefined;
  const { of, count } = type;
  const size = sizeOf(of, cx.target);
  return (i) => (count === OPEN || i < count ? { offset: i * size, type: of } : undefined);
}
