/** The HTML that holds a page of ours, the paint editor's or that of an import, under a content security policy that lets in only our own files. */
import type { Uri, Webview } from "vscode";
import { env, l10n, Uri as Uris } from "vscode";

/** The webview toolkit makes a style element without text and fills it by script: this is the digest of no text. */
const EMPTY_STYLE = "'sha256-47DEQpj8HBSa+/TImW+5JCeuQeRkm5NMpJWZG3hSuFU='";

/** `name` is that of the page's bundles: its script, and its style, which comes on top of the paint editor's. */
export function paintPage(webview: Webview, dist: Uri, name = "webview"): string {
  const file = (name: string) => webview.asWebviewUri(Uris.joinPath(dist, name));
  const own = webview.cspSource;
  const policy = `default-src 'none'; script-src ${own}; style-src ${own} ${EMPTY_STYLE}; img-src data:; font-src ${own}`;
  // The page's words in the user's language; it makes its own from them.
  const words = attribute(JSON.stringify(l10n.bundle ?? {}));
  const sheets = name === "webview" ? [name] : ["webview", name];
  const styles = sheets.map((sheet) => `<link rel="stylesheet" href="${file(`${sheet}.css`)}">`).join("\n");
  return `<!DOCTYPE html>
<html lang="${env.language}">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${policy}">
<meta name="viewport" content="width=device-width, initial-scale=1">
${styles}
</head>
<body>
<main id="dotwright" data-words="${words}"></main>
<script type="module" src="${file(`${name}.js`)}"></script>
</body>
</html>`;
}

function attribute(text: string): string {
  return text.replace(/&/g, "&amp;").replace(/"/g, "&quot;").replace(/</g, "&lt;");
}
