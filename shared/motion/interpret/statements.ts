/** Statements. What can't be played is named, and the rest of the function is still read. */
import { choice } from "./choice.ts";
import type { Context, Exec, Expr, Statement, Within } from "./context.ts";
import {
  accept,
  ahead,
  BREAK,
  CONTINUE,
  expect,
  find,
  is,
  NEXT,
  nested,
  peek,
  RETURN,
  refuse,
  skipGroup,
  skipStatement,
  spanFrom,
} from "./context.ts";
import { fitted } from "./declarations.ts";
import { decayed, expression } from "./expressions.ts";
import { libraryNames } from "./library.ts";
import { declarationAhead, declarationOnly, declarations } from "./locals.ts";
import { loop } from "./loops.ts";
import { Stopped } from "./machine.ts";
import { isWide, truthOf, wide } from "./values.ts";

const MOST_PROBLEMS = 20;
export const EMPTY: Statement = { run: () => NEXT, cost: 0 };

/** The statements up to the closing brace, behind which the cursor then is; the opening one has been passed. */
export function block(cx: Context): Statement {
  cx.scopes.push(new Map());
  const list: Statement[] = [];
  while (!is(cx, "}")) {
    if (peek(cx).kind === "end") break;
    list.push(tolerant(cx));
  }
  accept(cx, "}");
  cx.scopes.pop();
  return sequence(list);
}

/** A statement that can't be played is a problem, and nothing in its place. */
export function tolerant(cx: Context): Statement {
  const first = cx.at;
  const { scopes } = cx;
  const depth = scopes.length;
  const { breaks = 0, loops = 0 } = cx.within ?? {};
  try {
    return nested(cx, () => statement(cx));
  } catch (error) {
    if (!(error instanceof Stopped) || cx.problems.filter((p) => p.token === undefined).length >= MOST_PROBLEMS)
      throw error;
    cx.problems.push({ ...error.span, message: error.message });
    cx.scopes = scopes;
    scopes.length = depth;
    if (cx.within) Object.assign(cx.within, { breaks, loops });
    // A head with parentheses, such as that of a loop, goes with its body.
    cx.at = first;
    const type = /^(?:struct|union|enum|class)$/.test(peek(cx).text);
    skipStatement(cx);
    // Behind the body of a type stands what is declared of it.
    if (type && !is(cx, "}")) skipStatement(cx);
    while (accept(cx, "else")) skipStatement(cx);
    if (cx.at === first) cx.at++;
    return EMPTY;
  }
}

export function sequence(list: readonly Statement[]): Statement {
  const kept = list.filter((s) => s !== EMPTY);
  const runs = kept.map((s) => s.run);
  const cost = kept.reduce((sum, s) => sum + s.cost, 0);
  const [a, b, c] = runs as [Exec, Exec, Exec];
  switch (runs.length) {
    case 0:
      return EMPTY;
    case 1:
      return kept[0] as Statement;
    case 2:
      return { cost, run: () => a() || b() };
    case 3:
      return { cost, run: () => a() || b() || c() };
    default:
      return {
        cost,
        run: () => {
          for (let i = 0; i < runs.length; i++) {
            const flow = (runs[i] as Exec)();
            if (flow !== NEXT) return flow;
          }
          return NEXT;
        },
      };
  }
}

function statement(cx: Context): Statement {
  const { kind, text } = peek(cx);
  const first = cx.at;
  if (kind === "operator" && text === "{") {
    cx.at++;
    return block(cx);
  }
  if (accept(cx, ";")) return EMPTY;
  if (kind === "word") {
    switch (text) {
      case "if":
        return condition(cx);
      case "for":
      case "while":
      case "do":
        return loop(cx);
      case "switch":
        return choice(cx);
      case "break":
      case "continue": {
        cx.at++;
        const within = cx.within as Within;
        if ((text === "break" ? within.breaks : within.loops) === 0)
          refuse(`\`${text}\` stands in no loop.`, spanFrom(cx, first));
        expect(cx, ";");
        const flow = text === "break" ? BREAK : CONTINUE;
        return { run: () => flow, cost: 1 };
      }
      case "return":
        return returned(cx);
      case "goto":
        return refuse("`goto` is not played.", peek(cx));
      case "asm":
      case "__asm__":
        return refuse("Assembly is not played.", peek(cx));
      case "try":
      case "throw":
        return refuse("Exceptions are not played.", peek(cx));
      case "case":
      case "default":
        return refuse(`\`${text}\` is only played right inside of a switch.`, peek(cx));
      default:
    }
    if (ahead(cx, 1).text === ":" && ahead(cx, 1).kind === "operator") refuse("A label is not played.", peek(cx));
    if (declarationAhead(cx)) return declarations(cx);
    const passed = passedOver(cx);
    if (passed) return passed;
  }
  const e = expression(cx);
  expect(cx, ";");
  return evaluated(e);
}

