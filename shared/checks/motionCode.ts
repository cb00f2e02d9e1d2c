import type { BitmapFile } from "../bitmap/resolve.ts";
import { liveMotions } from "../motion/live.ts";
import { trialsOf } from "../motion/trial.ts";
import { flashesOfFrames } from "./flashing.ts";
import type { Finding } from "./rules.ts";

/**
 * Functions that are marked `@motion … code`: what of them can't be played, at its place, and what goes wrong in the
 * first frames, such as a division by zero, an index outside of its array or a loop that does not end.
 */
export function codeFindings(file: BitmapFile): Finding[] {
  return liveMotions(file).flatMap(findingsOf);
}

function findingsOf(motion: ReturnType<typeof liveMotions>[number]): Finding[] {
  const finding = (severity: Finding["severity"], message: string, start: number, end: number): Finding => ({
    code: "motion",
    severity,
    message,
    span: { start, end },
    bitmap: -1,
    data: {},
  });
  const found = motion.problems.map((p) => finding(p.passed ? "information" : "error", p.message, p.start, p.end));
  const trials = trialsOf(motion, flashesOfFrames).map(({ kind, message, start, end }): Finding => {
    const of = finding(kind === "stops" ? "error" : "warning", message, start, end);
    return kind === "flashing" ? { ...of, code: "flashing" } : of;
  });
  return [...found, ...trials];
}
