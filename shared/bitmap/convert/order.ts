/** The array re-ordered between the panel's order and that of the driver. */
import type { Plan, Target } from "./plan.ts";
import { aim, planOf } from "./plan.ts";
import type { Subject } from "./subject.ts";

export function orderPlans(s: Subject): Plan[] {
  const { bitmap } = s;
  const { panel, options } = bitmap;
  if (!panel?.wiring || bitmap.width !== panel.options.width || bitmap.height !== panel.options.height) return [];
  const byDriver = options.order === "driver";
  const target: Target = { words: new Map([["order", byDriver ? undefined : "order=driver"]]) };
  const now = aim(s, target);
  if (!now) return [];
  const [id, title] = byDriver
    ? ["order:panel", `Order numbers as the panel ${panel.name} is seen`]
    : ["order:driver", `Order numbers as the driver of ${panel.name} takes them`];
  return [planOf(s, "packing", id, title, target, now)];
}
