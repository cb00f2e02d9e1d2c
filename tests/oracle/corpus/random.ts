/** A seeded source of choices: the same seed gives the same corpus on every computer. */
export interface Random {
  /** A whole number from `least` to `most`, both included. */
  readonly int: (least: number, most: number) => number;
  readonly chance: (probability: number) => boolean;
  readonly pick: <T>(list: readonly T[]) => T;
  readonly shuffle: <T>(list: readonly T[]) => T[];
}

/** A 32-bit linear congruential generator (Knuth, TAOCP vol. 2, table 3.3.4-1, line 16) whose high bits are used. */
export function seeded(seed: number): Random {
  let state = seed >>> 0;
  const next = () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return (state >>> 4) / 2 ** 28;
  };
  const int = (least: number, most: number) => least + Math.floor(next() * (most - least + 1));
  const pick = <T>(list: readonly T[]): T => {
    if (list.length === 0) throw new RangeError("nothing to pick from");
    return list[int(0, list.length - 1)] as T;
  };
  const shuffle = <T>(list: readonly T[]): T[] => {
    const rest = [...list];
    return list.map(() => rest.splice(int(0, rest.length - 1), 1)[0] as T);
  };
  return { int, chance: (probability) => next() < probability, pick, shuffle };
}
