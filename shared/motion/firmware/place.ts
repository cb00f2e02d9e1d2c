/** The function written into the file: over the one that is there, else behind what its annotation speaks of. */
import { declarationOf } from "../../bitmap/declaration.ts";
import { nameRefused } from "../../bitmap/make.ts";
import { reopened } from "../../bitmap/open.ts";
import type { BitmapFile } from "../../bitmap/resolve.ts";
import { indentAt, lineEnd } from "../../source/scan.ts";
import type { TextEdit } from "../../source/text.ts";
import { applyEdits, eolOf } from "../../source/text.ts";
import { framesOf } from "../kernel/frame.ts";
import type { Motion } from "../resolve.ts";
import { motionsOf } from "../resolve.ts";
import type { Refused, Style } from "./write.ts";
import { functionOf } from "./write.ts";

export interface Written {
  /** The function's text alone. */
  readonly text: string;
  readonly edits: readonly TextEdit[];
}

/** What the bodies of the file's functions are set in by, and its line breaks. */
export function styleOf({ source: { text } }: BitmapFile): Style {
  const body = /\)[ \t]*\{[ \t]*(?:\r\n|\n|\r)([ \t]+)\S/.exec(text)?.[1];
  return { indent: body ?? "  ", eol: eolOf(text) };
}

/**
 * The function of a motion and the edits that bring it into the file. Of an array it gets the array's name with
 * `_frame` behind, and an annotation of its own. A function that the user has written is never overwritten.
 */
export function firmware(file: BitmapFile, motion: Motion): Written | Refused {
  const { target, code } = motion;
  if (target) return besideArray(file, motion);
  if (code && !code.ours) return { refused: `${code.name} is a function of your own: put the @motion elsewhere` };
  const name = code?.name ?? motion.name;
  const text = functionOf(file, motion, name, styleOf(file));
  if (typeof text !== "string") return text;
  if (code) return { text, edits: code.text === text ? [] : [{ start: code.start, end: code.end, text }] };
  const taken = nameRefused(file, name);
  if (taken !== undefined) return { refused: taken };
  const { eol } = styleOf(file);
  const at = lineEnd(file.source.text, motion.annotation.comment.end);
  return checked(file, motion, { text, edits: [{ start: at, end: at, text: `${eol}${text}` }] }, name);
}

function besideArray(file: BitmapFile, motion: Motion): Written | Refused {
  const { annotation, target, options, fps } = motion;
  if (!target) return { refused: `${motion.name} has no array` };
  const source = file.source.text;
  const name = `${motion.name}_frame`;
  const text = functionOf(file, motion, name, styleOf(file));
  if (typeof text !== "string") return text;
  const words = annotation.words.map((w) => w.text);
  if (options.fps === undefined && fps !== undefined) words.push(`fps=${fps}`);
  const comment = `@motion ${words.join(" ")}`;
  const before = motionsOf(file).find((m) => m.code?.ours && m.code.name === name);
  if (before?.code) {
    const { start, end } = before.annotation;
    const edits = [
      { start, end, text: comment },
      { start: before.code.start, end: before.code.end, text },
    ].filter((e) => source.slice(e.start, e.end) !== e.text);
    return checked(file, motion, { text, edits }, name);
  }
  const taken = nameRefused(file, name);
  if (taken !== undefined) return { refused: taken };
  const declared = declarationOf(source, target.array);
  if (!declared) return { refused: `${motion.name} is not declared by itself, so no function can stand behind it` };
  const { eol } = styleOf(file);
  const indent = indentAt(source, target.array.declaration.start);
  if (indent !== "") return { refused: `${motion.name} stands inside another declaration: no function can follow it` };
  const at = declared.end;
  return checked(
    file,
    motion,
    { text, edits: [{ start: at, end: at, text: `${eol}${eol}// ${comment}${eol}${text}` }] },
    name,
  );
}

/** The annotation before the function must mean the same frames, also where a cap of the array does not reach it. */
function checked(file: BitmapFile, motion: Motion, written: Written, name: string): Written | Refused {
  const after = motionsOf(reopened(file, applyEdits(file.source.text, written.edits)));
  const now = after.find((m) => m.code?.ours && m.code.name === name);
  if (!now?.moving || !motion.moving) return { refused: `the function ${name} would not be read back` };
  if (now.code?.text !== written.text) return { refused: `the function ${name} would not be found again` };
  const [wanted, got] = [framesOf(motion.moving), framesOf(now.moving)];
  const same = wanted.length === got.length && wanted.every((pixels, i) => pixels.join() === got[i]?.join());
  if (same) return written;
  return {
    refused: `${motion.name} has another cap than its image: give both the same, so that the function keeps it`,
  };
}
