// The strings that can be translated: `npm run strings` collects them from the client and the page, with --check it
// only says whether the bundle is up to date.
import { readdir, readFile, writeFile } from "node:fs/promises";
import { fileURLToPath } from "node:url";
import { getL10nJson } from "@vscode/l10n-dev";

const root = fileURLToPath(new URL("../", import.meta.url));
const bundle = `${root}client/l10n/bundle.l10n.json`;

const folders = ["client", "webview"];
const listed = folders.map(async (f) => (await readdir(root + f, { recursive: true })).map((name) => `${f}/${name}`));
const names = (await Promise.all(listed)).flat().filter((name) => name.endsWith(".ts"));
const contents = await Promise.all(names.map((name) => readFile(root + name, "utf8")));
const strings = Object.entries(await getL10nJson(contents.map((text) => ({ extension: ".ts", contents: text }))));
const text = `${JSON.stringify(Object.fromEntries(strings.sort(([a], [b]) => (a < b ? -1 : 1))), undefined, 2)}\n`;

if (!process.argv.includes("--check")) await writeFile(bundle, text);
else if ((await readFile(bundle, "utf8")) !== text) {
  console.error("client/l10n/bundle.l10n.json is out of date: npm run strings");
  process.exitCode = 1;
}
