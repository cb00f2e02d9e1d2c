/** A newer version of a document: its plan edited the way people edit files, with every array tracked. */
import fc from "fast-check";
import type { ArrayPlan, Plan } from "./documents.ts";
import { arrayPlans } from "./documents.ts";
import type { Rendered } from "./render.ts";
import { render } from "./render.ts";

/** An edit of a plan; `at` picks the array. */
export const planEdits = fc.oneof(
  fc.record({ kind: fc.constant("insert-text" as const), at: fc.nat(), filler: fc.nat(13) }),
  fc.record({
    kind: fc.constant("rename" as const),
    at: fc.nat(),
    name: fc.constantFrom("drop", "leaf", "sun", "moon", "star"),
  }),
  fc.record({ kind: fc.constant("duplicate" as const), at: fc.nat(), before: fc.boolean() }),
  fc.record({ kind: fc.constant("delete" as const), at: fc.nat() }),
  fc.record({ kind: fc.constant("insert-array" as const), at: fc.nat(), array: arrayPlans }),
  fc.record({
    kind: fc.constant("value" as const),
    at: fc.nat(),
    cell: fc.nat(),
    value: fc.bigInt({ min: 0n, max: 255n }),
  }),
  fc.record({ kind: fc.constant("reshape" as const), at: fc.nat(), width: fc.integer({ min: 1, max: 12 }) }),
  fc.record({
    kind: fc.constant("relayout" as const),
    at: fc.nat(),
    perLine: fc.constantFrom("row" as const, 0, 3),
    gap: fc.nat(10),
  }),
  fc.record({ kind: fc.constant("comment" as const), at: fc.nat(), note: fc.nat(6) }),
  fc.record({
    kind: fc.constant("options" as const),
    at: fc.nat(),
    from: fc.constantFrom("top-right" as const, "bottom-left" as const),
  }),
);
type PlanEdit = typeof planEdits extends fc.Arbitrary<infer T> ? T : never;

/** An array of a version, with the index it had in the first one; -1 for one that is new. */
interface Tracked {
  readonly origin: number;
  readonly array: ArrayPlan;
}

export interface Version extends Rendered {
  /** For each array of this version, its index in the first one. */
  readonly origins: readonly number[];
}

export function laterVersion(plan: Plan, edits: readonly PlanEdit[]): Version {
  let tracked: Tracked[] = plan.arrays.map((array, origin) => ({ origin, array }));
  for (const edit of edits) {
    const at = tracked.length === 0 ? 0 : edit.at % tracked.length;
    tracked = tracked.flatMap((t, i): Tracked[] => (i === at ? applied(t, edit) : [t]));
    if (tracked.length === 0 && edit.kind === "insert-array") tracked = [{ origin: -1, array: edit.array }];
  }
  const made = render({ style: plan.style, arrays: tracked.map((t) => t.array) });
  return { ...made, origins: tracked.map((t) => t.origin) };
}

function applied(t: Tracked, edit: PlanEdit): Tracked[] {
  const changed = (array: Partial<ArrayPlan>): Tracked[] => [{ ...t, array: { ...t.array, ...array } }];
  const { choices, cells } = t.array;
  switch (edit.kind) {
    case "insert-text":
      return changed({ filler: edit.filler });
    case "rename":
      return changed({ name: edit.name });
    case "duplicate":
      return edit.before ? [{ ...t, origin: -1 }, t] : [t, { ...t, origin: -1 }];
    case "delete":
      return [];
    case "insert-array":
      return [{ origin: -1, array: edit.array }, t];
    case "value":
      return changed({
        cells: cells.map((c, i) => (i === edit.cell % cells.length ? { ...c, value: edit.value } : c)),
      });
    case "reshape":
      return changed({ choices: { ...choices, width: edit.width } });
    case "relayout":
      return changed({ perLine: edit.perLine, gaps: [edit.gap] });
    case "comment":
      return changed({ note: edit.note });
    case "options":
      return changed({ choices: { ...choices, from: edit.from } });
  }
}