export function evaluated({ run, cost }: Pick<Expr, "run" | "cost">): Statement {
  return {
    cost,
    run: () => {
      run();
      return NEXT;
    },
  };
}

/**
 * A call of something that is not known, whose value is not asked for, such as the one that sends the frame to the
 * display: it is passed over, and told.
 */
function passedOver(cx: Context): Statement | undefined {
  const first = cx.at;
  let i = 0;
  while (ahead(cx, i).kind === "word" && /^(?:\.|->|::)$/.test(ahead(cx, i + 1).text)) i += 2;
  const { kind, text } = ahead(cx, i);
  if (kind !== "word" || ahead(cx, i + 1).text !== "(") return undefined;
  const owner = i > 0 ? find(cx, peek(cx).text) : undefined;
  if (i > 0 && (owner?.kind === "value" || owner?.kind === "global")) return undefined;
  if (i === 0 || ahead(cx, i - 1).text === "::") {
    const known = find(cx, text);
    const has = known?.kind === "routines" && known.routines.some((r) => r.body !== undefined);
    if (has || (known && known.kind !== "routines" && known.kind !== "not") || libraryNames().includes(text))
      return undefined;
  }
  cx.at += i + 1;
  skipGroup(cx);
  if (!is(cx, ";")) {
    cx.at = first;
    return undefined;
  }
  const span = spanFrom(cx, first);
  cx.at++;
  const name = cx.lexemes
    .slice(first, first + i + 1)
    .map((l) => l.text)
    .join("");
  cx.problems.push({
    ...span,
    message: `\`${name}\` is not defined in this file or those that it includes: the call is passed over.`,
    passed: true,
  });
  return EMPTY;
}

function condition(cx: Context): Statement {
  cx.at++;
  accept(cx, "constexpr");
  expect(cx, "(");
  cx.scopes.push(new Map());
  const before = declarationAhead(cx) ? declarationOnly(cx) : undefined;
  if (before) expect(cx, ";");
  const test = decayed(expression(cx));
  expect(cx, ")");
  const yes = tolerant(cx);
  const no = accept(cx, "else") ? tolerant(cx) : undefined;
  cx.scopes.pop();
  const holds = truthOf(test);
  const { run: then } = yes;
  const cost = test.cost + Math.max(yes.cost, no?.cost ?? 0) + 1;
  const otherwise = no?.run;
  const run: Exec = otherwise ? () => (holds() !== 0 ? then() : otherwise()) : () => (holds() !== 0 ? then() : NEXT);
  return before ? sequence([before, { run, cost }]) : { run, cost };
}

function returned(cx: Context): Statement {
  const first = cx.at;
  cx.at++;
  const { returns } = (cx.within as Within).routine;
  const { machine } = cx;
  if (accept(cx, ";")) return { run: () => RETURN, cost: 1 };
  const e = decayed(expression(cx));
  expect(cx, ";");
  if (returns.kind === "void") {
    if (e.type.kind !== "void") refuse("This function gives no value.", spanFrom(cx, first));
    return {
      cost: e.cost,
      run: () => {
        e.run();
        return RETURN;
      },
    };
  }
  if (returns.kind === "struct") refuse("A function that gives a struct is not played.", spanFrom(cx, first));
  const value = fitted(e, returns);
  const cost = value.cost + 1;
  if (isWide(returns)) {
    const run = wide(value);
    return {
      cost,
      run: () => {
        machine.wideResult = run();
        return RETURN;
      },
    };
  }
  const { run } = value;
  return {
    cost,
    run: () => {
      machine.result = run();
      return RETURN;
    },
  };
}
