/**
 * Finds an unknown wiring by few questions: a sketch lights patterns of addresses (`patterns.ts`), and the answers are
 * the pixels that were seen lit. Each question is the one that best tells the wirings apart that are still possible among the
 * usual ones (`family.ts`); where none of those is left, every bit is asked, and the bits are the addresses.
 */
import { type Candidate, family } from "./family.ts";
import { lights, patternsFor } from "./patterns.ts";

export interface ProbedPanel {
  readonly width: number;
  readonly height: number;
  /** The driver's canvas. */
  readonly canvas: { readonly width: number; readonly height: number };
}

/** The pixels seen lit, row by row from 0, with one pattern. A later answer to the same pattern replaces an earlier. */
export interface ProbeAnswer {
  readonly pattern: number;
  readonly lit: readonly number[];
}

/** What is not as it must be, and the pixels that it is about. */
interface ProbeProblem {
  /** Pixels that no address reaches; or answers that can't all be right. */
  readonly kind: "gap" | "contradiction";
  readonly message: string;
  readonly pixels: readonly number[];
}

export interface Probed {
  /** The pattern to ask about next; where the wiring is found, one that would confirm it; undefined where all are told. */
  readonly next: number | undefined;
  /** How many of the usual wirings, as far as they differ, are still possible; "many" above a hundred. */
  readonly left: number | "many";
  /** The address of each pixel, where that is found. */
  readonly index: Uint32Array | undefined;
  /** The `wire=` that says it; undefined where only a table can. */
  readonly wire: string | undefined;
  /** Every pattern was answered, so that no other wiring gives the same answers. */
  readonly sure: boolean;
  readonly problems: readonly ProbeProblem[];
}

/** What follows from the answers so far. Cost: one pass over the usual wirings of such a panel. */
export function probe(panel: ProbedPanel, answers: readonly ProbeAnswer[]): Probed {
  const { width, height, canvas } = panel;
  const addresses = canvas.width * canvas.height;
  const seen = new Map<number, Uint8Array>();
  for (const { pattern, lit } of answers) {
    const marks = new Uint8Array(width * height);
    for (const pixel of lit) if (pixel >= 0 && pixel < marks.length) marks[pixel] = 1;
    seen.set(pattern, marks);
  }
  const all = Array.from({ length: patternsFor(addresses) }, (_, pattern) => pattern);
  const asked = all.filter((pattern) => seen.has(pattern));
  const open = all.filter((pattern) => !seen.has(pattern));
  const problems = [...darkOnes(seen, width), ...tooMany(seen, addresses)];
  const sure = open.length === 0;
  if (sure) return { ...told(panel, seen, asked, problems), next: undefined, sure };
  // First that all of them light up at all: what is dark then would be taken for an address without bits.
  const left = possible(panel, asked, seen);
  const [first] = left;
  const distinct = first && asked.length > 1 ? distinctIn(left, panel) : left.length === 0 ? 0 : "many";
  const wrong = problems.some(({ kind }) => kind === "contradiction");
  const only = distinct === 1 && !wrong ? first : undefined;
  const next = open[0] === 0 ? 0 : only || left.length === 0 ? open[0] : sharpest(left, open, panel);
  return {
    next,
    left: distinct,
    index: only && Uint32Array.from({ length: width * height }, (_, i) => addressOf(only, i, width)),
    wire: only?.wire(),
    sure,
    problems,
  };
}

/** Every bit was asked: the bits are the addresses, unless answers contradict each other. */
function told(
  panel: ProbedPanel,
  seen: ReadonlyMap<number, Uint8Array>,
  asked: readonly number[],
  before: readonly ProbeProblem[],
): Pick<Probed, "left" | "index" | "wire" | "problems"> {
  const { width, height, canvas } = panel;
  const addresses = canvas.width * canvas.height;
  const index = bitsOf(seen, width * height);
  const problems = [...before, ...wrongAddresses(index, seen.get(0), width, addresses)];
  if (problems.some(({ kind }) => kind === "contradiction"))
    return { left: 0, index: undefined, wire: undefined, problems };
  const [usual] = possible(panel, asked, seen);
  if (usual) {
    for (let i = 0; i < index.length; i++) index[i] = addressOf(usual, i, width);
    return { left: 1, index, wire: usual.wire(), problems };
  }
  const filled = withoutGap(index, seen.get(0), addresses);
  return { left: 0, index: filled, wire: undefined, problems };
}

/** The address of a pixel that stays dark is known where only one is left; undefined where more are missing. */
function withoutGap(index: Uint32Array, working: Uint8Array | undefined, addresses: number): Uint32Array | undefined {
  const dark = [...index.keys()].filter((i) => working?.[i] === 0);
  const [only, ...more] = dark;
  if (only === undefined) return index;
  if (more.length > 0 || addresses !== index.length) return undefined;
  const taken = new Set(index.filter((_, i) => i !== only));
  for (let address = 0; address < addresses; address++) if (!taken.has(address)) index[only] = address;
  return index;
}

const addressOf = (candidate: Candidate, pixel: number, width: number) =>
  candidate.addressOf(pixel % width, Math.floor(pixel / width));

/** The usual wirings that give the answers; pixels that never light up say nothing. */
function possible(panel: ProbedPanel, asked: readonly number[], seen: ReadonlyMap<number, Uint8Array>): Candidate[] {
  const { width, height, canvas } = panel;
  const addresses = canvas.width * canvas.height;
  const working = seen.get(0);
  const bits = asked
    .filter((pattern) => pattern > 0)
    .map((pattern) => [pattern, seen.get(pattern) as Uint8Array] as const);
  const fits = (candidate: Candidate): boolean => {
    if (candidate.canvas.width * candidate.canvas.height > addresses) return false;
    for (let pixel = 0; bits.length > 0 && pixel < width * height; pixel++) {
      if (working && working[pixel] === 0) continue;
      const address = addressOf(candidate, pixel, width);
      for (const [pattern, marks] of bits) if (lights(pattern, address) !== (marks[pixel] === 1)) return false;
    }
    return true;
  };
  return [...family(width, height, canvas)].filter(fits);
}

