/** Spelling: the nearest word of a list to one that is not in it. */

/** The candidate nearest to `word` by edits (insert, delete, replace, swap), if it is near enough to be meant. */
export function nearest(word: string, candidates: Iterable<string>): string | undefined {
  const lower = word.toLowerCase();
  const reach = Math.max(1, Math.min(3, Math.floor(word.length / 2)));
  let best: string | undefined;
  let least = reach + 1;
  for (const candidate of candidates) {
    const distance = edits(lower, candidate.toLowerCase(), least);
    if (distance < least) {
      least = distance;
      best = candidate;
    }
  }
  return best;
}

/** Optimal string alignment distance (Damerau–Levenshtein without overlapping swaps). */
export function edits(a: string, b: string, most = Number.POSITIVE_INFINITY): number {
  if (Math.abs(a.length - b.length) > most || a.length > 64) return most + 1;
  let two: number[] = [];
  let one = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const row = [i];
    for (let j = 1; j <= b.length; j++) {
      const same = a[i - 1] === b[j - 1] ? 0 : 1;
      let best = Math.min((one[j] as number) + 1, (row[j - 1] as number) + 1, (one[j - 1] as number) + same);
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1])
        best = Math.min(best, (two[j - 2] as number) + 1);
      row.push(best);
    }
    two = one;
    one = row;
  }
  return one[b.length] as number;
}
