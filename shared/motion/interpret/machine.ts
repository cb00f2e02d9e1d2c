/**
 * What a program runs on: memory for arrays, structs and all whose address is taken, slots for other variables, and a
 * budget of steps. Memory is little-endian, as it is on all three targets.
 */
import type { Span } from "../../source/text.ts";

export interface Machine {
  /** Values of variables that have no address: integers and addresses. */
  readonly slots: number[];
  /** Floats and unsigned 32-bit integers: an engine keeps an array of small integers by far better without them. */
  readonly reals: number[];
  /** Values of 64 bits. */
  readonly wide: bigint[];
  memory: DataView;
  bytes: Uint8Array;
  /** For each byte of memory what it is: 0 nothing, else `READ`, perhaps with `WRITE`, or `FLASH`. */
  access: Uint8Array;
  /** Addresses that are kept in memory on AVR, whose pointers are too narrow for ours: by where they are kept. */
  readonly far: Map<number, number>;
  /** Steps left in this frame. */
  left: number;
  /** What `return` gave. */
  result: number;
  wideResult: bigint;
  /** Milliseconds since the start. */
  now: number;
  /** Calls that are under way. */
  depth: number;
  random: number;
}

export const READ = 1;
export const WRITE = 2;
/** It lies in flash, which on AVR is an address space of its own: only `pgm_read_byte` and the like read it. */
export const FLASH = 4;

/** Bytes around every object that belong to nothing, at least; large objects get as many as they have themselves. */
const GAP = 64;
/** Memory of all arrays together: more than any display of ours has. */
const MOST_MEMORY = 1 << 25;
const MOST_DEPTH = 200;

export function newMachine(): Machine {
  return {
    slots: [],
    reals: [],
    wide: [],
    memory: new DataView(new ArrayBuffer(0)),
    bytes: new Uint8Array(0),
    access: new Uint8Array(0),
    far: new Map(),
    left: 0,
    result: 0,
    wideResult: 0n,
    now: 0,
    depth: 0,
    random: 1,
  };
}

/** The program can't go on, or can't be understood: what is wrong, and where. */
export class Stopped {
  readonly message: string;
  readonly span: Span;
  constructor(message: string, span: Span) {
    this.message = message;
    this.span = span;
  }
}

/** All steps of a frame are used up. The loop that has gone round most is to blame. */
export class Spent {
  rounds = 0;
  span: Span | undefined;
}

export function spend(machine: Machine, cost: number): void {
  machine.left -= cost;
  if (machine.left < 0) throw new Spent();
}

export function enter(machine: Machine, span: Span): void {
  if (++machine.depth > MOST_DEPTH) {
    machine.depth = 0;
    throw new Stopped(`The calls nest deeper than ${MOST_DEPTH}.`, span);
  }
}

/** An object in memory, before there is any. */
export interface Placed {
  readonly address: number;
  readonly size: number;
  readonly access: number;
  /** What it holds at the start; zeros behind it. */
  readonly bytes?: Uint8Array;
}

export interface Plan {
  readonly objects: Placed[];
  end: number;
}

export function newPlan(): Plan {
  return { objects: [], end: GAP };
}

/** Finds room for an object; undefined where all of memory is taken. */
export function place(plan: Plan, size: number, access: number, bytes?: Uint8Array): Placed | undefined {
  const gap = Math.max(GAP, Math.ceil(size / 16) * 16);
  const address = plan.end;
  if (address + size + gap > MOST_MEMORY) return undefined;
  plan.end = Math.ceil((address + size + gap) / 16) * 16;
  const placed = bytes ? { address, size, access, bytes } : { address, size, access };
  plan.objects.push(placed);
  return placed;
}

/** Makes the memory as it is at the start. */
export function load(machine: Machine, plan: Plan): void {
  const buffer = new ArrayBuffer(plan.end);
  machine.memory = new DataView(buffer);
  machine.bytes = new Uint8Array(buffer);
  machine.access = new Uint8Array(plan.end);
  machine.far.clear();
  for (const { address, size, access, bytes } of plan.objects) {
    machine.access.fill(access, address, address + size);
    if (bytes) machine.bytes.set(bytes.subarray(0, size), address);
  }
}
