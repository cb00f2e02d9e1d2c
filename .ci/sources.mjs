// Fetches what the tests read of Debian packages, from the mirrors that the machine uses, into .sources/: C files of source
// packages, and the pictures of PngSuite with their decoded pixels, which the sources of Go come with.
// Needs no root: apt keeps lists of its own there, and nothing is installed.
import { execFileSync } from "node:child_process";
import { existsSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";

const folder = fileURLToPath(new URL("../.sources/", import.meta.url));
const packages = ["seabios", "libgd2"];
/** A binary package, which is unpacked but not installed, and the folder in it that is read. */
const binary = { name: "golang-1.19-src", path: "./usr/share/go-1.19/src/image/png/testdata" };
const ready = join(folder, "ready");
const wanted = [...packages, binary.name].join(" ");

if (!existsSync(ready) || readFileSync(ready, "utf8") !== wanted) {
  console.log(`Fetching the Debian packages ${wanted}`);
  rmSync(folder, { recursive: true, force: true });
  const parts = join(folder, "apt/parts");
  for (const sub of ["parts", "lists/partial", "cache/archives/partial"])
    mkdirSync(join(folder, "apt", sub), { recursive: true });
  for (const [name, text] of asSources()) writeFileSync(join(parts, name), text);
  const options = {
    "Dir::Etc::SourceList": "/dev/null",
    "Dir::Etc::SourceParts": parts,
    "Dir::State::Lists": join(folder, "apt/lists"),
    "Dir::Cache": join(folder, "apt/cache"),
    // The user that apt else fetches as may not write here.
    "APT::Sandbox::User": process.getuid?.() === 0 ? "root" : "",
  };
  const set = Object.entries(options).flatMap(([key, value]) => (value === "" ? [] : ["-o", `${key}=${value}`]));
  const apt = (...args) =>
    execFileSync("apt-get", [...set, "-q", ...args], { cwd: folder, stdio: ["ignore", "ignore", "inherit"] });
  apt("update");
  apt("source", "--download-only", ...packages);
  for (const archive of readdirSync(folder).filter((name) => name.includes(".orig.tar.")))
    execFileSync("tar", ["xf", archive], { cwd: folder, stdio: "inherit" });
  apt("download", binary.name);
  const deb = readdirSync(folder).find((name) => name.startsWith(binary.name) && name.endsWith(".deb"));
  const files = execFileSync("dpkg-deb", ["--fsys-tarfile", deb], { cwd: folder, maxBuffer: 1 << 30 });
  execFileSync("tar", ["x", "--strip-components=8", "--one-top-level=pngsuite", binary.path], {
    cwd: folder,
    input: files,
  });
  rmSync(join(folder, deb));
  writeFileSync(ready, wanted);
}

/** The machine's own lists of packages, with the sources beside them. */
function asSources() {
  const files = ["/etc/apt/sources.list", ...partsIn("/etc/apt/sources.list.d")].filter((file) => existsSync(file));
  return files.map((file) => {
    const name = file.replace(/.*\//, "");
    const text = readFileSync(file, "utf8");
    return [
      name === "sources.list" ? "main.list" : name,
      text.replace(/^Types:.*$/gm, "Types: deb deb-src").replace(/^deb(?=[ \t])(.*)$/gm, "deb$1\ndeb-src$1"),
    ];
  });
}

function partsIn(path) {
  return existsSync(path)
    ? readdirSync(path)
        .filter((name) => /\.(?:list|sources)$/.test(name))
        .map((name) => join(path, name))
    : [];
}
