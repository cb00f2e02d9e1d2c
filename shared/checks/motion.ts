import type { Bitmap, BitmapFile } from "../bitmap/resolve.ts";
import type { Flashing } from "../light/flashing.ts";
import { bake } from "../motion/bake.ts";
import { bytesOfFrame, firmwareBytes } from "../motion/facts.ts";
import { firmware, styleOf } from "../motion/firmware/place.ts";
import { functionOf } from "../motion/firmware/write.ts";
import type { Judged } from "../motion/judged.ts";
import { judge } from "../motion/judged.ts";
import type { Motion } from "../motion/resolve.ts";
import { motionsOf } from "../motion/resolve.ts";
import { changeMotion } from "../motion/words.ts";
import type { Span } from "../source/text.ts";
import { flashesOf, flashingInWords } from "./flashing.ts";
import { codeFindings } from "./motionCode.ts";
import type { Finding, Fix, Rule, Severity } from "./rules.ts";
import { counted } from "./rules.ts";

/** Frames above this are told what they take: a quarter of the 32 KB of flash of an ATmega328P (its data sheet). */
const LARGE = 8192;

/**
 * Motions: what their words lack, ends that are not wholly dark and wholly shown, frames and functions that are out of
 * date, sums that a byte would wrap around, and light that flashes. Functions of the user's own: `motionCode.ts`.
 */
export const motion: Rule = {
  codes: ["motion"],
  doc: "A motion is not whole, does not reach its ends, goes wrong, or what is written of it is out of date.",
  check: (file) => [...motionsOf(file).flatMap((one, index) => findingsOf(file, one, index)), ...codeFindings(file)],
  fixes: (file, { data }) => {
    const one = motionsOf(file)[Number(data.motion)];
    return one ? fixesOf(file, one, data) : [];
  },
};

type Say = (severity: Severity, span: Span, message: string, data: Finding["data"]) => Finding;

function findingsOf(file: BitmapFile, one: Motion, index: number): Finding[] {
  const say: Say = (severity, { start, end }, message, data) => ({
    code: "motion",
    severity,
    message,
    span: { start, end },
    bitmap: -1,
    data: { motion: index, ...data },
  });
  const wrong = one.problems.map((p) =>
    say("error", p, p.message, p.suggestion === undefined ? {} : { start: p.start, end: p.end, instead: p.suggestion }),
  );
  const judged = judge(file, one);
  if (!judged) return wrong;
  return [
    ...endFindings(one, judged, say),
    ...sumFindings(one, judged, say),
    ...writtenFindings(file, one, judged, say),
  ];
}

/** Both ends must be reached, or the display keeps a rest of the picture or of the edge. */
function endFindings({ words, moving, annotation, glyphs }: Motion, { ends }: Judged, say: Say): Finding[] {
  const { positions } = moving?.timeline ?? { positions: [0] };
  const higher = (positions[0] as number) >= (positions[positions.length - 1] as number) ? "from" : "to";
  return ends.wrong.map((end) => {
    const isDark = end === higher;
    const needed = isDark ? ends.dark : ends.shown;
    const dark = glyphs ? "shows only what was there before" : "is wholly dark";
    const message = isDark
      ? `No frame ${dark}: with this mask that begins at ${needed}.`
      : `No frame shows the image alone: with this mask that is at ${needed} and below.`;
    return say("warning", words.get(end) ?? annotation.markerSpan, message, { end, needed });
  });
}

/** The model stops at the cap; code that adds bytes without care would not. */
function sumFindings({ words, annotation, moving, target, image }: Motion, { sums }: Judged, say: Say): Finding[] {
  if (!sums || !moving) return [];
  const most = (target ?? image?.bitmap)?.format.most ?? 255;
  const { count, frames, sum, frame, x, y } = sums;
  const message =
    `Image and edge together pass ${most} in ${counted(count, "pixel")} of ${counted(frames, "frame")}, most at ${x},${y} ` +
    `in frame ${frame}: ${sum}. They are held at ${moving.cap}; in bytes added without care it would be ${sum & most}.`;
  return [say("information", words.get("level") ?? annotation.markerSpan, message, { frame, x, y })];
}

