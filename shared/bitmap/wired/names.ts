/** How the made pieces of C are named, and the types they count in. */
import type { Panel } from "../../light/panel.ts";

/** A panel's name as the beginning of names in C. */
export function stemOf({ name }: Pick<Panel, "name">): string {
  return name.replace(/\W/g, "_");
}

/** The type that holds numbers up to `most`, so that a 16-bit `int` need not. */
export function countType(most: number): "uint16_t" | "uint32_t" {
  return most < 65536 ? "uint16_t" : "uint32_t";
}
