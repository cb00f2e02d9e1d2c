/** `Export Picture…`: asks what the picture shows and how large it is, and writes it where the user says. */
import type { QuickPickItem } from "vscode";
import { commands, l10n, ProgressLocation, QuickPickItemKind, Uri, window, workspace } from "vscode";
import type { BitmapInfo, LspParams } from "../shared/protocol/lsp.ts";
import type { Ask } from "./ask.ts";
import type { ShownIn } from "./which.ts";
import { whichBitmap } from "./which.ts";

type Format = LspParams<"dotwright/export">["format"];
type Look = LspParams<"dotwright/export">["look"];
type Way = QuickPickItem & { readonly format?: Format; readonly look?: Look };

/** The command; it says in words why nothing was written. */
export function exportPictureCommand(ask: Ask, shownIn: ShownIn) {
  return async (resource?: unknown, given?: unknown): Promise<void> => {
    try {
      const which = await whichBitmap(ask, shownIn, resource, given);
      if (which) await exportPicture(ask, which.document.uri, which.bitmap, which.frame);
    } catch (error) {
      void window.showErrorMessage(error instanceof Error ? error.message : String(error));
    }
  };
}

async function exportPicture(ask: Ask, source: Uri, bitmap: BitmapInfo, shown: number | undefined): Promise<void> {
  const title = l10n.t("Export {0}", bitmap.name);
  const way = await window.showQuickPick(waysOf(bitmap), { title, placeHolder: l10n.t("What the picture shows") });
  const { format, look } = way ?? {};
  if (!format || !look) return;
  const scale = format === "png" || format === "apng" ? await askScale(title, bitmap, look) : "usual";
  if (scale === undefined) return;
  const frame = bitmap.frames > 1 && format !== "apng" ? await askFrame(title, bitmap.frames, shown ?? 0) : "all";
  if (frame === undefined) return;
  const part = frame === "all" ? "" : `_${frame}`;
  const target = await window.showSaveDialog({
    title,
    defaultUri: Uri.joinPath(source, "..", `${plainName(bitmap.name)}${part}.${format === "apng" ? "png" : format}`),
    filters: { [format.toUpperCase()]: format === "apng" ? ["png", "apng"] : [format] },
  });
  if (!target) return;
  const { base64, caution } = await window.withProgress(
    { location: ProgressLocation.Notification, title, cancellable: true },
    (_progress, token) =>
      ask(
        "dotwright/export",
        {
          uri: source.toString(),
          identity: bitmap.identity,
          format,
          look,
          ...(frame === "all" ? {} : { frame }),
          ...(scale === "usual" ? {} : { scale }),
        },
        token,
      ),
  );
  await workspace.fs.writeFile(
    target,
    Uint8Array.from(atob(base64), (c) => c.charCodeAt(0)),
  );
  if (caution !== undefined) void window.showWarningMessage(caution);
  const open = l10n.t("Open");
  const name = target.path.split("/").pop() ?? "";
  if ((await window.showInformationMessage(l10n.t("{0} is written.", name), open)) === open)
    await commands.executeCommand("vscode.open", target);
}

/** What the format of a bitmap can be put into, by what is shown. */
function waysOf({ kind, frames, width, height }: BitmapInfo): Way[] {
  const way = (look: Look, format: Format, label: string, description: string): Way => ({
    look,
    format,
    label,
    description,
  });
  const group = (label: string): Way => ({ label, kind: QuickPickItemKind.Separator });
  const all = l10n.t("all {0} frames, moving", frames);
  const still = l10n.t("a still picture");
  const seen = (look: Look): Way[] => [
    way(look, "png", "PNG", still),
    ...(frames > 1 ? [way(look, "apng", "APNG", all)] : []),
    way(look, "svg", "SVG", l10n.t("a still picture that stays sharp at any size")),
  ];
  const plain = l10n.t("{0}×{1}, the numbers as they are", width, height);
  return [
    group(l10n.t("The panel, lit, as it hangs")),
    ...seen("panel"),
    group(l10n.t("Cells in the light that they give")),
    ...seen("cells"),
    group(l10n.t("The values as they are, one to one")),
    ...seen("values"),
    ...(kind === "mono" ? [way("values", "xbm", "XBM", plain), way("values", "pbm", "PBM", plain)] : []),
    ...(kind === "mono" || kind === "gray" ? [way("values", "pgm", "PGM", plain)] : []),
    way("values", "ppm", "PPM", l10n.t("{0}×{1}, red, green and blue", width, height)),
  ];
}

/** Screen pixels to a pixel; undefined where the user left. */
async function askScale(title: string, { width, height }: BitmapInfo, look: Look): Promise<number | undefined> {
  const scales = look === "values" ? [1, 2, 4, 8, 16] : [16, 8, 12, 24, 32];
  const items = scales.map((scale) => ({
    label: l10n.t("{0} to a pixel", scale),
    description: look === "panel" ? "" : `${width * scale}×${height * scale}`,
    scale,
  }));
  const chosen = await window.showQuickPick(items, { title, placeHolder: l10n.t("How large a pixel is") });
  return chosen?.scale;
}

async function askFrame(title: string, frames: number, shown: number): Promise<number | undefined> {
  const typed = await window.showInputBox({
    title,
    prompt: l10n.t("Which frame, 0 to {0}", frames - 1),
    value: String(shown),
    validateInput: (value) =>
      /^\d+$/.test(value.trim()) && Number(value) < frames
        ? undefined
        : l10n.t("A whole number from 0 to {0} is needed here.", frames - 1),
  });
  return typed === undefined ? undefined : Number(typed);
}

/** Entries of a table are named by the way to them. */
function plainName(name: string): string {
  return name.replace(/\W+/g, "_").replace(/_+$/, "");
}
