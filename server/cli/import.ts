/** `import`: pictures from outside as arrays. What is chosen is read in `importChoices.ts`. */
import { readFile, stat } from "node:fs/promises";
import { basename } from "node:path";
import { declarationOf } from "../../shared/bitmap/declaration.ts";
import { openText } from "../../shared/bitmap/open.ts";
import type { Bitmap, BitmapFile } from "../../shared/bitmap/resolve.ts";
import type { Source } from "../../shared/image/art.ts";
import { artOf } from "../../shared/image/art.ts";
import { intoBitmap } from "../../shared/image/into.ts";
import type { Art } from "../../shared/image/write.ts";
import { newPicture } from "../../shared/image/write.ts";
import { nameProblem } from "../../shared/source/identifiers.ts";
import { outlineOf } from "../../shared/source/outline.ts";
import { applyEdits } from "../../shared/source/text.ts";
import { worldOf } from "../features/world.ts";
import { MOST_BYTES, readPicture } from "../readPicture.ts";
import type { Command, Given } from "./command.ts";
import { bitmapNamed, textOf, wholeOf } from "./command.ts";
import { openFile, UserError } from "./files.ts";
import { choicesFrom, cuttingFrom, IMPORT_OPTIONS, paletteFormatFrom } from "./importChoices.ts";
import { saveText } from "./save.ts";

export const importCommand: Command = {
  name: "import",
  usage: `IMAGE… --as "WORDS" --name N [--into FILE [--write]]
  cli.js import IMAGE… (--into | --frame-of) FILE --name N [--frame N] [--line N] [--write]`,
  doc: `pictures (PNG, PBM, PGM, PPM, PAM, XBM) and fonts (BDF, PSF) as an annotated array: a new one of these words,
in place of frames of one that FILE has, or as further frames of it; printed, or with --write put into FILE
  [--channel luminance|alpha|red|green|blue|lightness|colours] [--background #RRGGBB|none] [--invert] [--linear]
  [--turn 90|180|270] [--mirror left-right|top-bottom] [--crop X,Y[,WxH]] [--fit exact|contain|cover]
  [--resample area|nearest] [--over-cap scale|clamp] [--threshold N|N%]
  [--dither floyd-steinberg|ordered-2|ordered-4|ordered-8] [--colours N] [--palette-format F]
  [--cell WxH [--gap N] [--margin N]] [--chars "0123"|U+0030-U+0039]`,
  options: IMPORT_OPTIONS,
  async run(paths, given, target, print) {
    if (paths.length === 0) throw new UserError("import takes the picture to read");
    const choices = choicesFrom(given);
    const cutting = cuttingFrom(given);
    const home = homeFrom(given);
    const sources: Source[] = [];
    for (const path of paths) sources.push(await sourceIn(path));
    const art = artOf(sources, cutting);
    if ("refused" in art) throw new UserError(`${paths.join(", ")}: ${art.refused}`);
    const notes = (more: readonly string[]) => {
      for (const note of [...art.notes, ...more]) process.stderr.write(`dotwright: ${note}\n`);
    };
    const file = home ? await openFile(home.file, target) : openText("", "", { target });
    const name = nameFrom(given, paths);
    const words = textOf(given, "as");
    const done =
      words === undefined
        ? replaced(file, art, { given, name, choices, further: home?.further === true })
        : added(file, art, { given, name, choices, words });
    notes(done.notes);
    if (given.write && home) await saveText(home.file, file.source.text, done.after);
    else print(done.text);
    return 0;
  },
};

interface Done {
  /** The annotation and array, as they are printed. */
  readonly text: string;
  /** The whole file after it. */
  readonly after: string;
  readonly notes: readonly string[];
}

interface Home {
  readonly file: string;
  readonly further: boolean;
}

