/** C sources of Debian's source packages with number arrays in them: open data that nobody wrote for this project. */
import { readdir, readFile, writeFile } from "node:fs/promises";
import { basename, join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { type ListedArray, listArrays } from "../support/cli.ts";
import { compileBytes, type StoredObject } from "../support/compile.ts";
import { type Bench, disagreement, openBench } from "./judge.ts";

const SOURCES = fileURLToPath(new URL("../../.sources/", import.meta.url));

interface Source {
  /** The package's folder begins with it. */
  readonly from: string;
  readonly path: string;
  /** What the package's own headers, which are not read, say of the names in it. */
  readonly head: string;
  /** Arrays of numbers with their elements, counted by hand in the sources' own sizes. */
  readonly arrays: Readonly<Record<string, number>>;
}

const GD =
  "typedef struct { int nchars, offset, w, h; char *data; } gdFont;\ntypedef gdFont *gdFontPtr;\n#define BGD_DECLARE(t) t\n#define BGD_EXPORT_DATA_PROT\n";
const gd = (file: string, name: string, elements: number): Source => ({
  from: "libgd",
  path: `src/${file}`,
  head: GD,
  arrays: { [name]: elements },
});

const FILES: readonly Source[] = [
  {
    // SeaBIOS 1.16: the text fonts of its VGA BIOS, 256 glyphs of 8, 14 and 16 rows.
    from: "seabios",
    path: "vgasrc/vgafonts.c",
    head: "typedef unsigned char u8;\n#define VAR16\n",
    arrays: { vgafont8: 256 * 8, vgafont14: 256 * 14, vgafont16: 256 * 16 },
  },
  // GD 2.3: bitmap fonts, a byte for each pixel, 256 glyphs each.
  gd("gdfontg.c", "gdFontGiantData", 256 * 9 * 15),
  gd("gdfontl.c", "gdFontLargeData", 256 * 8 * 16),
  gd("gdfontmb.c", "gdFontMediumBoldData", 256 * 7 * 13),
  gd("gdfonts.c", "gdFontSmallData", 256 * 6 * 13),
  gd("gdfontt.c", "gdFontTinyData", 256 * 5 * 8),
];

let bench: Bench;
let files: readonly { readonly source: Source; readonly path: string }[];
let listed: readonly ListedArray[];
beforeAll(async () => {
  bench = await openBench();
  const entries = await readdir(SOURCES, { withFileTypes: true }).catch(() => []);
  const folders = entries.filter((entry) => entry.isDirectory()).map((entry) => entry.name);
  files = await Promise.all(
    FILES.map(async (source) => {
      const folder = folders.find((name) => name.startsWith(source.from));
      if (!folder) throw new Error(`the sources of ${source.from} are not in .sources; npm run setup fetches them`);
      const text = await readFile(join(SOURCES, folder, source.path), "latin1");
      const path = join(bench.folder, basename(source.path));
      await writeFile(path, source.head + text.replace(/^#\s*include\b.*$/gm, ""), "latin1");
      return { source, path };
    }),
  );
  listed = await listArrays(
    files.map(({ path }) => path),
    "host",
  );
});
afterAll(() => bench.close());

describe("arrays of Debian source packages", () => {
  it.each(FILES.map((source, i) => [source.path, source, i] as const))(
    "%s holds what gcc stores",
    async (_path, source, i) => {
      const { path } = files[i] as (typeof files)[number];
      const stored: ReadonlyMap<string, StoredObject> = await compileBytes(path, { target: "host" });
      for (const [name, elements] of Object.entries(source.arrays)) {
        const entry = listed.find((array) => basename(array.file) === basename(path) && array.name === name);
        expect(entry?.values?.length, name).toBe(elements);
        const bytes = stored.get(name)?.bytes;
        const expected = { name, bits: 8, readOnly: "never" } as const;
        expect(entry && disagreement(entry, expected, bytes ? [bytes] : []), name).toBeUndefined();
      }
    },
  );
});
