/** Runs functions of a program: compiles them, sets all to its first values, and calls them with a budget of steps. */
import type { Span } from "../../source/text.ts";
import type { Compiled, Context, Home, Routine } from "./context.ts";
import { wrapped } from "./conversions.ts";
import { compile } from "./functions.ts";
import { load, Spent, Stopped } from "./machine.ts";
import { isWide } from "./values.ts";

/** A function that can be called. */
export interface Entry {
  readonly routine: Routine;
  readonly compiled: Compiled;
}

/**
 * Steps that a frame may take, which is longer than any controller has for one: a tenth of a second here for small
 * panels, half a second for the largest.
 */
export function frameSteps(pixels: number): number {
  return Math.min(40_000_000, 4_000_000 + 2000 * pixels);
}

/** Compiles a function and all that it calls. Throws `Stopped` where it can't be called at all. */
export function entryOf(cx: Context, routine: Routine): Entry {
  return { routine, compiled: compile(cx, routine, routine.span) };
}

/** Sets everything to what it holds at the start. */
export function restart(cx: Context): void {
  const { machine } = cx;
  load(machine, cx.plan);
  machine.slots.fill(0);
  machine.reals.fill(0);
  machine.wide.fill(0n);
  machine.depth = 0;
  machine.random = 1;
  machine.now = 0;
  machine.left = frameSteps(0);
  for (const compiled of cx.compiled) compiled.active = 0;
  for (const start of cx.starts) start();
}

/** What a call gives. Throws `Stopped` where the program can't go on, also where all steps are used up. */
export function call(cx: Context, { routine, compiled }: Entry, args: readonly (number | bigint)[]): number | bigint {
  const { machine } = cx;
  try {
    compiled.active = 1;
    for (const [i, value] of args.entries()) give(cx, compiled.homes[i], routine, i, value);
    compiled.run();
    compiled.active = 0;
  } catch (error) {
    if (error instanceof Spent) throw endless(error, routine.span);
    throw bounded(error, routine.span);
  }
  return isWide(routine.returns) ? machine.wideResult : machine.result;
}

/** Expressions of thousands of terms go deeper than the engine's stack; that is theirs to bear. */
export function bounded(error: unknown, span: Span): unknown {
  return error instanceof RangeError ? new Stopped("This nests too deep to be played.", span) : error;
}

function endless({ span }: Spent, otherwise: Span): Stopped {
  return new Stopped(
    span
      ? "This loop does not end within a frame: it is stopped after a budget of steps."
      : "A frame takes too many steps.",
    span ?? otherwise,
  );
}

/** Hands over an argument, brought to the parameter's type as a call in C would. */
function give(cx: Context, home: Home | undefined, routine: Routine, i: number, given: number | bigint): void {
  const type = routine.parameters[i]?.type;
  if (!home || !type) return;
  let value = given;
  if (type.kind === "int" && !isWide(type)) value = wrapped(Math.trunc(Number(value)), type);
  else if (type.kind === "int" && typeof value === "number") value = BigInt(Math.trunc(value));
  else if (type.kind === "float" && type.bits === 32) value = Math.fround(Number(value));
  if (home.kind === "slot") {
    if (isWide(type)) cx.machine.wide[home.index] = BigInt(value);
    else home.bank[home.index] = Number(value);
    return;
  }
  const at = home.address();
  const { memory } = cx.machine;
  if (type.kind === "float") {
    if (type.bits === 32) memory.setFloat32(at, Number(value), true);
    else memory.setFloat64(at, Number(value), true);
  } else if (type.kind === "int") {
    if (type.bits === 64) memory.setBigInt64(at, BigInt.asIntN(64, BigInt(value)), true);
    else if (type.bits === 32) memory.setInt32(at, Number(value), true);
    else if (type.bits === 16) memory.setInt16(at, Number(value), true);
    else memory.setInt8(at, Number(value));
  }
}
