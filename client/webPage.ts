/** The HTML that holds a page of ours, under a content security policy that lets in only our own files. */
import type { Uri, Webview } from "vscode";
import { env, l10n, Uri as Uris } from "vscode";

/** The webview toolkit makes a style element without text and fills it by script: this is the digest of no text. */
const EMPTY_STYLE = "'sha256-47DEQpj8HBSa+/TImW+5JCeuQeRkm5NMpJWZG3hSuFU='";

export function paintPage(webview: Webview, dist: Uri): string {
  return webPage(webview, dist, "webview", { styles: EMPTY_STYLE });
}

/** The page of an import stands in the paint editor's style. */
export function importPage(webview: Webview, dist: Uri): string {
  return webPage(webview, dist, "import", { sheets: ["webview", "import"], styles: EMPTY_STYLE });
}

interface Sources {
  /** Its style sheets; the one of the bundle's name where they are not given. */
  readonly sheets?: readonly string[];
  /** Further sources of styles that it needs. */
  readonly styles?: string;
}

/** The page of a bundle: its script and its style sheets. */
export function webPage(
  webview: Webview,
  dist: Uri,
  bundle: string,
  { sheets = [bundle], styles = "" }: Sources = {},
): string {
  const file = (name: string) => webview.asWebviewUri(Uris.joinPath(dist, name));
  const own = webview.cspSource;
  const policy = `default-src 'none'; script-src ${own}; style-src ${own} ${styles}; img-src data:; font-src ${own}`;
  // The page's words in the user's language; it makes its own from them.
  const words = attribute(JSON.stringify(l10n.bundle ?? {}));
  const links = sheets.map((sheet) => `<link rel="stylesheet" href="${file(`${sheet}.css`)}">`).join("\n");
  return `<!DOCTYPE html>
<html lang="${env.language}">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${policy}">
<meta name="viewport" content="width=device-width, initial-scale=1">
${links}
</head>
<body>
<main id="dotwright" data-words="${words}"></main>
<script type="module" src="${file(`${bundle}.js`)}"></script>
</body>
</html>`;
}

function attribute(text: string): string {
  return text.replace(/&/g, "&amp;").replace(/"/g, "&quot;").replace(/</g, "&lt;");
}
