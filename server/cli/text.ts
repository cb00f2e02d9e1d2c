import { copiedAs } from "../../shared/bitmap/copiedAs.ts";
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
    const text = copiedAs(opened, bitmap, textOf(given, "as") ?? bitmap.format.name);
    if (typeof text !== "string") throw new UserError(text.refused);
    print(text);
    return 0;
  },
};
