/** Live code in a text, as the tests see it. */
import { openText } from "../../../shared/bitmap/open.ts";
import { checkFile } from "../../../shared/checks/all.ts";
import { type LiveMotion, liveMotions } from "../../../shared/motion/live.ts";
import { playerOf } from "../../../shared/motion/play.ts";

export const PANEL = "// @panel bed 3x2 gray8 cap=64\n";

/** The first motion of a text. */
export function motionIn(text: string, file = "a.cpp"): LiveMotion {
  const [motion] = liveMotions(openText(text, file));
  if (!motion) throw new Error("there is no motion");
  return motion;
}

/** Frames of a function for a panel of 3×2, the annotation before it. */
export function framesOf(code: string, count: number, file?: string): number[][] {
  const motion = motionIn(code.includes("@panel") ? code : PANEL + code, file);
  const player = playerOf(motion);
  if (!player) throw new Error(motion.why);
  return Array.from({ length: count }, (_, i) => Array.from(player.frame(i)));
}

/** `severity: words: message` of each finding of the code `motion`. */
export function told(text: string, file = "a.cpp"): string[] {
  return checkFile(openText(text, file))
    .filter(({ code }) => code === "motion")
    .map(({ severity, message, span }) => `${severity}: ${text.slice(span.start, span.end)}: ${message}`);
}
