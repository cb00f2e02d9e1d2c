/** Functions of the file: their bodies, compiled when they are first called, and calls. */
import { nearest } from "../../pixels/words.ts";
import type { Span } from "../../source/text.ts";
import type { Compiled, Context, Expr, Home, Meaning, Routine, Run, Within } from "./context.ts";
import { accept, elsewhere, expect, refuse, skipGroup } from "./context.ts";
import { fitted } from "./declarations.ts";
import { assignment, decayed } from "./expressions.ts";
import { libraryCall, libraryNames } from "./library.ts";
import { enter, READ, spend } from "./machine.ts";
import { block } from "./statements.ts";
import { named, same, sizeOf } from "./types.ts";
import { checkAccess, fromWide, isWide, stored } from "./values.ts";
import { homeFor, variable } from "./variables.ts";

/** A call, the cursor on the opening parenthesis. */
export function callNamed(cx: Context, name: string, known: Meaning | undefined, at: Span): Expr {
  const first = cx.at;
  const routines = known?.kind === "routines" ? known.routines : [];
  const bodies = routines.filter((r) => r.body !== undefined);
  if (bodies.length === 0) {
    const args = argumentsAt(cx);
    const span = { start: at.start, end: endOf(cx) };
    const built = libraryCall(cx, name, args.map(decayed), span);
    if (built) return built;
    cx.at = first;
    return unknown(cx, name, known, at);
  }
  const args = argumentsAt(cx);
  const span = { start: at.start, end: endOf(cx) };
  const fitting = bodies.filter((r) => r.parameters.length === args.length);
  const routine = fitting[fitting.length - 1];
  if (!routine) {
    const takes = (bodies[0] as Routine).parameters.length;
    return refuse(`\`${name}\` takes ${takes} arguments, not ${args.length}.`, span);
  }
  if (fitting.length > 1)
    refuse(`There are several functions \`${name}\`, told apart by types: that is not played.`, span);
  return called(cx, routine, args, span);
}

function endOf(cx: Context): number {
  return (cx.lexemes[cx.at - 1] as Span).end;
}

function argumentsAt(cx: Context): Expr[] {
  expect(cx, "(");
  const args: Expr[] = [];
  if (accept(cx, ")")) return args;
  do args.push(assignment(cx));
  while (accept(cx, ","));
  expect(cx, ")");
  return args;
}

/** What is not known gives no value; where none is asked for the call is passed over (see `statements.ts`). */
function unknown(cx: Context, name: string, known: Meaning | undefined, at: Span): Expr {
  skipGroup(cx);
  const span = { start: at.start, end: endOf(cx) };
  if (known?.kind === "not") return refuse(`\`${name}\` is not played: ${known.why}`, span);
  const meant = known ? undefined : nearest(name, libraryNames());
  const hint = meant === undefined ? "" : ` Did you mean \`${meant}\`?`;
  return refuse(
    `\`${name}\` is not defined in this file or those that it includes, and what it gives is not known.${hint}`,
    span,
  );
}

/** A call of a function that has a body. */
function called(cx: Context, routine: Routine, args: readonly Expr[], span: Span): Expr {
  const { machine } = cx;
  const compiled = compile(cx, routine, span);
  const gives = routine.returns;
  const sets = routine.parameters.map((parameter, i) => {
    const arg = args[i] as Expr;
    const home = compiled.homes[i] as Home;
    if (parameter.reference) return reference(cx, arg, parameter.type);
    const value = fitted(decayed(arg), parameter.type);
    return { run: value.run, home, type: parameter.type, cost: value.cost };
  });
  const passed = sets.map(({ run }) => run);
  const stores = sets.map((set, i) => setter(cx, set.home ?? (compiled.homes[i] as Home), set.type, span));
  const result: Run = isWide(gives) ? fromWide(() => machine.wideResult) : () => machine.result;
  const count = passed.length;
  const [a, b, c] = passed as [Run, Run, Run];
  const [setA, setB, setC] = stores as [(v: number) => void, (v: number) => void, (v: number) => void];
  const give =
    count === 0
      ? () => undefined
      : count === 1
        ? () => setA(a())
        : count === 2
          ? () => {
              const first = a();
              const second = b();
              setA(first);
              setB(second);
            }
          : count === 3
            ? () => {
                const first = a();
                const second = b();
                const third = c();
                setA(first);
                setB(second);
                setC(third);
              }
            : undefined;
  const run: Run = () => {
    const values = give ? undefined : passed.map((one) => one());
    spend(machine, compiled.cost);
    enter(machine, span);
    if (compiled.active === 0) {
      compiled.active = 1;
      if (give) give();
      else for (let i = 0; i < count; i++) stores[i]?.((values as number[])[i] as number);
      compiled.run();
      compiled.active = 0;
    } else again(cx, compiled, values ?? passed.map((one) => one()), stores, span);
    machine.depth--;
    return result();
  };
  return { type: gives, run, cost: args.reduce((sum, arg) => sum + arg.cost, 5), span };
}

