import type { BitmapFile } from "../../shared/bitmap/resolve.ts";
import type { WiredKind } from "../../shared/bitmap/wired/made.ts";
import { makeWired, wiringOrRows } from "../../shared/bitmap/wired/made.ts";
import type { Panel } from "../../shared/light/panel.ts";
import { highestOf } from "../../shared/pixels/picture.ts";
import { nearest } from "../../shared/pixels/words.ts";
import type { Target } from "../../shared/source/types.ts";
import type { Command, Print } from "./command.ts";
import { bitmapNamed, wholeOf } from "./command.ts";
import { openFile, UserError } from "./files.ts";

export const wiringCommand: Command = {
  name: "wiring",
  usage: "FILE PANEL [--table] [--address] [--draw NAME [--line N]] [--probe]",
  doc: "the driver's address of each pixel; or in C: its table, a function from column and row to it,\na function that draws arrays like NAME, or a sketch that probes the wiring",
  options: { table: "flag", address: "flag", draw: "value", probe: "flag", line: "value" },
  run(paths, given, target, print) {
    const [path, name, ...rest] = paths;
    if (path === undefined || name === undefined || rest.length > 0)
      throw new UserError("wiring takes a file and the name of a panel");
    const draw = typeof given.draw === "string" ? given.draw : undefined;
    const line = wholeOf(given, "line", 1, undefined);
    const flags = (["table", "address"] as const).filter((kind) => given[kind] === true);
    const kinds: WiredKind[] = [...flags, ...(draw === undefined ? [] : ["draw" as const])];
    if (given.probe === true) kinds.push("probe");
    if (line !== undefined && draw === undefined) throw new UserError("--line goes with --draw");
    return wiring(path, name, { kinds, draw, line, target }, print);
  },
};

interface WiringOptions {
  readonly kinds: readonly WiredKind[];
  readonly draw: string | undefined;
  readonly line: number | undefined;
  readonly target: Target | undefined;
}

/** Prints what is asked for, one after the other; nothing on stdout where one of them can't be had. */
async function wiring(path: string, name: string, options: WiringOptions, print: Print): Promise<number> {
  const file = await openFile(path, options.target);
  const panel = panelNamed(file, name);
  if (options.kinds.length === 0) {
    print(addressesOf(file, panel));
    return 0;
  }
  const bitmap = options.draw === undefined ? undefined : bitmapNamed(file, options.draw, options.line);
  const { text } = file.source;
  const parts: string[] = [];
  for (const kind of options.kinds) {
    const made = makeWired(file, panel, kind, { bitmap, offset: text.length, known: text + parts.join("\n") });
    if ("refused" in made) throw new UserError(made.refused);
    parts.push(made.text.replaceAll("\r\n", "\n"));
  }
  print(`${parts.join("\n\n")}\n`);
  return 0;
}

function panelNamed({ file, known }: BitmapFile, name: string): Panel {
  const [panel] = known.get(name);
  if (panel) return panel;
  const names = [...known.names];
  const near = nearest(name, names);
  const hint = near ? `; did you mean ${near}?` : names.length > 0 ? `; it has ${names.slice(0, 8).join(", ")}` : "";
  throw new UserError(`${file}: ${name} is not a panel that this file knows${hint}`);
}

/** The addresses as rows of the panel. */
function addressesOf(file: BitmapFile, panel: Panel): string {
  const wiring = wiringOrRows(panel);
  if ("refused" in wiring) throw new UserError(wiring.refused);
  const { width = 0, height = 0 } = panel.options;
  const table = file.wirings.tables.find((t) => t.panel.name === panel.name);
  const by = table ? `the table ${table.array.name}` : panel.wiring ? `wire=${wiring.wire}` : "row by row";
  const digits = String(highestOf(wiring.index)).length;
  const rows = Array.from({ length: height }, (_, y) =>
    Array.from(wiring.index.subarray(y * width, (y + 1) * width), (n) => String(n).padStart(digits)).join(" "),
  );
  return `${panel.name}: ${width}×${height} on a driver's canvas of ${wiring.width}×${wiring.height}, ${by}\n${rows.map((row) => `  ${row}\n`).join("")}`;
}
