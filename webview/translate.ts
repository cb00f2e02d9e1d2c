/**
 * Gives the page its words in the user's language, before any other module makes some: the extension hands the bundle
 * over in the page. To be imported first.
 */
import * as l10n from "@vscode/l10n";

const contents = document.getElementById("dotwright")?.dataset.words;
if (contents) l10n.config({ contents });
