/** What stands beside the text of bitmaps: thumbnails and row pictures at line ends, and words for zero-filled ends. */
import type { DecorationOptions, TextDocument, TextEditor, ThemableDecorationAttachmentRenderOptions } from "vscode";
import { l10n, Range, ThemeColor, Uri, window } from "vscode";
import type { BitmapInfo, BitmapLines } from "../shared/protocol/lsp.ts";
import type { LinePicture } from "./rowPictures.ts";
import { columnsOf, paddings } from "./rowPictures.ts";

type ZeroFill = BitmapLines["zeros"][number];

/** Of some lines of one bitmap. */
export interface Beside {
  readonly bitmap: BitmapInfo;
  readonly thumbnail?: LinePicture | undefined;
  readonly rows: readonly LinePicture[];
  readonly zeros: readonly ZeroFill[];
}

export interface Besides {
  /** Shows these, and takes away all others of the editor. */
  show(editor: TextEditor, besides: readonly Beside[], contrast: boolean): void;
  dispose(): void;
}

export function besides(): Besides {
  const thumbnails = window.createTextEditorDecorationType({});
  const rows = window.createTextEditorDecorationType({});
  const zeros = window.createTextEditorDecorationType({});
  return {
    show(editor, shown, contrast) {
      const { document } = editor;
      const tabSize = Number(editor.options.tabSize) || 4;
      const first = shown.flatMap((s) => s.thumbnail ?? []);
      editor.setDecorations(
        thumbnails,
        first.map((picture) => atLineEnd(document, picture, 1, contrast)),
      );
      const ofWords = new Map<number, number>();
      for (const { line, count } of shown.flatMap((s) => s.zeros))
        ofWords.set(line, (ofWords.get(line) ?? 0) + wordsOf(count).length + 1);
      const ofBitmap = new Map<BitmapInfo, LinePicture[]>();
      for (const s of shown) ofBitmap.set(s.bitmap, [...(ofBitmap.get(s.bitmap) ?? []), ...s.rows]);
      editor.setDecorations(
        rows,
        [...ofBitmap.values()].flatMap((pictures) => {
          const free = paddings(
            pictures.map(({ line }) => columnsOf(document.lineAt(line).text, tabSize) + (ofWords.get(line) ?? 0)),
          );
          return pictures.map((picture, i) => atLineEnd(document, picture, 2 + (free[i] ?? 0), contrast));
        }),
      );
      editor.setDecorations(
        zeros,
        shown.flatMap((s) => s.zeros.map((zero) => zeroFilled(document, zero))),
      );
    },
    dispose() {
      for (const type of [thumbnails, rows, zeros]) type.dispose();
    },
  };
}

/** Behind all that the line holds, where it moves no text. In high contrast it has an edge in the theme's colour. */
function atLineEnd(document: TextDocument, picture: LinePicture, free: number, contrast: boolean): DecorationOptions {
  const after: ThemableDecorationAttachmentRenderOptions = {
    contentIconPath: Uri.parse(picture.uri),
    // The edge counts as part of the size.
    width: `${picture.width + (contrast ? 2 : 0)}px`,
    height: `${picture.height + (contrast ? 2 : 0)}px`,
    margin: `${contrast ? 0 : 1}px 0 0 ${free}ch`,
    // The one style that reaches the picture's place in its line: on the baseline it would stand out above.
    textDecoration: "none; vertical-align: top",
    ...(contrast ? { border: "1px solid", borderColor: new ThemeColor("contrastBorder") } : {}),
  };
  const { end } = document.lineAt(picture.line).range;
  return { range: new Range(end, end), renderOptions: { after } };
}

/** Words at the closing brace, so that nobody has to tell these elements by a colour. */
function zeroFilled(document: TextDocument, { line, character, count }: ZeroFill): DecorationOptions {
  const [before = ""] = document.lineAt(line).text.slice(0, character).slice(-1);
  const words: ThemableDecorationAttachmentRenderOptions = {
    contentText: wordsOf(count),
    color: new ThemeColor("editorInlayHint.foreground"),
    backgroundColor: new ThemeColor("editorInlayHint.background"),
    fontStyle: "normal",
  };
  // Between a number and the brace that touches it, the number's own decoration would spread over the words.
  const touching = /\w/.test(before);
  return {
    range: new Range(line, character, line, character + 1),
    renderOptions: touching
      ? { after: { ...words, margin: "0 0 0 1ch" } }
      : { before: { ...words, margin: `0 1ch 0 ${before === "," ? 1 : 0}ch` } },
    hoverMessage:
      count === 1
        ? l10n.t("The compiler fills 1 element with 0.")
        : l10n.t("The compiler fills {0} elements with 0.", count),
  };
}

function wordsOf(count: number): string {
  return `+ ${count} × 0`;
}