/** A function that is under way already: what its variables hold is kept for when it goes on. */
function again(
  cx: Context,
  compiled: Compiled,
  values: readonly number[],
  stores: readonly ((value: number) => void)[],
  span: Span,
): void {
  const { machine } = cx;
  if (compiled.within.memory) refuse("A function that calls itself is not played with arrays of its own.", span);
  const { slots, wides } = compiled.within;
  const kept = slots.map(({ bank, index }) => bank[index] as number);
  const keptWide = wides.map((i) => machine.wide[i] as bigint);
  for (const [i, value] of values.entries()) stores[i]?.(value);
  compiled.run();
  for (const [i, { bank, index }] of slots.entries()) bank[index] = kept[i] as number;
  for (const [i, slot] of wides.entries()) machine.wide[slot] = keptWide[i] as bigint;
}

/** What is handed over by reference is its address. */
function reference(cx: Context, arg: Expr, type: Expr["type"]) {
  if (arg.home?.kind !== "memory" || !same(arg.type, type))
    return refuse(`A reference to ${named(type)} needs a variable of that type.`, arg.span);
  return {
    run: checkedAddress(cx, arg),
    home: undefined,
    type: { kind: "pointer", to: type } as const,
    cost: arg.cost,
  };
}

/** The address of something in memory, which is then known to be inside of an object. */
export function checkedAddress(cx: Context, { home, type, span }: Expr): Run {
  if (home?.kind !== "memory") return refuse("The address of this is not to be had.", span);
  const { address, safe } = home;
  if (safe) return address;
  const { machine } = cx;
  const size = sizeOf(type, cx.target);
  return () => {
    const at = address();
    checkAccess(machine, at, size, READ, span);
    return at;
  };
}

function setter(cx: Context, home: Home, type: Expr["type"], span: Span): (value: number) => void {
  if (home.kind === "slot" && !isWide(type)) {
    const { bank, index } = home;
    return (value) => {
      bank[index] = value;
    };
  }
  let given = 0;
  const store = stored(cx, type, home, () => given, span);
  return (value) => {
    given = value;
    store();
  };
}

/** The body of a function, compiled once. */
export function compile(cx: Context, routine: Routine, at: Span): Compiled {
  if (routine.compiled) return routine.compiled;
  const { body } = routine;
  if (body === undefined) return refuse(`\`${routine.name}\` has no body in this file.`, at);
  const within: Within = { routine, slots: [], wides: [], memory: false, breaks: 0, loops: 0 };
  const before = cx.within;
  cx.within = within;
  const scope = new Map<string, Meaning>();
  const global = cx.globals;
  try {
    const homes = routine.parameters.map((parameter): Home => {
      const { name, type, span, reference: refers } = parameter;
      if (refers) {
        const { slots: bank } = cx.machine;
        const index = bank.push(0) - 1;
        within.slots.push({ bank, index });
        const home: Home = {
          kind: "memory",
          address: () => bank[index] as number,
          safe: true,
          fixed: true,
        };
        scope.set(name, { kind: "value", expr: variable(cx, type, home, span) });
        return { kind: "slot", bank, index };
      }
      const home = homeFor(cx, name, type, false, span);
      scope.set(name, { kind: "value", expr: variable(cx, type, home, span) });
      return home;
    });
    const compiled: Compiled = { run: () => 0, cost: 1, homes, within, active: 0 };
    routine.compiled = compiled;
    cx.compiled.push(compiled);
    const statement = elsewhere(cx, body, [global, scope], () => block(cx));
    const { run } = statement;
    const { machine } = cx;
    const nothing = routine.returns.kind === "void";
    compiled.cost = statement.cost + 1;
    compiled.run = nothing
      ? run
      : () => {
          if (run() === 0) {
            machine.result = 0;
            machine.wideResult = 0n;
          }
          return 0;
        };
    return compiled;
  } finally {
    cx.within = before;
  }
}
