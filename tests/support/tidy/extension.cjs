/** A formatter as projects have them: it takes the aligned columns of arrays away. */
const { languages, TextEdit, Range } = require("vscode");

exports.activate = (context) => {
  const provideDocumentFormattingEdits = (document) => {
    const edits = [];
    for (const found of document.getText().matchAll(/,[ \t]+|^[ \t]+(?=\d)/gm)) {
      const tidy = found[0].startsWith(",") ? ", " : "  ";
      const range = new Range(document.positionAt(found.index), document.positionAt(found.index + found[0].length));
      if (found[0] !== tidy) edits.push(TextEdit.replace(range, tidy));
    }
    return edits;
  };
  const selector = [{ language: "c" }, { language: "cpp" }];
  context.subscriptions.push(
    languages.registerDocumentFormattingEditProvider(selector, { provideDocumentFormattingEdits }),
  );
};
