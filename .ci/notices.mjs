// The licences of what esbuild bundled: one text from its metafiles and from the files that the packages bring.
import { readdir, readFile } from "node:fs/promises";
import { fileURLToPath } from "node:url";

const root = fileURLToPath(new URL("../", import.meta.url));
/** Names of files that hold a licence or what must be passed on with it. */
const LEGAL = /^(licen[cs]e|copying|copyright|notice|third-?party)/i;
const LICENCE = /^(licen[cs]e|copying)/i;
const RULE = `\n\n${"-".repeat(80)}\n\n`;

/** Fails where a package has no licence that could be passed on. */
export async function noticesOf(metafiles) {
  const folders = new Set();
  for (const { inputs } of metafiles.flatMap(({ outputs }) => Object.values(outputs)))
    for (const [path, { bytesInOutput }] of Object.entries(inputs)) {
      const [folder] = /^.*node_modules\/(?:@[^/]+\/)?[^/]+(?=\/)/.exec(path) ?? [];
      if (folder && bytesInOutput > 0) folders.add(folder);
    }
  const notices = await Promise.all([...folders].sort().map(noticeOf));
  return `Dotwright is bundled with parts of the packages below, each under its own licence.${RULE}${notices.join(RULE)}\n`;
}

async function noticeOf(folder) {
  const { name, version, license, author, repository } = JSON.parse(await read(`${folder}/package.json`));
  const files = (await readdir(root + folder)).filter((file) => LEGAL.test(file));
  // The licence first.
  files.sort((a, b) => LICENCE.test(b) - LICENCE.test(a));
  const texts = await Promise.all(files.map((file) => read(`${folder}/${file}`)));
  if (!files.some((file) => LICENCE.test(file))) {
    if (license !== "MIT") throw new Error(`${folder} is bundled, but brings no licence to pass on.`);
    texts.unshift(await mit(author?.name ?? author));
  }
  const home = repository?.url ?? repository;
  const head = [`${name} ${version} (${license})`, ...(home ? [home.replace(/^git\+|\.git$/g, "")] : [])];
  return [head.join("\n"), ...texts.map((text) => text.trim())].join("\n\n");
}

/** For a package whose package.json alone says that it is under this licence: the text is that of our own. */
async function mit(author) {
  if (!author) throw new Error("A package without a licence file names no author either.");
  const [, terms] = /^Copyright.*$\s*([\s\S]*)/m.exec(await read("LICENSE"));
  return `(The package brings no licence file; its package.json names the MIT licence and this author.)\n\nCopyright (c) ${author}\n\n${terms}`;
}

async function read(path) {
  return (await readFile(root + path, "utf8")).replace(/^\uFEFF/, "").replace(/\r\n?/g, "\n");
}
