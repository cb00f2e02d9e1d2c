import { copiedAs, copyChoices } from "../../shared/bitmap/copiedAs.ts";
import { FORMATS } from "../../shared/pixels/formats.ts";
import type { Command } from "./command.ts";
import { bitmapNamed, textOf, wholeOf } from "./command.ts";
import { openFile, UserError } from "./files.ts";

export const textCommand: Command = {
  name: "text",
  usage: 'FILE NAME [--as "mono1 pack=pages"] [--line N]',
  doc: "the bitmap as an annotated array in C; --as gives another format and packing, in the words of an annotation",
  options: { as: "value", line: "value" },
  async run(paths, given, target, print) {
    const [file, name, ...rest] = paths;
    if (file === undefined || name === undefined || rest.length > 0)
      throw new UserError("text takes a file and the name of a bitmap");
    const opened = await openFile(file, target);
    const bitmap = bitmapNamed(opened, name, wholeOf(given, "line", 1, undefined));
    // Words about the packing alone leave the format as it is.
    const asked = (textOf(given, "as") ?? "").split(/\s+/).filter((word) => word !== "");
    const words = asked.some((word) => FORMATS.has(word)) ? asked : [bitmap.format.name, ...asked];
    const text = copiedAs(opened, bitmap, words.join(" "));
    if (typeof text !== "string") throw new UserError(text.refused);
    print(text);
    const { format, lost = 0 } = copyChoices(bitmap).find((choice) => words.includes(choice.format)) ?? {};
    const pixels = bitmap.width * bitmap.height * bitmap.frames;
    if (lost > 0) process.stderr.write(`dotwright: ${lost} of ${pixels} pixels look otherwise in ${format}\n`);
    return 0;
  },
};
