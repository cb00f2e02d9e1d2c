/** `New Bitmap…`: asks for size, format, frames and name, and puts annotation and array at the cursor as one step of undo. */
import type { QuickPickItem, TextDocument, TextEditor } from "vscode";
import { l10n, QuickPickItemKind, Selection, TextEditorRevealType, window } from "vscode";
import type { NewBitmapChoices } from "../shared/protocol/lsp.ts";
import { applied } from "./applied.ts";
import type { Ask } from "./ask.ts";
import { rangeOf } from "./ranges.ts";
import { isReadOnly } from "./readOnly.ts";

/** A way to begin the annotation; without words they are asked for. */
type Start = QuickPickItem & { readonly words?: string };

/** The command; it says in words why nothing could be made. */
export function newBitmapCommand(ask: Ask): () => Promise<void> {
  return async () => {
    const editor = window.activeTextEditor;
    if (!editor) {
      void window.showInformationMessage(
        l10n.t("Open a C or C++ file, and put the cursor where the bitmap should stand."),
      );
      return;
    }
    if (await isReadOnly(editor.document)) {
      void window.showInformationMessage(l10n.t("This file can only be read, so no bitmap can be put into it."));
      return;
    }
    try {
      await make(ask, editor);
    } catch (error) {
      void window.showErrorMessage(error instanceof Error ? error.message : String(error));
    }
  };
}

async function make(ask: Ask, editor: TextEditor): Promise<void> {
  const { document } = editor;
  const uri = document.uri.toString();
  const judge = (words: string, name?: string) =>
    ask("dotwright/newBitmap", {
      uri,
      position: editor.selection.active,
      words,
      judge: true,
      ...(name === undefined ? {} : { name }),
    });
  /** What is wrong, as an input box shows it. */
  const complaint = (words: string, name?: string) =>
    judge(words, name).then(
      () => undefined,
      (error: unknown) => (error instanceof Error ? error.message : String(error)),
    );

  const choices = await ask("dotwright/newBitmapChoices", { uri });
  const begun = await askSize(choices, complaint);
  if (begun === undefined) return;
  const { formatGiven, framesGiven } = await judge(begun);
  const still = formatGiven ? begun : await askFormat(choices, begun);
  if (still === undefined) return;
  const words = framesGiven ? still : await askFrames(still, complaint);
  if (words === undefined) return;
  const { name: free, elements } = await judge(words);
  const name = await window.showInputBox({
    title: l10n.t("New bitmap: {0}, {1} elements", words, elements),
    prompt: l10n.t("Name of the array"),
    value: free,
    validateInput: (value) => complaint(words, value.trim()),
  });
  if (name === undefined) return;
  const place = await insert(ask, document, editor.selection.active, words, name.trim());
  if (!place) return;
  const shown =
    window.visibleTextEditors.find((e) => e.document === document) ?? (await window.showTextDocument(document));
  shown.selection = new Selection(place.start, place.end);
  shown.revealRange(place, TextEditorRevealType.InCenterIfOutsideViewport);
}

/** The size or panel, or whatever words are typed instead; undefined where it was left with Escape. */
async function askSize(
  { panels, sizes }: NewBitmapChoices,
  complaint: (words: string) => Thenable<string | undefined>,
): Promise<string | undefined> {
  const items: Start[] = [
    ...panels.map(({ name, width, height, format = "" }) => ({
      label: name,
      description: l10n.t("panel, {0}×{1} {2}", width, height, format).trim(),
      words: name,
    })),
    { label: l10n.t("Sizes, columns × rows"), kind: QuickPickItemKind.Separator },
    ...sizes.map((size) => ({ label: size.replace("x", "×"), words: size })),
    { label: "", kind: QuickPickItemKind.Separator },
    { label: l10n.t("Other…"), description: l10n.t("another size, or any words of an annotation") },
  ];
  const title = l10n.t("New bitmap");
  const chosen = await window.showQuickPick(items, { title, placeHolder: l10n.t("Panel or size") });
  if (!chosen || chosen.words !== undefined) return chosen?.words;
  const typed = await window.showInputBox({
    title,
    prompt: l10n.t("The words after “@bitmap”, such as 12x8 mono1 frames=4"),
    validateInput: (value) => complaint(value),
  });
  return typed?.trim();
}

/** The words with a format added to them; none where it is the default. */
async function askFormat({ formats }: NewBitmapChoices, words: string): Promise<string | undefined> {
  const items = formats.flatMap(({ name, depth }): (QuickPickItem & { adds: string })[] => {
    const description = depth === 1 ? l10n.t("1 bit a pixel") : l10n.t("{0} bits a pixel", depth);
    const item = { label: name, description, adds: name };
    if (name === "gray8") return [{ ...item, description: l10n.t("{0}, the default", description), adds: "" }];
    if (name !== "mono1") return [item];
    const packed = (label: string, how: string) => ({
      label: `${name} ${label}`,
      description: how,
      adds: `${name} ${label}`,
    });
    return [
      { ...item, description: l10n.t("{0}, 8 along a row to a byte", description) },
      packed("pack=pages", l10n.t("{0}, 8 down a column to a byte, band by band", description)),
      packed("pack=columns", l10n.t("{0}, column by column", description)),
    ];
  });
  const usual = items.filter((i) => i.adds === "");
  const chosen = await window.showQuickPick([...usual, ...items.filter((i) => i.adds !== "")], {
    title: l10n.t("New bitmap: {0}", words),
    placeHolder: l10n.t("Format of a pixel"),
  });
  return chosen && withWords(words, chosen.adds);
}

/** The words with a number of frames added to them; none where it is the usual 1. */
async function askFrames(
  words: string,
  complaint: (words: string) => Thenable<string | undefined>,
): Promise<string | undefined> {
  const withFrames = (typed: string) => {
    const [, count] = /^0*([1-9]\d*)$/.exec(typed.trim()) ?? [];
    return count && (count === "1" ? words : withWords(words, `frames=${count}`));
  };
  const typed = await window.showInputBox({
    title: l10n.t("New bitmap: {0}", words),
    prompt: l10n.t("Number of frames: 1 for a still picture"),
    value: "1",
    validateInput: (value) => {
      const wanted = withFrames(value);
      return wanted ? complaint(wanted) : l10n.t("A whole number of 1 or more is needed here.");
    },
  });
  return typed === undefined ? undefined : withFrames(typed);
}

/** Adds words to those of an annotation, before the free text that may end them. */
function withWords(words: string, more: string): string {
  if (more === "") return words;
  const [, options = "", rest = ""] = /^(.*?)(\s--(?:\s.*)?)?$/.exec(words) ?? [];
  return `${options} ${more}${rest}`;
}

/** Applies the server's edit. Resolves to the name's place; to undefined where the user would rather not write. */
async function insert(
  ask: Ask,
  document: TextDocument,
  position: { readonly line: number; readonly character: number },
  words: string,
  name: string,
) {
  const uri = document.uri.toString();
  const answer = await applied(document, () => ask("dotwright/newBitmap", { uri, position, words, name }));
  if (answer === "moved") throw new Error(l10n.t("The file changed meanwhile, so nothing was put into it."));
  return answer === "declined" ? undefined : rangeOf(answer.nameRange);
}
