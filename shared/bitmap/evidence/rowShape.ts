/** Rows on source lines: drawings in comments, binary literals one row a line, lines of one row's elements. */
import type { Claim, Hints } from "./claim.ts";
import type { BodyLine, Subject } from "./subject.ts";
import { bodyLines, spelling } from "./subject.ts";

/** People wrap long lists after so many elements, whatever they hold. */
const USUAL_WRAPS = new Set([8, 10, 12, 15, 16, 20, 24, 25, 32]);

export function rowClaims(subject: Subject): Claim[] {
  const lines = bodyLines(subject);
  if (lines.length < 3) return squareOfWords(subject);
  const drawn = drawings(lines);
  if (drawn.length > 0) return drawn;
  const binary = binaryRows(subject, lines);
  return binary.length > 0 ? binary : [...plainRows(subject, lines), ...squareOfWords(subject)];
}

/** As many wide elements as an element has bits: a square, one row in each. */
function squareOfWords({ size, count, array }: Subject): Claim[] {
  if (size === 8 || count !== size || array.dimensions.length > 1) return [];
  const hints: Hints = { formats: ["mono1"], pack: "rows" };
  const evidence = `its ${count} elements of ${size} bits make a square`;
  return [{ width: size, height: count, frames: 1, hints, weight: 0.62, kind: "rows", evidence, needsWord: true }];
}

const DRAWING = /^[.\-_#X@*O1x+o0█░▒▓|' ]+$/;

/** The rows drawn behind the lines, if nearly every line has one of the same width. */
function drawings(lines: readonly BodyLine[]): Claim[] {
  const rows = lines.map(({ drawing }) => (drawing === undefined ? undefined : rowOf(drawing.trimEnd())));
  const found = rows.filter((row) => row !== undefined);
  if (found.length < 4 || found.length < lines.length * 0.9) return [];
  const width = Math.max(...found.map((row) => row.length));
  if (width < 3) return [];
  // Trailing dark pixels may have been lost with the spaces that drew them.
  const full = rows.map((row) => (row ?? "").padEnd(width, "0"));
  if (!full.some((row) => row.includes("1"))) return [];
  return groupsOf(lines).map(({ height, frames }) => ({
    width,
    height,
    frames,
    weight: 0.95,
    drawn: full,
    kind: "drawing",
    evidence: `the comments on its lines draw rows of ${width} pixels`,
  }));
}

function rowOf(comment: string): string | undefined {
  const text = comment.replace(/^[|[\s]*(?=[^|\s])|[|\]]\s*$/g, (m) => (/[|[\]]/.test(m) ? "" : m));
  if (text !== "" && !DRAWING.test(text)) return undefined;
  const spaced = /^(?:\S )+\S?$/.test(text) ? text.replace(/(\S) ?/g, "$1") : text;
  return spaced.replace(/[._\-0░' ]/g, "0").replace(/[^0]/g, "1");
}

/** Heights that lines parted by empty or comment lines suggest: all in one, or groups of equal height. */
function groupsOf(lines: readonly BodyLine[]): { height: number; frames: number }[] {
  const starts = lines.flatMap((line, i) => (i === 0 || line.parted ? [i] : []));
  const one = { height: lines.length, frames: 1 };
  if (starts.length < 2) return [one];
  const height = starts[1] as number;
  const even =
    height > 2 && starts.every((start, i) => start === i * height) && lines.length === starts.length * height;
  return even ? [{ height, frames: starts.length }, one] : [one];
}

function binaryRows(subject: Subject, lines: readonly BodyLine[]): Claim[] {
  const { size, array, pictured, count } = subject;
  const each = (lines[0] as BodyLine).count;
  let digits = 0;
  let several = 0;
  let lit = 0;
  for (let i = 0; i < array.given; i++) {
    const m = /^(?:0[bB]|B)([01']+)$/.exec(spelling(subject, i));
    if (!m) return [];
    const row = (m[1] as string).replaceAll("'", "");
    if (digits !== 0 && row.length !== digits) return [];
    digits = row.length;
    if (row.includes("1")) lit++;
    if (/1.*1/.test(row)) several++;
  }
  const inner = array.dimensions[1]?.size;
  if (array.dimensions.length === 2 && inner === digits && digits === size && several >= lit * 0.6) {
    const evidence = `it holds lists of ${inner} numbers of ${digits} binary digits`;
    return [
      {
        width: digits,
        height: inner,
        frames: count / inner,
        kind: "rows",
        weight: 0.64,
        evidence,
        hints: { formats: ["mono1"], pack: "rows", bits: "msb" },
      },
    ];
  }
  if (each > 8 || lines.some((line) => line.count !== each)) return [];
  if (digits < 3 || digits > size || (digits < size && each > 1)) return [];
  // Words behind the lines name what each number is for; one bit a number picks pins or channels.
  const labelled = lines.filter((line) => /[A-Za-z0-9]{2}/.test(line.comment)).length > lines.length / 3;
  if (!pictured && (labelled || several < lit / 2 || digits < size)) return [];
  const width = digits * each;
  const hints: Hints = {
    formats: ["mono1"],
    pack: "rows",
    bits: "msb",
    ...(digits < size ? { spare: "first" as const } : {}),
  };
  return groupsOf(lines)
    .filter(({ height }) => pictured || height === width || (height >= 5 && count >= 8 && height % 8 === 0))
    .map(({ height, frames }) => ({
      width,
      height,
      frames,
      hints,
      kind: "rows",
      weight: pictured ? 0.78 : 0.6,
      evidence: `each of its lines holds a row of ${width} binary digits`,
    }));
}

function plainRows(subject: Subject, lines: readonly BodyLine[]): Claim[] {
  const { size, pictured } = subject;
  if (!pictured) return [];
  const each = (lines[0] as BodyLine).count;
  if (lines.some((line) => line.count !== each)) return [];
  const claims: Claim[] = [];
  const add = (width: number, height: number, frames: number, weight: number, hints: Hints) => {
    const per = each === 1 ? "one element" : `${each} elements`;
    const evidence = `it has ${lines.length} lines of ${per} each`;
    if (width >= 3 && height >= 3)
      claims.push({ width, height, frames, weight, hints, kind: "rows", evidence, needsWord: true });
  };
  for (const { height, frames } of groupsOf(lines)) {
    const grouped = frames > 1 ? 0.05 : 0;
    const bits = each * size;
    const mono: Hints = { formats: ["mono1"], pack: "rows" };
    if (bits === height) add(bits, height, frames, 0.7 + grouped, mono);
    else if (bits <= 64 && height >= 5 && height <= 4 * bits) add(bits, height, frames, 0.6 + grouped, mono);
    const odd = !USUAL_WRAPS.has(each);
    if (each === height || odd) {
      if (each >= 5 && height >= 4)
        add(each, height, frames, (each === height ? 0.66 : 0.6) + grouped, { formats: ["gray8", "rgb565"] });
      if (size === 8 && odd && each >= 5 && height <= 8)
        add(each, 8 * height, frames, 0.52, { formats: ["mono1"], pack: "pages" });
    }
  }
  return claims;
}
