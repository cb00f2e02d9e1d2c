/** Declarations inside of functions. */
import type { Span } from "../../source/text.ts";
import type { Context, Expr, Home, Statement } from "./context.ts";
import { accept, ahead, declare, elsewhere, expect, is, NEXT, peek, refuse } from "./context.ts";
import { declarator, fitted, OPEN, type Specifiers, sized, specifiers, typeAhead } from "./declarations.ts";
import { assignment, decayed } from "./expressions.ts";
import { checkedAddress } from "./functions.ts";
import { declareGlobal } from "./globals.ts";
import { countGiven, initialiser } from "./initialise.ts";
import { EMPTY, evaluated, sequence } from "./statements.ts";
import type { Type } from "./types.ts";
import { stored } from "./values.ts";
import { homeFor, variable } from "./variables.ts";

/** Declarations as a statement. */
export function declarations(cx: Context): Statement {
  const made = declarationOnly(cx);
  expect(cx, ";");
  return made;
}

/** Declarations without the semicolon, as in the head of a loop. */
export function declarationOnly(cx: Context): Statement {
  const base = specifiers(cx);
  if (is(cx, ";")) return EMPTY;
  const list: Statement[] = [];
  do list.push(declared(cx, base));
  while (accept(cx, ","));
  return sequence(list);
}

function declared(cx: Context, base: Specifiers): Statement {
  const d = declarator(cx, base.type);
  if (d.name === "") refuse("A name is expected here.", peek(cx));
  if (base.typedef) {
    declare(cx, d.name, { kind: "type", type: d.type });
    return EMPTY;
  }
  if (d.parameters) refuse("A function inside of a function is not played.", d.span);
  if (d.reference) return bound(cx, d.name, base.auto ? undefined : d.type, d.span);
  // What is constant and given a list is there from the start.
  const list = (at: number) => ahead(cx, at).kind === "list";
  if (base.isStatic || (base.constant && (list(0) || list(1)))) {
    declareGlobal(cx, base, d);
    return EMPTY;
  }
  let type: Type = d.type;
  const given = accept(cx, "=") || is(cx, "{") || list(0);
  if (base.auto) {
    if (!given) refuse("`auto` needs a value.", d.span);
    const value = decayed(assignment(cx));
    const home = homeFor(cx, d.name, value.type, false, d.span);
    declare(cx, d.name, { kind: "value", expr: variable(cx, value.type, home, d.span) });
    return { ...evaluated(assignTo(cx, home, value)), cost: value.cost + 1 };
  }
  if (type.kind === "array" && type.count === OPEN && given) type = { ...type, count: countGiven(cx, cx.at, type.of) };
  sized(type, d.span);
  const home = homeFor(cx, d.name, type, false, d.span);
  const expr = variable(cx, type, home, d.span);
  if (!given) {
    declare(cx, d.name, { kind: "value", expr });
    return EMPTY;
  }
  const at = cx.at;
  // The name is known in its own first value, which only sizes and addresses can use.
  declare(cx, d.name, { kind: "value", expr });
  const sets = initialiser(cx, type, home);
  const constant = base.constant ? constantAt(cx, at, type) : undefined;
  if (constant !== undefined) declare(cx, d.name, { kind: "value", expr: { ...expr, constant } });
  const cost = sets.length + (cx.at - at);
  const [only] = sets;
  return {
    cost,
    run:
      sets.length === 1 && only
        ? () => {
            only();
            return NEXT;
          }
        : () => {
            for (const set of sets) set();
            return NEXT;
          },
  };
}

function assignTo(cx: Context, home: Home, value: Expr): Expr {
  return { ...value, run: stored(cx, value.type, home, value.run, value.span) };
}

/** The value of a constant whose first value is known when compiling. */
function constantAt(cx: Context, at: number, type: Type): number | bigint | undefined {
  if (type.kind !== "int" && type.kind !== "float") return undefined;
  return elsewhere(cx, at, cx.scopes, () => {
    accept(cx, "{");
    return fitted(decayed(assignment(cx)), type).constant;
  });
}

/** A reference: a name for what is in memory already. */
function bound(cx: Context, name: string, type: Type | undefined, span: Span): Statement {
  expect(cx, "=");
  const value = assignment(cx);
  const address = checkedAddress(cx, value);
  void type;
  const { machine } = cx;
  const { slots: bank } = machine;
  const index = bank.push(0) - 1;
  cx.within?.slots.push({ bank, index });
  const home: Home = { kind: "memory", address: () => bank[index] as number, safe: true, fixed: true };
  declare(cx, name, { kind: "value", expr: variable(cx, value.type, home, span) });
  return {
    cost: value.cost + 1,
    run: () => {
      bank[index] = address();
      return NEXT;
    },
  };
}

/** `uint8_t(x)` makes a value; `uint8_t (*rows)[9]` declares. */
export function declarationAhead(cx: Context): boolean {
  return typeAhead(cx) && (ahead(cx, 1).text !== "(" || /^[*&]$/.test(ahead(cx, 2).text));
}
