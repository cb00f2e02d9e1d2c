/** A function of a number, such as a raw value or a frame, that is worked out once for each. */
export function remembered<T>(of: (key: number) => T): (key: number) => T {
  const known = new Map<number, T>();
  return (key) => {
    const before = known.get(key);
    if (before !== undefined) return before;
    const made = of(key);
    known.set(key, made);
    return made;
  };
}
