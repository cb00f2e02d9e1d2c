/** Whether a document can't be written, as far as an extension can know: what the editor itself goes by. */
import { stat } from "node:fs/promises";
import type { TextDocument } from "vscode";
import { FilePermission, FileType, languages, RelativePattern, workspace } from "vscode";

/** The owner's permission to write, in a file's mode (POSIX.1-2017, sys/stat.h). */
const OWNER_MAY_WRITE = 0o200;

/** True where the file system, the file or the user's settings allow no writing. */
export async function isReadOnly(document: TextDocument): Promise<boolean> {
  const { uri, isUntitled } = document;
  if (isUntitled) return false;
  if (workspace.fs.isWritableFileSystem(uri.scheme) === false || keptBySettings(document)) return true;
  try {
    const { permissions = 0, type } = await workspace.fs.stat(uri);
    if ((permissions & FilePermission.Readonly) !== 0 || (type & FileType.Directory) !== 0) return true;
    const heeded = workspace.getConfiguration("files", uri).get("readonlyFromPermissions", false);
    // The editor tells extensions nothing of a file's mode.
    return heeded && uri.scheme === "file" && ((await stat(uri.fsPath)).mode & OWNER_MAY_WRITE) === 0;
  } catch {
    // A file that was deleted while it is open can still be changed and saved.
    return false;
  }
}

/** The settings `files.readonlyInclude` and `files.readonlyExclude`: patterns below the folder or of whole paths. */
function keptBySettings(document: TextDocument): boolean {
  const files = workspace.getConfiguration("files", document.uri);
  const folder = workspace.getWorkspaceFolder(document.uri);
  const named = (setting: string) =>
    Object.entries(files.get<Record<string, boolean>>(setting, {})).some(([pattern, wanted]) => {
      if (!wanted) return false;
      const patterns = folder ? [pattern, new RelativePattern(folder, pattern)] : [pattern];
      return patterns.some((p) => languages.match({ pattern: p }, document) > 0);
    });
  return named("readonlyInclude") && !named("readonlyExclude");
}
