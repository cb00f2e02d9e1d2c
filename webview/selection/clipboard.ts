/** Copying and pasting: through the system clipboard, as text in C and as a picture. */
import * as l10n from "@vscode/l10n";
import type { ReadPicture } from "../../shared/protocol/lsp.ts";
import type { Rpc } from "../../shared/protocol/rpc.ts";
import type { ToHost } from "../../shared/protocol/webview.ts";
import { sameArray } from "../frameEditing.ts";
import { isActive } from "../keys/selection.ts";
import { pictureOf, sameBitmap } from "../picture.ts";
import { notPainted } from "../refusal.ts";
import type { Action, State } from "../state.ts";
import { reasonOf } from "../strokes.ts";
import { isTyping } from "../view/dom.ts";
import { between } from "./levels.ts";
import { lift, type Piece, pieceOf } from "./piece.ts";
import { pieceFromImage, pngOf } from "./png.ts";
import type { Clipboard } from "./row.ts";
import { everything } from "./selection.ts";

/** How long the editor may take to turn a key into an event of the clipboard; after that we do without it. */
const PATIENCE_MS = 300;

/** Listens to the keys and events of the clipboard, and gives what the words of the page do. */
export function makeClipboard(
  rpc: Rpc<ToHost>,
  dispatch: (action: Action) => void,
  state: () => State,
): Clipboard & { listen(): void } {
  const say = (note: string) => dispatch({ type: "say", note });

  const copy = async (cut: boolean) => {
    const { shown, selection, frame, float } = state();
    if (!shown) return;
    if (cut && float) return say(l10n.t("Not cut: put down what floats first"));
    if (cut && !selection && !isActive(state())) return say(l10n.t("Not cut: nothing is selected"));
    const refused = cut ? notPainted(state()) : undefined;
    if (refused !== undefined) return say(refused);
    const { bitmap } = shown;
    const piece = float?.piece ?? lift(pictureOf(state(), frame), selection ?? everything(bitmap));
    const { width, height } = piece;
    const text = rpc
      .call("copied", { identity: bitmap.identity, width, height, pixels: Array.from(piece.pixels) })
      .then((result) => result.text);
    try {
      const how = await write(rpc, text, pngOf(piece, bitmap));
      const words = cut ? l10n.t("{0}×{1} pixels cut", width, height) : l10n.t("{0}×{1} pixels copied", width, height);
      // What is cut is erased only once it is on the clipboard, and only if it is still what is selected.
      const now = state();
      const same = now.shown !== undefined && sameBitmap(now.shown.bitmap.identity, bitmap.identity);
      if (cut && same && now.selection === selection && now.frame === frame)
        dispatch({ type: "change", change: { kind: "erase" } });
      say(`${words}, ${how}`);
    } catch (error) {
      say(l10n.t("Not copied: {0}", reasonOf(error)));
    }
  };

  /** Text that holds an array comes before a picture, as it is exact. */
  const paste = async (text: string | undefined, picture?: File) => {
    const { shown } = state();
    if (!shown) return;
    const refused = notPainted(state());
    if (refused !== undefined) return say(refused);
    const { bitmap } = shown;
    const arrived = (piece: Piece) => {
      const now = state().shown;
      if (!now || !sameArray(now.bitmap.identity, bitmap.identity)) return;
      const { width, height } = piece;
      const larger = width > bitmap.width || height > bitmap.height;
      const note = larger
        ? l10n.t("{0}×{1} pixels pasted, larger than the picture", width, height)
        : l10n.t("{0}×{1} pixels pasted", width, height);
      dispatch({ type: "paste", piece, note });
    };
    try {
      if (picture && (text ?? "").trim() === "") return arrived(await pieceFromImage(picture, bitmap));
      const given = { width: bitmap.width, ...(text === undefined ? {} : { text }) };
      try {
        arrived(pieceFrom(await rpc.call("pasted", given), state()));
      } catch (error) {
        if (!picture) throw error;
        arrived(await pieceFromImage(picture, bitmap));
      }
    } catch (error) {
      say(l10n.t("Not pasted: {0}", reasonOf(error)));
    }
  };

  /** Calls back unless the event comes in time; some editors forward the key and no event. */
  const unless = (type: string, otherwise: () => void) => {
    const timer = window.setTimeout(() => {
      document.removeEventListener(type, came, true);
      otherwise();
    }, PATIENCE_MS);
    const came = () => window.clearTimeout(timer);
    document.addEventListener(type, came, { capture: true, once: true });
  };

  const listen = () => {
    for (const type of ["copy", "cut"] as const)
      document.addEventListener(type, (event) => {
        if (!isOurs(event, state())) return;
        event.preventDefault();
        void copy(type === "cut");
      });
    document.addEventListener("paste", (event) => {
      if (!isOurs(event, state())) return;
      event.preventDefault();
      const { clipboardData: data } = event;
      const picture = [...(data?.files ?? [])].find((file) => file.type.startsWith("image/"));
      void paste(data?.getData("text/plain") ?? "", picture);
    });
    // The editor answers Ctrl+A by marking all words of the page, besides what we do.
    document.addEventListener("selectstart", (event) => {
      if (event.target === document.body || event.target === document) event.preventDefault();
    });
    // A command is carried out only where one of these says that it has something to work on.
    for (const type of ["beforecopy", "beforecut", "beforepaste"])
      document.addEventListener(type, (event) => {
        if (isOurs(event, state())) event.preventDefault();
      });
    document.addEventListener("keydown", (event) => {
      if (!(event.ctrlKey || event.metaKey) || event.altKey || event.shiftKey || !isOurs(event, state())) return;
      const key = event.key.toLowerCase();
      if (key === "c") unless("copy", () => void copy(false));
      else if (key === "x") unless("cut", () => void copy(true));
      else if (key === "v") unless("paste", () => void paste(undefined));
    });
  };
  return { copy: (cut) => void copy(cut), paste: () => void paste(undefined), listen };
}

