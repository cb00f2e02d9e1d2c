/** Live code in the editor: its hover, its line above the function, and its frames for a painter to show. */
import type { CodeLens } from "vscode-languageserver/node";
import type { BitmapIdentity } from "../../shared/bitmap/edit.ts";
import { identityOf } from "../../shared/bitmap/edit.ts";
import { Stopped } from "../../shared/motion/interpret/machine.ts";
import { type LiveMotion, liveMotions } from "../../shared/motion/live.ts";
import { playerOf } from "../../shared/motion/play.ts";
import type { Pixels } from "../../shared/pixels/picture.ts";
import type { LspParams, LspReply } from "../../shared/protocol/lsp.ts";
import type { Span } from "../../shared/source/text.ts";
import type { Parsed } from "../documents.ts";
import { fitted, mostFrames } from "./hoverPicture.ts";
import { rangeOf } from "./place.ts";
import type { ClientSettings } from "./settings.ts";
import { sizeAndFormat } from "./words.ts";

/** Steps of a hover, and of one answer: about 50 ms of work. */
const STEPS = 5_000_000;

interface Played {
  readonly frames: readonly Pixels[];
  /** Why there are no more frames. */
  readonly stopped?: string;
}

/** Frames from `from` on: up to `most`, and as many as the steps allow, but at least one. */
function played(motion: LiveMotion, from: number, most: number): Played {
  const player = playerOf(motion);
  if (!player) return { frames: [], stopped: motion.why ?? "it can't be played" };
  const frames: Pixels[] = [];
  let left = STEPS;
  for (let frame = from; frame < from + most && left > 0; frame++) {
    try {
      frames.push(player.frame(frame));
    } catch (error) {
      if (!(error instanceof Stopped)) throw error;
      return { frames, stopped: error.message };
    }
    left -= player.steps();
  }
  return { frames };
}

const hovers = new WeakMap<LiveMotion, string>();

/** The hover on the function's name or on the annotation; undefined elsewhere. */
export function describeLive(
  parsed: Parsed,
  offset: number,
  { markdown }: ClientSettings,
  link: (motion: LiveMotion) => string | undefined,
): { readonly markdown: string; readonly span: Span } | undefined {
  const holds = ({ start, end }: Span) => start <= offset && offset <= end;
  const motion = liveMotions(parsed.file).find((m) => holds(m.nameSpan) || holds(m.annotation));
  if (!motion) return undefined;
  const span = holds(motion.nameSpan) ? motion.nameSpan : motion.annotation;
  const known = hovers.get(motion) ?? described(motion, markdown, link(motion));
  hovers.set(motion, known);
  return { markdown: known, span };
}

function described(motion: LiveMotion, picture: boolean, link: string | undefined): string {
  const { bitmap, name, fps } = motion;
  const facts = motion.why === undefined ? [] : [`Not played: ${motion.why}`];
  const head = bitmap ? ` · ${sizeAndFormat(bitmap)} · code, ${fps} frames a second` : "";
  const parts = [`**\`${name}\`**${head}${link && motion.why === undefined ? ` · ${link}` : ""}`];
  if (bitmap && motion.why === undefined && picture) {
    const { frames, stopped } = played(motion, 0, mostFrames(bitmap));
    const { shown, url } = fitted(bitmap, frames);
    if (url !== undefined) parts.push(`![${name}](${url})`);
    if (shown > 0) facts.push(`The first ${shown} ${shown === 1 ? "frame" : "frames"} are played again and again`);
    else if (stopped === undefined) facts.push("The picture is too large for a hover");
    if (stopped !== undefined) facts.push(`Frame ${frames.length} can't be played: ${stopped}`);
  }
  facts.push(`\`@motion ${motion.annotation.words.map((w) => w.text).join(" ")}\``);
  parts.push(facts.map((fact) => `- ${fact}`).join("\n"));
  return parts.join("\n\n");
}

/** The line above each function that plays. */
export function liveLenses({ uri, document, file }: Parsed, command: string | undefined): CodeLens[] {
  return liveMotions(file).flatMap(({ bitmap, why, nameSpan, fps }) => {
    if (!bitmap || why !== undefined || command === undefined) return [];
    const title = `Play · ${sizeAndFormat(bitmap)} · ${fps} frames a second`;
    const range = rangeOf(document, nameSpan);
    return [{ range, command: { title, command, arguments: [uri, identityOf(bitmap), "play"] } }];
  });
}

/** The motion that a painter means: the function of that name, whatever has become of its frames. */
function liveNamed({ file }: Parsed, { name }: BitmapIdentity): LiveMotion | undefined {
  return liveMotions(file).find((m) => m.name === name);
}

/** Most frames of one answer. */
const MOST = 1000;

export function liveFrames(
  parsed: Parsed,
  params: LspParams<"dotwright/liveFrames">,
): LspReply<"dotwright/liveFrames"> {
  const { identity, from, count } = params;
  const motion = liveNamed(parsed, identity);
  if (!motion) return { err: `${identity.name} is no longer there` };
  if (motion.why !== undefined) return { err: `${motion.name} is not played: ${motion.why}` };
  const whole = [from, count].every((n) => Number.isInteger(n) && n >= 0 && n <= 1_000_000);
  if (!whole || count === 0) return { err: `there are no ${count} frames from ${from}` };
  const { frames, stopped } = played(motion, from, Math.min(count, MOST));
  return {
    ok: {
      version: parsed.version,
      frames: frames.map((pixels) => Array.from(pixels)),
      ...(stopped === undefined ? {} : { stopped }),
    },
  };
}
