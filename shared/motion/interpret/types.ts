/** The types of the C subset that is played, their sizes, and the conversions that C does by itself. */
import type { IntType, Target } from "../../source/types.ts";
import { WIDTHS } from "../../source/types.ts";

export interface FloatType {
  readonly kind: "float";
  readonly bits: 32 | 64;
}

interface PointerType {
  readonly kind: "pointer";
  readonly to: Type;
}

interface ArrayType {
  readonly kind: "array";
  readonly of: Type;
  readonly count: number;
}

interface Member {
  readonly name: string;
  readonly type: Type;
  /** In bytes from the start of the struct. */
  readonly offset: number;
}

export interface StructType {
  readonly kind: "struct";
  readonly name: string;
  readonly members: readonly Member[];
  readonly size: number;
  readonly align: number;
}

export type Type = IntType | FloatType | PointerType | ArrayType | StructType | { readonly kind: "void" };

export const VOID: Type = { kind: "void" };
export const TRUTH: IntType = { kind: "int", bits: 8, signed: false, truth: true };
export const FLOAT: FloatType = { kind: "float", bits: 32 };

export function int(target: Target): IntType {
  return { kind: "int", bits: WIDTHS[target].int, signed: true };
}

export function long(target: Target, signed = true): IntType {
  return { kind: "int", bits: WIDTHS[target].long, signed };
}

/** `double`: avr-gcc gives it 32 bits. */
export function double(target: Target): FloatType {
  return { kind: "float", bits: target === "avr" ? 32 : 64 };
}

/** Bytes of a type in memory. */
export function sizeOf(type: Type, target: Target): number {
  switch (type.kind) {
    case "int":
    case "float":
      return type.bits / 8;
    case "pointer":
      return WIDTHS[target].pointer / 8;
    case "array":
      return type.count * sizeOf(type.of, target);
    case "struct":
      return type.size;
    default:
      return 1;
  }
}

/** avr-gcc aligns nothing; the other data models align a scalar to its size. */
function alignOf(type: Type, target: Target): number {
  if (target === "avr") return 1;
  if (type.kind === "array") return alignOf(type.of, target);
  return type.kind === "struct" ? type.align : sizeOf(type, target);
}

export function structOf(
  name: string,
  members: readonly { readonly name: string; readonly type: Type }[],
  target: Target,
): StructType {
  let at = 0;
  let align = 1;
  const placed = members.map((member) => {
    const own = alignOf(member.type, target);
    align = Math.max(align, own);
    const offset = Math.ceil(at / own) * own;
    at = offset + sizeOf(member.type, target);
    return { ...member, offset };
  });
  return { kind: "struct", name, members: placed, size: Math.max(1, Math.ceil(at / align) * align), align };
}

/** Integer promotion (C17 6.3.1.1): narrower types become `int` where it holds all their values. */
export function promoted(type: IntType, target: Target): IntType {
  const { int: width } = WIDTHS[target];
  if (type.bits < width) return int(target);
  return type.truth ? { kind: "int", bits: type.bits, signed: type.signed } : type;
}

/** The type that both operands are brought to: the usual arithmetic conversions (C17 6.3.1.8). */
export function common(a: IntType | FloatType, b: IntType | FloatType, target: Target): IntType | FloatType {
  if (a.kind === "float") return b.kind === "float" && b.bits > a.bits ? b : a;
  if (b.kind === "float") return b;
  const x = promoted(a, target);
  const y = promoted(b, target);
  if (x.bits !== y.bits) return x.bits > y.bits ? x : y;
  return x.signed ? y : x;
}

/** Whether every value of `from` is one of `to`. */
export function holds(to: IntType, from: IntType): boolean {
  if (to.truth) return from.truth === true;
  const room = to.bits - (to.signed ? 1 : 0);
  const need = from.truth ? 1 : from.bits - (from.signed ? 1 : 0);
  return need <= room && (to.signed || !from.signed || from.truth === true);
}

export function same(a: Type, b: Type): boolean {
  if (a.kind === "int" && b.kind === "int") return a.bits === b.bits && a.signed === b.signed && a.truth === b.truth;
  if (a.kind === "float" && b.kind === "float") return a.bits === b.bits;
  if (a.kind === "pointer" && b.kind === "pointer") return same(a.to, b.to);
  if (a.kind === "array" && b.kind === "array") return a.count === b.count && same(a.of, b.of);
  return a === b || (a.kind === "void" && b.kind === "void");
}

/** A type in the words of C. */
export function named(type: Type): string {
  switch (type.kind) {
    case "int":
      return type.truth ? "bool" : `${type.signed ? "" : "u"}int${type.bits}_t`;
    case "float":
      return type.bits === 32 ? "float" : "double";
    case "pointer":
      return `${named(type.to)} *`;
    case "array":
      return `${named(type.of)}[${type.count}]`;
    case "struct":
      return `struct ${type.name}`;
    default:
      return "void";
  }
}
