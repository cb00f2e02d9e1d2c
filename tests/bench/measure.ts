const WARM_MS = 300;

/** Times in milliseconds: the median of enough runs, after a warm-up, so that a passing load on the machine matters little. */
export function median(run: () => unknown, seconds = 1.5): number {
  const begun = performance.now();
  while (performance.now() - begun < WARM_MS) run();
  const times: number[] = [];
  const start = performance.now();
  while (times.length < 5 || (performance.now() - start < seconds * 1000 && times.length < 2000)) {
    const from = performance.now();
    run();
    times.push(performance.now() - from);
  }
  times.sort((a, b) => a - b);
  return times[times.length >> 1] as number;
}

/**
 * Medians of several functions that take turns, so that a load on the machine falls on all of them alike. Each has run
 * for a while before: what is measured is a server that is at work, not its compiler.
 */
export function sideBySide(runs: readonly (() => unknown)[], rounds = 40): number[] {
  const times = runs.map(() => [] as number[]);
  for (const run of runs) for (const begun = performance.now(); performance.now() - begun < WARM_MS; ) run();
  for (let round = 0; round < rounds; round++) {
    runs.forEach((run, i) => {
      const from = performance.now();
      run();
      times[i]?.push(performance.now() - from);
    });
  }
  return times.map((list) => list.sort((a, b) => a - b)[list.length >> 1] as number);
}

export interface Row {
  readonly what: string;
  readonly measured: string;
  readonly target: string;
  readonly met: boolean;
}

/** A row for the table of results. */
export function row(what: string, measured: string, target: string, met: boolean): Row {
  return { what, measured, target, met };
}
