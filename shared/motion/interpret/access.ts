/** What leads from one place in memory to another: indexes, members, addresses and what they point to. */
import type { Span } from "../../source/text.ts";
import type { Context, Expr, Home } from "./context.ts";
import { refuse } from "./context.ts";
import { decayed } from "./expressions.ts";
import { binary } from "./operators.ts";
import { sizeOf } from "./types.ts";
import { isWide, loaded, wide } from "./values.ts";

export function followed(cx: Context, e: Expr, span: Span): Expr {
  if (e.type.kind !== "pointer") return refuse("Only an address can be followed.", e.span);
  const { to } = e.type;
  if (to.kind === "void") refuse("It is not known what this address leads to.", e.span);
  const home: Home = { kind: "memory", address: e.run, safe: false, fixed: false };
  return { type: to, run: loaded(cx, to, home, span), cost: e.cost + 1, home, span };
}

export function addressOf({ home, type, cost }: Expr, span: Span): Expr {
  if (home?.kind !== "memory") refuse("The address of this is not to be had.", span);
  return { type: { kind: "pointer", to: type }, run: home.loose ?? home.address, cost: cost + 1, span };
}

export function member(cx: Context, whole: Expr, name: string, span: Span): Expr {
  if (whole.type.kind !== "struct" || whole.home?.kind !== "memory") return refuse("This has no members.", whole.span);
  const found = whole.type.members.find((m) => m.name === name) ?? refuse(`There is no member \`${name}\`.`, span);
  const { address: base, safe, fixed, flash } = whole.home;
  const { offset, type } = found;
  const home: Home = { kind: "memory", address: () => base() + offset, safe, fixed, flash };
  return { type, run: loaded(cx, type, home, span), cost: whole.cost + 1, home, span };
}

export function indexed(cx: Context, e: Expr, index: Expr, span: Span): Expr {
  if (e.type.kind === "int" && index.type.kind === "pointer") return indexed(cx, index, e, span);
  if (index.type.kind !== "int") refuse("An index is a whole number.", index.span);
  const cost = e.cost + index.cost + 1;
  const big = wide(index);
  const number = isWide(index.type) ? () => Number(big()) : index.run;
  if (e.type.kind !== "array" || e.home?.kind !== "memory") {
    const pointer = decayed(e);
    if (pointer.type.kind !== "pointer") return refuse("This is no array.", e.span);
    return followed(cx, binary(cx, "+", pointer, { ...index, home: undefined }, span), span);
  }
  const { of: type, count } = e.type;
  const size = sizeOf(type, cx.target);
  const { address: base, safe, fixed, flash } = e.home;
  const at = (): number => {
    const i = number();
    if (i >= 0 && i < count) return i;
    return refuse(`Here the index is ${i}; the array has ${count} elements, from 0 to ${count - 1}.`, span);
  };
  const address = size === 1 ? () => base() + at() : () => base() + at() * size;
  const home: Home = { kind: "memory", address, safe, fixed, flash, loose: () => base() + number() * size };
  return { type, run: loaded(cx, type, home, span), cost, home, span };
}