function homeFrom(given: Given): Home | undefined {
  const [into, further, words] = [textOf(given, "into"), textOf(given, "frame-of"), textOf(given, "as")];
  if (into !== undefined && further !== undefined) throw new UserError("--into and --frame-of can't be combined");
  const file = into ?? further;
  if (words === undefined && file === undefined)
    throw new UserError(
      'import needs --as with the words of an annotation, such as "16x16 gray8", or --into or --frame-of with a file',
    );
  if (words !== undefined && further !== undefined)
    throw new UserError("--as is for a new array, and --frame-of for one that is there");
  if (given.write && file === undefined)
    throw new UserError("--write needs --into or --frame-of with the file to change");
  const frames = given.frame !== undefined || given.line !== undefined;
  if (words !== undefined && frames)
    throw new UserError("--frame and --line are for an array that is there, not for --as");
  if (further !== undefined && given.frame !== undefined)
    throw new UserError("--frame can't be combined with --frame-of");
  return file === undefined ? undefined : { file, further: further !== undefined };
}

/** One file at a time, and its size before its bytes. */
async function sourceIn(path: string): Promise<Source> {
  const info = await stat(path).catch(() => undefined);
  if (!info) throw new UserError(`${path}: there is no such file`);
  if (!info.isFile()) throw new UserError(`${path}: is no file`);
  if (info.size > MOST_BYTES)
    throw new UserError(`${path}: the file has ${info.size} bytes; up to ${MOST_BYTES} are read`);
  const bytes = await readFile(path).catch((error: NodeJS.ErrnoException) => {
    throw new UserError(`${path}: can't be read (${error.code ?? error.message})`);
  });
  const source = readPicture(bytes);
  if ("refused" in source) throw new UserError(`${path}: ${source.refused}`);
  return source;
}

/** The name that was given; for a new array else that of the picture's file. */
function nameFrom(given: Given, [path = ""]: readonly string[]): string {
  const name = textOf(given, "name");
  if (name !== undefined) return name;
  if (given.as === undefined) throw new UserError("name the bitmap by --name");
  const own = basename(path).replace(/\..*$/, "").replace(/\W+/g, "_");
  if (nameProblem(own) !== undefined) throw new UserError("name the array by --name");
  return own;
}

type Asked = { readonly given: Given; readonly name: string; readonly choices: ReturnType<typeof choicesFrom> };

function added(file: BitmapFile, art: Art, { given, name, choices, words }: Asked & { readonly words: string }): Done {
  const paletteFormat = paletteFormatFrom(given);
  const offset = endOf(file);
  const made = newPicture(file, art, { words, name, offset, choices, ...(paletteFormat ? { paletteFormat } : {}) });
  if ("refused" in made) {
    // Of no file, no panel can be known.
    const hint =
      file.file === "" && made.refused.startsWith("No panel") ? " Panels are those of the file that --into names." : "";
    throw new UserError(`${made.refused}${hint}`);
  }
  return { text: made.text, after: applyEdits(file.source.text, [made.edit]), notes: made.brought.notes };
}

/** Behind the last bitmap; else behind the last statement or directive, but before an `#endif` that closes the file. */
function endOf({ bitmaps, source }: BitmapFile): number {
  const { items } = outlineOf(source);
  const statements = items.filter(({ kind }) => kind !== "directive" && kind !== "comment");
  const directives = items.filter(
    ({ kind, start }) => kind === "directive" && !/^#\s*endif/.test(source.text.slice(start, start + 40)),
  );
  return bitmaps.at(-1)?.array.base ?? statements.at(-1)?.start ?? directives.at(-1)?.start ?? source.text.length;
}

function replaced(
  file: BitmapFile,
  art: Art,
  { given, name, choices, further }: Asked & { readonly further: boolean },
): Done {
  const bitmap = bitmapNamed(file, name, wholeOf(given, "line", 1, undefined));
  const at = further ? "further" : wholeOf(given, "frame", 0, 0);
  const done = intoBitmap(file, bitmap, art.pictures, choices, at, worldOf({ file }));
  if ("refused" in done) throw new UserError(done.refused);
  const after = applyEdits(file.source.text, done.edits);
  return { text: `${statementOf(after, done.bitmap)}\n`, after, notes: done.brought.notes };
}

/** Annotation and array as they stand in the text. */
function statementOf(text: string, { array, annotation }: Bitmap): string {
  const { start, end } = array.declaration;
  const from = annotation ? Math.min(annotation.comment.start, start) : start;
  return text.slice(from, declarationOf(text, array)?.end ?? end).trimEnd();
}
