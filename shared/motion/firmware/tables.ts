/** Tables that the function carries along, and what they take. */
import type { Motion } from "../resolve.ts";

export interface Table {
  readonly name: "field" | "inside" | "light" | "positions";
  readonly type: "uint8_t" | "int16_t";
  readonly values: ArrayLike<number>;
  readonly doc: string;
}

/** A table for what is no formula; those that say the same are one. Bytes: 1 a value, 2 for positions. */
export function tablesOf({ moving, mask, options, glyphs }: Motion): Table[] {
  if (!moving) return [];
  const { edge, timeline } = moving;
  const { soft, rim, level } = edge;
  const tables: Table[] = [];
  const bytes = (name: Table["name"], values: ArrayLike<number>, doc: string) =>
    tables.push({ name, type: "uint8_t", values, doc });
  if (!mask) bytes("field", moving.mask, `mask=${options.mask ?? "radial"}`);
  if (soft > rim) {
    bytes("inside", edge.inside, `255 * smoothstep, from ${soft} to ${rim} outside the edge`);
    if (level > 0 && level < 255) bytes("light", edge.light, `${level} * smoothstep, likewise`);
  }
  if (!glyphs && stepOf(timeline.positions) === undefined)
    tables.push({ name: "positions", type: "int16_t", values: timeline.positions, doc: "by frame" });
  return tables;
}

/** What the edge goes from frame to frame, where that is the same up to the last; undefined where it is not. */
export function stepOf(positions: Int16Array): number | undefined {
  const [first = 0, second = first] = positions;
  const step = second - first;
  const last = positions.at(-1) as number;
  const even = positions.every((p, n) => {
    const there = first + n * step;
    return p === (step < 0 ? Math.max(last, there) : Math.min(last, there));
  });
  return even ? step : undefined;
}

export function bytesOf(tables: readonly Table[]): number {
  return tables.reduce((sum, { type, values }) => sum + values.length * (type === "int16_t" ? 2 : 1), 0);
}
