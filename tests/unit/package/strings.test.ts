import { existsSync, readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";

const root = new URL("../../../", import.meta.url);
const read = (name: string) => JSON.parse(readFileSync(new URL(name, root), "utf8"));
const manifest = read("package.json");
const words: Record<string, string> = read("package.nls.json");

/** Every string of the manifest that people read, with where it stands. */
function shown(value: unknown, at: string): [string, string][] {
  if (Array.isArray(value)) return value.flatMap((item, i) => shown(item, `${at}/${i}`));
  if (typeof value !== "object" || value === null) return [];
  return Object.entries(value).flatMap(([key, item]): [string, string][] => {
    const here = `${at}/${key}`;
    if (key === "enumDescriptions") return (item as string[]).map((text, i) => [`${here}/${i}`, text]);
    const read = /^(title|displayName|description|markdownDescription|shortTitle|altText)$/.test(key);
    return read && typeof item === "string" ? [[here, item]] : shown(item, here);
  });
}

describe("the strings that can be translated", () => {
  const strings = [
    ...shown(manifest.contributes, "contributes"),
    ...shown({ displayName: manifest.displayName, description: manifest.description }, "package"),
  ];

  it.each(strings)("%s is a key of package.nls.json", (_at, text) => {
    expect(text).toMatch(/^%[\w.]+%$/);
    expect(words[text.slice(1, -1)]).toMatch(/\S/);
  });

  it("no string of package.nls.json is left over", () => {
    const used = new Set(strings.map(([, text]) => text.slice(1, -1)));
    expect(Object.keys(words).filter((key) => !used.has(key))).toEqual([]);
  });
});

describe("the walkthrough", () => {
  const steps: { id: string; media: { svg: string; altText: string }; description: string }[] =
    manifest.contributes.walkthroughs[0].steps;
  const commands = new Set(manifest.contributes.commands.map(({ command }: { command: string }) => command));

  it.each(steps)("step $id has its picture, and names commands that exist", ({ id, media, description }) => {
    expect(existsSync(new URL(media.svg, root))).toBe(true);
    const svg = readFileSync(new URL(media.svg, root), "utf8");
    // The page that shows it lets in no styles, scripts or files, and passes the text for screen readers by.
    expect(svg).not.toMatch(/<script|href|style/);
    expect(svg).toContain(` role="img" aria-label="${words[media.altText.slice(1, -1)]}"`);
    const text = words[description.slice(1, -1)] ?? "";
    const named = [...text.matchAll(/\(command:(dotwright\.\w+)/g)].map(([, name]) => name);
    for (const name of named) expect(commands, `${id}: ${name}`).toContain(name);
  });
});

describe("the commands", () => {
  const { commands, menus } = manifest.contributes;

  it.each(commands as { command: string; category: string }[])(
    "$command stands under our name",
    ({ command, category }) => {
      expect(category).toBe("Dotwright");
      // Where it would find nothing to work on, the palette is shorter without it.
      const shown = menus.commandPalette.find((item: { command: string }) => item.command === command);
      expect(shown?.when).toMatch(/editorLangId|workspaceFolderCount/);
    },
  );

  it("take no keys that the editor or other extensions have", () => {
    expect(manifest.contributes).not.toHaveProperty("keybindings");
  });
});

describe("the README", () => {
  it("shows pictures from the package only", () => {
    const packed = readFileSync(new URL(".vscodeignore", root), "utf8").split("\n");
    const text = readFileSync(new URL("README.md", root), "utf8");
    for (const [, path = ""] of text.matchAll(/!\[[^\]]*\]\(([^)\s]+)/g)) {
      expect(existsSync(new URL(path, root)), path).toBe(true);
      expect(packed, path).toContain(`!${path.replace(/[^/]+(?=\.\w+$)/, "*")}`);
    }
    expect(text).not.toMatch(/<img|!\[\]/);
  });
});
