/** All rules, and what can be done with their findings. Start here; a new rule is a file and a line in this table. */
import { identityOf } from "../bitmap/edit.ts";
import type { Bitmap, BitmapFile } from "../bitmap/resolve.ts";
import type { SourceArray } from "../source/arrays.ts";
import type { Initialiser } from "../source/initialiser.ts";
import type { TextEdit } from "../source/text.ts";
import { annotation } from "./annotation.ts";
import { bus } from "./bus.ts";
import { current } from "./current.ts";
import { flashing } from "./flashing.ts";
import { length } from "./length.ts";
import { memory } from "./memory.ts";
import { motion } from "./motion.ts";
import { night } from "./night.ts";
import { outOfRange } from "./outOfRange.ts";
import { overCap } from "./overCap.ts";
import { paddingBits } from "./paddingBits.ts";
import { rowShape } from "./rowShape.ts";
import type { BitmapFinding, Code, Finding, Fix, Rule } from "./rules.ts";
import { uniform } from "./uniform.ts";
import { unreadable } from "./unreadable.ts";
import { wiring } from "./wiring.ts";

export const RULES: readonly Rule[] = [
  annotation,
  wiring,
  unreadable,
  length,
  rowShape,
  outOfRange,
  overCap,
  night,
  paddingBits,
  uniform,
  current,
  bus,
  flashing,
  memory,
  motion,
];

interface Kept {
  readonly key: string;
  readonly base: number;
  readonly findings: readonly BitmapFinding[];
}

/** Findings by initialiser and list: while an array does not change, neither do they; they only move with it. */
const kept = new WeakMap<Initialiser, Map<number, Kept>>();

/** All findings of a file, in the order of its text. */
export function checkFile(file: BitmapFile): Finding[] {
  const findings = RULES.flatMap((rule) => rule.check?.(file) ?? []);
  file.bitmaps.forEach((bitmap, index) => {
    const { base, findings: found } = checkedBefore(file.source.text, bitmap);
    const move = bitmap.array.base - base;
    for (const f of found) {
      findings.push({ ...f, span: { start: f.span.start + move, end: f.span.end + move }, bitmap: index });
    }
  });
  return findings.sort((a, b) => a.span.start - b.span.start || a.span.end - b.span.end);
}

function checkedBefore(text: string, bitmap: Bitmap): Kept {
  const { array } = bitmap;
  const key = keyOf(bitmap);
  const known = array.list && kept.get(array.list)?.get(placeOf(array));
  if (known?.key === key) return known;
  const findings = RULES.flatMap((rule) => rule.checkBitmap?.(text, bitmap) ?? []);
  const made: Kept = { key, base: array.base, findings };
  if (array.list) {
    const byNode = kept.get(array.list) ?? new Map<number, Kept>();
    kept.set(array.list, byNode.set(placeOf(array), made));
  }
  return made;
}

/** Tells the arrays of one initialiser apart: those without braces share a list. */
const placeOf = ({ node, first }: SourceArray) => node * 2 ** 32 + first;

/** All that the rules may look at, beside the initialiser itself; places relative to it. */
function keyOf(bitmap: Bitmap): string {
  const { array, cap, night: byNight, mask, drive, why, palette, light, options } = bitmap;
  const places = [array.nameSpan, ...array.dimensions.map((d) => d.span)].map(
    (s) => `${s.start - array.base}:${s.end - array.base}`,
  );
  return [
    array.name,
    identityOf(bitmap).structure,
    cap,
    byNight,
    mask,
    drive,
    light,
    options.fps,
    options.pitch,
    options.distance,
    options.full,
    options.idle,
    options.budget,
    options.duty,
    options.tint,
    options.first,
    options.chars?.length,
    why,
    array.readOnly,
    array.type?.signed,
    bitmap.panel?.text,
    palette?.name,
    palette?.colours.join(),
    ...places,
  ].join("|");
}

/** An editor asks again for those of one version with every move of the cursor. */
const worked = new WeakMap<BitmapFile, WeakMap<Finding, readonly Fix[]>>();

/** The fixes of one finding. */
export function fixesOf(file: BitmapFile, finding: Finding): readonly Fix[] {
  const own = worked.get(file) ?? new WeakMap<Finding, readonly Fix[]>();
  worked.set(file, own);
  const fixes = own.get(finding) ?? RULES.find((rule) => rule.codes.includes(finding.code))?.fixes(file, finding) ?? [];
  own.set(finding, fixes);
  return fixes;
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