function writtenFindings(file: BitmapFile, one: Motion, judged: Judged, say: Say): Finding[] {
  const { annotation, target, code, name } = one;
  const at = annotation.markerSpan;
  if (target) {
    const { stale, order } = judged;
    const size = bytesOfFrame(target) * order.length;
    const found = stale
      ? [say("warning", at, `${name} ${staleInWords(target.frames, stale)}`, { fix: "bake" })]
      : flashes(one, judged, say);
    if (size <= LARGE) return found;
    const message = `${counted(order.length, "frame")} of ${bytesOfFrame(target)} bytes are ${size} bytes of flash; computed in firmware the motion takes ${firmwareBytes(one)} bytes of data.`;
    return [...found, say("information", at, message, { fix: "firmware" })];
  }
  if (code && !code.ours) {
    const message = `${name} is a function of your own: an @motion stands before an array of frames, or before a function that Dotwright writes.`;
    return [say("warning", at, message, {})];
  }
  if (!code) {
    const message = "Nothing holds this motion yet: put it before an array, or let the function be written.";
    return [say("warning", at, message, { fix: "firmware" })];
  }
  const text = functionOf(file, one, name, styleOf(file));
  if (typeof text !== "string") return [say("error", at, `The function can't be written: ${text.refused}.`, {})];
  const found = flashes(one, judged, say);
  if (text === code.text) return found;
  return [...found, say("warning", code.nameSpan, `${name} is not what its @motion says.`, { fix: "firmware" })];
}

function staleInWords(has: number, { frames, first }: { readonly frames: number; readonly first: number }): string {
  if (has !== frames) return `holds ${counted(has, "frame")}, and its @motion gives ${frames}.`;
  return `does not hold what its @motion gives: frame ${first} is the first that differs.`;
}

/** Counting flashes takes long: it is done once for the same frames, light and speed. */
const flashesKept = new WeakMap<Judged, Map<string, readonly Flashing[]>>();

function flashesIn(bitmap: Bitmap, fps: number, loop: boolean, judged: Judged): readonly Flashing[] {
  const { drive, light, options, palette, format } = bitmap;
  const { tint, pitch, distance } = options;
  const key = [fps, loop, drive, light, tint, pitch, distance, palette?.colours.join(" "), format.name].join();
  const known = flashesKept.get(judged) ?? new Map<string, readonly Flashing[]>();
  flashesKept.set(judged, known);
  const { frames, order } = judged;
  const shown = { frames: frames.length, pixels: (frame: number) => frames[frame], order, loop };
  const found = known.get(key) ?? flashesOf(bitmap, fps, shown);
  known.set(key, found);
  return found;
}

/** Frames that an array holds in order are judged by `flashing`; these are those that are shown in another way. */
function flashes(one: Motion, judged: Judged, say: Say): Finding[] {
  const { target, image, fps, moving, annotation, words } = one;
  const bitmap = target ?? image?.bitmap;
  const { frames, order } = judged;
  if (!bitmap || !moving || fps === undefined || (target && target.frames === order.length)) return [];
  return flashesIn(bitmap, fps, moving.timeline.loop !== "once", judged).map((found) =>
    say("warning", words.get("fps") ?? annotation.markerSpan, flashingInWords(frames.length, fps, found).message, {}),
  );
}

function fixesOf(file: BitmapFile, one: Motion, data: Finding["data"]): Fix[] {
  if (typeof data.instead === "string") {
    const edit = { start: Number(data.start), end: Number(data.end), text: data.instead };
    return [{ kind: "word", title: `Write \`${data.instead}\``, edits: [edit], preferred: true }];
  }
  if (data.end === "from" || data.end === "to") {
    const edits = changeMotion(file.source.text, one, new Map([[data.end, `${data.end}=${data.needed}`]]));
    return [{ kind: "end", title: `Write \`${data.end}=${data.needed}\``, edits, preferred: true }];
  }
  if (data.fix === "bake") {
    const baked = bake(file, one);
    if ("refused" in baked) return [];
    const title = `Bake ${counted(baked.frames.length, "frame")} into ${one.name}`;
    return [{ kind: "bake", title, edits: baked.edits, preferred: true }];
  }
  if (data.fix === "firmware") {
    const written = firmware(file, one);
    if ("refused" in written || written.edits.length === 0) return [];
    return [{ kind: "firmware", title: `Write the function that computes ${one.name}`, edits: written.edits }];
  }
  return [];
}