const MOST_TOLD = 100;

/** How many of them differ, by two sums of 32 bits over all their addresses. */
function distinctIn(candidates: readonly Candidate[], { width, height }: ProbedPanel): number | "many" {
  const kinds = new Set<string>();
  for (const candidate of candidates) {
    let [a, b] = [17, 5381];
    for (let i = 0; i < width * height; i++) {
      const address = addressOf(candidate, i, width);
      a = (Math.imul(a, 31) + address) | 0;
      b = Math.imul(b ^ address, 0x01000193);
    }
    if (kinds.add(`${a} ${b}`).size > MOST_TOLD) return "many";
  }
  return kinds.size;
}

/** So many wirings and pixels are looked at to choose the next question. */
const SAMPLED_WIRINGS = 400;
const SAMPLED_PIXELS = 200;

/** The pattern after which fewest wirings are left, whatever the answer: by the mean number of those that answer alike. */
function sharpest(candidates: readonly Candidate[], open: readonly number[], { width, height }: ProbedPanel): number {
  const each = Math.ceil(candidates.length / SAMPLED_WIRINGS);
  const sample = candidates.filter((_, i) => i % each === 0);
  const step = Math.max(1, Math.floor((width * height) / SAMPLED_PIXELS));
  let best = open[0] as number;
  let least = Number.POSITIVE_INFINITY;
  for (const pattern of open) {
    const alike = new Map<number, number>();
    for (const candidate of sample) {
      let sum = 0;
      for (let i = 0; i < width * height; i += step)
        sum = (Math.imul(sum, 31) + (lights(pattern, addressOf(candidate, i, width)) ? 7 : 3)) | 0;
      alike.set(sum, (alike.get(sum) ?? 0) + 1);
    }
    const mean = [...alike.values()].reduce((total, n) => total + n * n, 0);
    if (mean < least) {
      least = mean;
      best = pattern;
    }
  }
  return best;
}

function bitsOf(seen: ReadonlyMap<number, Uint8Array>, pixels: number): Uint32Array {
  const index = new Uint32Array(pixels);
  for (const [pattern, marks] of seen)
    for (let i = 0; pattern > 0 && i < pixels; i++) if (marks[i]) index[i] = (index[i] as number) + 2 ** (pattern - 1);
  return index;
}

const placeOf = (pixel: number, width: number) => `${pixel % width},${Math.floor(pixel / width)}`;

function listed(pixels: readonly number[], width: number): string {
  const some = pixels.slice(0, 4).map((pixel) => placeOf(pixel, width));
  return `${some.join("; ")}${pixels.length > some.length ? "; …" : ""}`;
}

/** Pixels that stay dark when every address is lit, and those that were seen lit all the same. */
function darkOnes(seen: ReadonlyMap<number, Uint8Array>, width: number): ProbeProblem[] {
  const working = seen.get(0);
  if (!working) return [];
  const dark = [...working.keys()].filter((i) => working[i] === 0);
  if (dark.length === 0) return [];
  const problems: ProbeProblem[] = [
    {
      kind: "gap",
      message: `${dark.length === 1 ? "1 pixel stays" : `${dark.length} pixels stay`} dark when every address is lit (${listed(dark, width)}): no address reaches ${dark.length === 1 ? "it" : "them"}.`,
      pixels: dark,
    },
  ];
  for (const [pattern, marks] of seen) {
    const both = dark.filter((i) => marks[i] === 1);
    if (both.length > 0)
      problems.push({
        kind: "contradiction",
        message: `Lit in pattern ${pattern}, but dark when every address is lit: ${listed(both, width)}. One of the two answers is wrong.`,
        pixels: both,
      });
  }
  return problems;
}

/** More pixels lit than a pattern has addresses. */
function tooMany(seen: ReadonlyMap<number, Uint8Array>, addresses: number): ProbeProblem[] {
  const problems: ProbeProblem[] = [];
  for (const [pattern, marks] of seen) {
    let most = 0;
    for (let address = 0; address < addresses; address++) if (lights(pattern, address)) most++;
    const lit = [...marks.keys()].filter((i) => marks[i] === 1);
    if (lit.length > most)
      problems.push({
        kind: "contradiction",
        message: `Pattern ${pattern} lights ${most} addresses, but ${lit.length} pixels are said to be lit.`,
        pixels: lit,
      });
  }
  return problems;
}

/** Addresses that two pixels claim, and such as the driver does not have. */
function wrongAddresses(
  index: Uint32Array,
  working: Uint8Array | undefined,
  width: number,
  addresses: number,
): ProbeProblem[] {
  const problems: ProbeProblem[] = [];
  const holder = new Map<number, number>();
  index.forEach((address, pixel) => {
    if (working?.[pixel] === 0) return;
    const before = holder.get(address);
    if (address >= addresses)
      problems.push({
        kind: "contradiction",
        message: `Pixel ${placeOf(pixel, width)} would have address ${address}, outside the ${addresses} of the driver.`,
        pixels: [pixel],
      });
    else if (before !== undefined)
      problems.push({
        kind: "contradiction",
        message: `Pixels ${placeOf(before, width)} and ${placeOf(pixel, width)} both claim address ${address}.`,
        pixels: [before, pixel],
      });
    else holder.set(address, pixel);
  });
  return problems;
}
