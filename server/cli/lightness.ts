/** A table of levels that are even to the eye, as a C array. */
import { lightnessArray } from "../../shared/bitmap/lightnessArray.ts";
import { openText } from "../../shared/bitmap/open.ts";
import { MOST_BITS } from "../../shared/light/lightnessTable.ts";
import { nameProblem } from "../../shared/source/identifiers.ts";
import type { Command, Given } from "./command.ts";
import { wholeOf } from "./command.ts";
import { UserError } from "./files.ts";

export const lightnessCommand: Command = {
  name: "lightness",
  usage: "[--from BITS] [--to BITS] [--most N] [--name NAME]",
  doc: "a C array with the duty of each level so that they are even to the eye (CIE lightness); 8 bits to 8 if not given,\n--most: the duty of the highest level, such as a cap",
  options: { from: "value", to: "value", most: "value", name: "value" },
  run(paths, given, target, print) {
    if (paths.length > 0) throw new UserError("lightness reads no files");
    const [from, to] = [bitsOf(given, "from"), bitsOf(given, "to")];
    const most = wholeOf(given, "most", 0, 2 ** to - 1);
    if (most >= 2 ** to) throw new UserError(`--most ${most} does not fit in ${to} bits`);
    const name = typeof given.name === "string" ? given.name : "duty_of_level";
    const wrong = nameProblem(name);
    if (wrong !== undefined) throw new UserError(wrong);
    // Sketches keep their tables in flash.
    const blank = openText("", target === "avr" ? "table.ino" : "table.cpp", { target });
    print(`${lightnessArray(blank, name, { from, to, most })}\n`);
    return 0;
  },
};

function bitsOf(given: Given, option: string): number {
  const bits = wholeOf(given, option, 1, 8);
  if (bits > MOST_BITS) throw new UserError(`--${option} takes 1 to ${MOST_BITS} bits, not ${bits}`);
  return bits;
}
