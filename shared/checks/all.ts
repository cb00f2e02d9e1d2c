/** All rules, and what can be done with their findings. Start here; a new rule is a file and a line in this table. */
import type { BitmapFile } from "../bitmap/resolve.ts";
import type { TextEdit } from "../source/text.ts";
import { annotation } from "./annotation.ts";
import { length } from "./length.ts";
import { outOfRange } from "./outOfRange.ts";
import { overCap } from "./overCap.ts";
import { paddingBits } from "./paddingBits.ts";
import { rowShape } from "./rowShape.ts";
import type { Code, Finding, Fix, Rule } from "./rules.ts";
import { uniform } from "./uniform.ts";
import { unreadable } from "./unreadable.ts";

export const RULES: readonly Rule[] = [annotation, unreadable, length, rowShape, outOfRange, overCap, paddingBits, uniform];

/** All findings of a file, in the order of its text. */
export function checkFile(file: BitmapFile): Finding[] {
  return RULES.flatMap((rule) => rule.check(file)).sort((a, b) => a.span.start - b.span.start || a.span.end - b.span.end);
}

/** The fixes of one finding. */
export function fixesOf(file: BitmapFile, finding: Finding): Fix[] {
  return RULES.find((rule) => rule.codes.includes(finding.code))?.fixes(file, finding) ?? [];
}

/** One fix for all findings of a code in a file, of the kind given; undefined where there is only one such finding. */
export function fixAll(file: BitmapFile, findings: readonly Finding[], code: Code, kind: string): Fix | undefined {
  const seen = new Set<string>();
  const edits: TextEdit[] = [];
  let fixed = 0;
  for (const finding of findings) {
    if (finding.code !== code) continue;
    const fix = fixesOf(file, finding).find((f) => f.kind === kind);
    if (!fix) continue;
    const key = JSON.stringify(fix.edits);
    if (seen.has(key)) continue;
    seen.add(key);
    // Two findings may want to change the same text; the first one has it, the other is found again afterwards.
    if (fix.edits.some((e) => edits.some((known) => overlap(e, known)))) continue;
    edits.push(...fix.edits);
    fixed++;
  }
  if (fixed < 2) return undefined;
  return { kind, title: `Fix all \`${code}\` in this file this way (${fixed})`, edits };
}

function overlap(a: TextEdit, b: TextEdit): boolean {
  return a.start < b.end && b.start < a.end ? true : a.start === b.start && a.end === b.end;
}
