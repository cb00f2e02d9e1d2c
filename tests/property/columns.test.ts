import fc from "fast-check";
import { expect, test } from "vitest";
import { editPixels } from "../../shared/bitmap/edit.ts";
import { openText } from "../../shared/bitmap/open.ts";
import { pixelsOf } from "../../shared/bitmap/resolve.ts";
import { applyEdits } from "../../shared/source/text.ts";
import { runs } from "../support/runs.ts";

const level = fc.oneof(fc.constantFrom(0, 7, 10, 99, 100, 255), fc.integer({ min: 0, max: 255 }));

const tables = fc
  .record({ width: fc.integer({ min: 1, max: 9 }), height: fc.integer({ min: 1, max: 5 }) })
  .chain(({ width, height }) =>
    fc.record({
      width: fc.constant(width),
      height: fc.constant(height),
      before: fc.array(level, { minLength: width * height, maxLength: width * height }),
      after: fc.array(level, { minLength: width * height, maxLength: width * height }),
      align: fc.constantFrom("right", "left", "none"),
      room: fc.integer({ min: 1, max: 4 }),
      spacing: fc.constantFrom("columns" as const, "tokens" as const),
    }),
  );

test("columns of every alignment take any new values, and edits never overlap", () => {
  fc.assert(
    fc.property(tables, ({ width, height, before, after, align, room, spacing }) => {
      const cell = (value: number, x: number) => {
        const comma = x === width - 1 ? "" : ",";
        if (align === "right") return `${value}`.padStart(room) + comma;
        return align === "left" ? `${value}${comma}`.padEnd(room + 1) : `${value}${comma}`;
      };
      const row = (y: number) => Array.from({ length: width }, (_, x) => cell(before[y * width + x] as number, x));
      const lines = Array.from({ length: height }, (_, y) => `  ${row(y).join(" ")},\n`);
      const text = `// @bitmap ${width}x${height} gray8\nconst unsigned char leaf[] = {\n${lines.join("")}};\n`;
      const bitmap = openText(text, "leaf.h").bitmaps[0];
      if (!bitmap) throw new Error("no bitmap");
      const changes = after.map((value, i) => ({ frame: 0, x: i % width, y: Math.floor(i / width), value }));
      const edited = editPixels(text, bitmap, changes, spacing);
      if ("refused" in edited) throw new Error(edited.refused);
      const written = applyEdits(text, edited.edits);
      const again = openText(written, "leaf.h").bitmaps[0];
      expect([...((again && pixelsOf(again, 0)) ?? [])]).toEqual(after);
      expect(written.split("\n").length).toBe(text.split("\n").length);
      if (spacing === "tokens") expect(written.replace(/\d+/g, "0")).toBe(text.replace(/\d+/g, "0"));
    }),
    { numRuns: runs(600) },
  );
});
