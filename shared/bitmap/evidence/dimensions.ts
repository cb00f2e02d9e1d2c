/** Sizes in the declared dimensions: `[16 * 2]`, `[H][W / 8]`, `[10][8]`, `[FRAMES][H * W / 8]`. */
import type { Claim, Hints } from "./claim.ts";
import { constantsOf } from "./constants.ts";
import type { Subject } from "./subject.ts";

interface Factor {
  readonly value: number;
  readonly name: string;
  /** Divided by 8: bits counted as bytes. */
  readonly eighth: boolean;
}

export function dimensionClaims(subject: Subject): Claim[] {
  const { array, text, size, count, source } = subject;
  const { dimensions } = array;
  if (dimensions.length === 0 || dimensions.length > 3) return [];
  const written = dimensions.map((d) => text.slice(d.span.start, d.span.end).trim());
  const evidence = `it is declared ${written.map((w) => `[${w}]`).join("")}`;
  const claims: Claim[] = [];
  const add = (width: number, height: number, frames: number | undefined, weight: number, hints?: Hints) => {
    if (width < 3 || height < 3) return;
    claims.push({
      width,
      height,
      frames,
      weight,
      evidence,
      kind: "dimensions",
      needsWord: true,
      ...(hints ? { hints } : {}),
    });
  };
  const factors = written.map((w) => factorsOf(w, constantsOf(source)));
  const all = factors.flatMap((f) => f ?? []);
  const calledWidth = all.find((f) => /(?:^|_)(?:w|width|cols|columns)$|(?:Width|Cols)$/i.test(f.name));
  const calledHeight = all.find((f) => /(?:^|_)(?:h|height|rows)$|(?:Height|Rows)$/i.test(f.name));
  if (calledWidth && calledHeight) {
    claims.push({ width: calledWidth.value, height: calledHeight.value, weight: 0.84, evidence, kind: "dimensions" });
    return claims;
  }
  const sizes = dimensions.map(
    (d, i) => d.size ?? (i === 0 ? count / dimensions.slice(1).reduce((p, e) => p * (e.size ?? 1), 1) : 0),
  );
  if (dimensions.length === 1) {
    const list = factors[0];
    if (!list || list.length < 2 || list.length > 3) return claims;
    const values = list.map((f) => f.value);
    const eighth = list.find((f) => f.eighth);
    if (eighth && list.length === 2) {
      // Which of the two is the width does not follow from `W / 8 * H`; the one divided is more likely.
      const other = list.find((f) => f !== eighth) as Factor;
      add(eighth.value, other.value, 1, 0.7);
      add(other.value, eighth.value, 1, 0.66);
    } else if (list.length === 2) {
      const [a, b] = values as [number, number];
      if (b <= 8) add(b * size, a, 1, b > 1 && a === b * size ? 0.72 : 0.6, { formats: ["mono1"], pack: "rows" });
      if (a === b) add(a, b, 1, 0.6);
      glyphs(a, b);
    } else {
      const [a, b, c] = values as [number, number, number];
      if (eighth) add(b, c, a, 0.66);
      else add(c * size, b, a, 0.66, { formats: ["mono1"], pack: "rows" });
    }
    return claims;
  }
  const [a = 0, b = 0, c = 0] = sizes;
  if (dimensions.length === 3) {
    add(c * size, b, a, 0.7, { formats: ["mono1"], pack: "rows" });
    add(c, b, a, 0.68, { formats: ["gray8", "rgb565"] });
    if (b <= 8) add(c, b * 8, a, 0.55, { formats: ["mono1"], pack: "pages" });
    return claims;
  }
  const product = factors[1];
  if (product && product.length === 2 && (product[1] as Factor).value > 1) {
    const [h, w] = product.map((f) => f.value) as [number, number];
    if (product.some((f) => f.eighth)) add(w, h, a, 0.68);
    else add(w * size, h, a, 0.66, { formats: ["mono1"], pack: "rows" });
  }
  if (b <= 4) add(b * size, a, 1, a === b * size ? 0.74 : 0.6, { formats: ["mono1"], pack: "rows" });
  add(b, a, 1, a === b ? 0.68 : 0.56, { formats: ["gray8", "rgb565"] });
  if (size === 8 && a <= 8 && b > 8) add(b, a * 8, 1, 0.5, { formats: ["mono1"], pack: "pages" });
  glyphs(a, b);
  return claims;

  /** Sets of `n` pictures of `bytes` bytes each, of the usual sizes. */
  function glyphs(n: number, bytes: number): void {
    if (size !== 8 || n < 2) return;
    if (bytes === 8) add(8, 8, n, 0.66, { formats: ["mono1"] });
    if (bytes === 5) {
      add(5, 7, n, subject.fontish ? 0.66 : 0.55, { formats: ["mono1"], pack: "columns" });
      add(5, 8, n, subject.fontish ? 0.6 : 0.5, { formats: ["mono1"], pack: "columns" });
    }
    if (bytes === 7) add(5, 7, n, 0.6, { formats: ["mono1"], pack: "rows" });
    if (bytes === 16 && subject.fontish) add(8, 16, n, 0.64, { formats: ["mono1"] });
    if (bytes === 32) add(16, 16, n, 0.62, { formats: ["mono1"] });
    if (bytes === 72) add(24, 24, n, 0.62, { formats: ["mono1"] });
    if (bytes === 128) add(32, 32, n, 0.62, { formats: ["mono1"] });
  }
}

/** The factors of `16 * 2`, `H * W / 8`, `(W + 7) / 8`; undefined for any other expression. */
function factorsOf(text: string, constants: ReadonlyMap<string, { value: number }>): Factor[] | undefined {
  const parts = text
    .replace(/\(\s*(\w+)\s*\+\s*7\s*\)/g, "$1")
    .replace(/[()]/g, "")
    .trim();
  if (!/^\w+(?:\s*[*/]\s*\w+)*$/.test(parts)) return undefined;
  const out: Factor[] = [];
  for (const m of parts.matchAll(/([*/]?)\s*(\w+)/g)) {
    const name = m[2] as string;
    const value = /^\d+$/.test(name) ? Number(name) : constants.get(name.replace(/_/g, "").toLowerCase())?.value;
    if (value === undefined) return undefined;
    const last = out[out.length - 1];
    if (m[1] === "/") {
      if (value !== 8 || !last) return undefined;
      out[out.length - 1] = { ...last, eighth: true };
    } else out.push({ value, name, eighth: false });
  }
  return out;
}
