/** Numbers that look random and are the same in every run: xorshift32 (Marsaglia 2003). */
export function randomBytes(count: number, seed: number, most = 255): number[] {
  let state = seed | 1;
  return Array.from({ length: count }, () => {
    state ^= state << 13;
    state ^= state >>> 17;
    state ^= state << 5;
    return (state >>> 0) % (most + 1);
  });
}
