// A file system of its own scheme, kept in memory: one folder with `shed:/shed_art.h` and, not to be written,
// `shed:/kept_art.h`. What is written to it is also laid down in the extension's storage, for a test to read.
const { EventEmitter, FilePermission, FileSystemError, FileType, Uri, workspace } = require("vscode");

const ART = `#include <stdint.h>

// @panel shed 3x3 gray8 cap=64 tint=#7fd4a0
// @bitmap shed
const uint8_t hook_icon[9] = {
   0, 26,  0,
   0, 26, 15,
   7,
};
`;

exports.activate = ({ subscriptions, globalStorageUri }) => {
  const files = new Map([
    ["/shed_art.h", Buffer.from(ART)],
    ["/kept_art.h", Buffer.from(ART)],
  ]);
  const changed = new EventEmitter();
  const contentOf = (uri) => {
    const content = files.get(uri.path);
    if (!content) throw FileSystemError.FileNotFound(uri);
    return content;
  };
  const refuse = (uri) => {
    throw FileSystemError.NoPermissions(uri);
  };
  let written = 1;
  const provider = {
    onDidChangeFile: changed.event,
    watch: () => ({ dispose() {} }),
    stat(uri) {
      if (uri.path === "/") return { type: FileType.Directory, ctime: 0, mtime: 0, size: 0 };
      const permissions = uri.path === "/kept_art.h" ? FilePermission.Readonly : undefined;
      return { type: FileType.File, ctime: 0, mtime: written, size: contentOf(uri).length, permissions };
    },
    readDirectory: () => [...files.keys()].map((path) => [path.slice(1), FileType.File]),
    readFile: contentOf,
    async writeFile(uri, content) {
      contentOf(uri);
      files.set(uri.path, content);
      written++;
      await workspace.fs.writeFile(Uri.joinPath(globalStorageUri, uri.path), content);
    },
    createDirectory: refuse,
    delete: refuse,
    rename: refuse,
  };
  subscriptions.push(workspace.registerFileSystemProvider("shed", provider, { isCaseSensitive: true }));
};