/** Not what is typed in a field, nor words of the page that are marked. */
function isOurs(event: Event, { shown }: State): boolean {
  return shown !== undefined && !isTyping(event) && (getSelection()?.isCollapsed ?? true);
}

/** Writes both, or where the page may not, the text alone; says which in words. */
async function write(rpc: Rpc<ToHost>, text: Promise<string>, png: Promise<Blob>): Promise<string> {
  // An error of the text is told by whoever awaits it.
  const asked = Promise.all([text, png]);
  asked.catch(() => undefined);
  if (typeof ClipboardItem !== "undefined" && navigator.clipboard?.write) {
    const plain = text.then((words) => new Blob([words], { type: "text/plain" }));
    // Asked for at once, while the press of the key still counts.
    const written = navigator.clipboard.write([new ClipboardItem({ "text/plain": plain, "image/png": png })]);
    const done = await written.then(
      () => true,
      () => false,
    );
    if (done) return l10n.t("as an array in C and as a picture");
  }
  await rpc.call("toClipboard", { text: await text });
  return l10n.t("as an array in C");
}

/** In the values of the picture at hand. */
function pieceFrom({ width, height, pixels, values }: ReadPicture, { shown }: State): Piece {
  if (!shown) throw new Error(l10n.t("no picture is shown"));
  const { bitmap } = shown;
  const size = { width, height };
  // Plain numbers are values as they are; if they are too high for that, levels of 8 bits.
  const highest = pixels.reduce((most, value) => Math.max(most, value), 0);
  const plain = highest <= bitmap.most ? undefined : { format: "gray8", kind: "gray", most: 255, light: "linear" };
  const meaning = values ?? (plain as ReadPicture["values"]);
  if (!meaning) return pieceOf(size, pixels);
  if (highest > meaning.most) throw new Error(l10n.t("{0} is above {1}, the highest value", highest, meaning.most));
  return pieceOf(size, pixels.map(between(meaning, bitmap, bitmap.limit)));
}
