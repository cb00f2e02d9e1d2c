/**
 * smoothstep in whole numbers (Khronos GLSL reference: t²·(3 − 2t) of t = (x − e0)/(e1 − e0), held within 0 and 1):
 * round(full · smoothstep) where `step` of `steps` equal steps from e0 to e1 are done. `steps` is at least 1.
 * Exact, and so the same on every machine: full · step² · (3·steps − 2·step) / steps³ stays below 2^53 up to 4,096 steps.
 */
export function smoothstep(step: number, steps: number, full: number): number {
  const n = Math.min(steps, Math.max(0, step));
  const cube = steps * steps * steps;
  return Math.floor((2 * full * n * n * (3 * steps - 2 * n) + cube) / (2 * cube));
}
