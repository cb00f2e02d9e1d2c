/** The form of a rule. The table of all of them is in `all.ts`. */
import type { Bitmap, BitmapFile } from "../bitmap/resolve.ts";
import type { Related } from "../pixels/options.ts";
import { elementOfSlot, elementSpan } from "../source/arrays.ts";
import type { Span, TextEdit } from "../source/text.ts";

export type Severity = "error" | "warning" | "information";

export type Code =
  | "annotation"
  | "length"
  | "row-shape"
  | "out-of-range"
  | "over-cap"
  | "night"
  | "padding-bits"
  | "unreadable"
  | "unknown-panel"
  | "wiring"
  | "current"
  | "bus"
  | "flashing"
  | "memory"
  | "motion"
  | "uniform";

/** Something found in a file. Offsets are those of the file's text. */
export interface Finding {
  readonly code: Code;
  readonly severity: Severity;
  readonly message: string;
  readonly span: Span;
  /** Index of the bitmap it is about, in `BitmapFile.bitmaps`; -1 for a finding about words. */
  readonly bitmap: number;
  /** Places in other files that it is about. */
  readonly related?: readonly Related[];
  /** What the rule's fixes need to know; plain JSON, it travels with the diagnostic. */
  readonly data: Readonly<Record<string, number | string | boolean>>;
  /** Other places in this file that it is about. */
  readonly places?: readonly { readonly span: Span; readonly message: string }[];
}

export type BitmapFinding = Omit<Finding, "bitmap">;

/** A change that makes a finding go away. */
export interface Fix {
  /** Fixes of one kind can be applied to all findings of a file together. */
  readonly kind: string;
  readonly title: string;
  readonly edits: readonly TextEdit[];
  readonly preferred?: boolean;
}

export interface Rule {
  readonly codes: readonly Code[];
  /** One sentence for the docs and for SARIF. */
  readonly doc: string;
  /** Findings about words of the file. */
  check?(file: BitmapFile): Finding[];
  /**
   * Findings about one bitmap, whose index is filled in by the caller. They may depend only on the bitmap and on its
   * initialiser's text, and stand only there or on its declaration: they are kept while those do not change.
   */
  checkBitmap?(text: string, bitmap: Bitmap): BitmapFinding[];
  fixes(file: BitmapFile, finding: Finding): Fix[];
}

/** Most findings of one rule in one array; the last one says how many more there are. */
export const MOST_FINDINGS = 50;

/** The bitmap that a finding is about. */
export function bitmapOf(file: BitmapFile, finding: Finding): Bitmap | undefined {
  return file.bitmaps[finding.bitmap];
}

/** The first number of a frame; the name of the array where it is not written. */
export function startOfFrame({ array, layout }: Bitmap, frame: number): Span {
  const slot = layout?.table(frame).element[0];
  const element = slot === undefined ? -1 : elementOfSlot(array, slot);
  return element < 0 ? array.nameSpan : elementSpan(array, element);
}

/** `1 pixel`, `2 pixels`. */
export function counted(count: number, what: string): string {
  return `${count} ${what}${count === 1 ? "" : "s"}`;
}

/** The last finding says how many more were left out. */
export function withRest(findings: BitmapFinding[], more: number): BitmapFinding[] {
  const last = findings[findings.length - 1];
  if (more > 0 && last)
    findings[findings.length - 1] = { ...last, message: `${last.message} (And ${more} more in this array.)` };
  return findings;
}

/** Fixes without those that write the same as one before them. */
export function withoutTwins(fixes: readonly (Fix | undefined)[]): Fix[] {
  const seen = new Set<string>();
  return fixes.filter((fix): fix is Fix => {
    const edits = JSON.stringify(fix?.edits);
    if (!fix || seen.has(edits)) return false;
    seen.add(edits);
    return true;
  });
}
