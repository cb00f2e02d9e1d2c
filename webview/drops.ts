/** Pictures dropped on the page: the extension begins an import with them. */
import * as l10n from "@vscode/l10n";
import type { ToHost } from "../shared/protocol/webview.ts";
import type { Action, State } from "./state.ts";

type Dropped = ToHost["pictures"]["params"];

/** Larger files are not handed on: 64 MiB in all. */
const MOST = 1 << 26;

/** VS Code lets a page have what is dropped on it while Shift is held. */
export function listenToDrops(
  now: () => State,
  take: (dropped: Dropped) => void,
  dispatch: (action: Action) => void,
): void {
  const holdsFiles = ({ dataTransfer }: DragEvent) => dataTransfer?.types.includes("Files") === true;
  document.addEventListener("dragover", (event) => {
    if (holdsFiles(event)) event.preventDefault();
  });
  document.addEventListener("drop", async (event) => {
    if (!holdsFiles(event)) return;
    event.preventDefault();
    // The list is gone after the event.
    const files = [...(event.dataTransfer?.files ?? [])];
    const { shown, frame } = now();
    if (!shown || files.length === 0) return;
    if (files.reduce((sum, { size }) => sum + size, 0) > MOST)
      return dispatch({ type: "say", note: l10n.t("Not imported: the files are too large.") });
    const read = await Promise.all(
      files.map(async (file) => ({ name: file.name, data: base64(await file.arrayBuffer()) })),
    );
    take({ identity: shown.bitmap.identity, frame, files: read });
  });
}

function base64(buffer: ArrayBuffer): string {
  const bytes = new Uint8Array(buffer);
  let text = "";
  // A call takes only so many arguments.
  for (let at = 0; at < bytes.length; at += 8192) text += String.fromCharCode(...bytes.subarray(at, at + 8192));
  return btoa(text);
}
