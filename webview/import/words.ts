/** The words of the annotation to be, changed one kind at a time; pure. */
import { FORMATS } from "../../shared/pixels/formats.ts";

const SIZE = /^\d+x\d+$/;
const PACKING = /^(?:pack|bits)=/;

/** Words with another size or panel in place of the one they have; none where `size` is empty: the picture's own. */
export function withSize(words: string, size: string, panels: readonly string[]): string {
  const rest = split(words).filter((word) => !SIZE.test(word) && !panels.includes(word));
  return [...split(size), ...rest].join(" ");
}

/** Words with another format, and the packing that goes with it, behind the size or panel. */
export function withFormat(words: string, format: string, panels: readonly string[]): string {
  const size = sizeIn(words, panels);
  const rest = split(words).filter((word) => word !== size && !FORMATS.has(word) && !PACKING.test(word));
  return [...split(size), ...split(format), ...rest].join(" ");
}

/** The size or panel in the words; empty where they have none. */
export function sizeIn(words: string, panels: readonly string[]): string {
  return split(words).find((word) => SIZE.test(word) || panels.includes(word)) ?? "";
}

/** The format in the words, with its packing; empty where it is the panel's or the default. */
export function formatIn(words: string): string {
  return split(words)
    .filter((word) => FORMATS.has(word) || PACKING.test(word))
    .join(" ");
}

function split(words: string): string[] {
  return words
    .trim()
    .split(/\s+/)
    .filter((word) => word !== "");
}
