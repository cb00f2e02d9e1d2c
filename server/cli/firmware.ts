import { firmwareBytes } from "../../shared/motion/facts.ts";
import { firmware } from "../../shared/motion/firmware/place.ts";
import type { Command } from "./command.ts";
import { UserError } from "./files.ts";
import { motionNamed, writeEdits } from "./motions.ts";

export const firmwareCommand: Command = {
  name: "firmware",
  usage: "FILE NAME [--write]",
  doc: "a C function that computes the frames of an @motion, on stdout or in the file (--write)",
  options: { write: "flag" },
  async run(paths, given, target, print) {
    const { file, motion } = await motionNamed("firmware", paths, target);
    const written = firmware(file, motion);
    if ("refused" in written) throw new UserError(`${file.file}: ${written.refused}`);
    process.stderr.write(`dotwright: ${motion.name}: reads ${firmwareBytes(motion)} bytes of data in flash\n`);
    if (given.write === true) await writeEdits(file, written.edits);
    else print(`${written.text}\n`);
    return 0;
  },
};
