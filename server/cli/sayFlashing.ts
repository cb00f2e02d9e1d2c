import type { BitmapFile } from "../../shared/bitmap/resolve.ts";
import { checkFile } from "../../shared/checks/all.ts";
import type { PictureChoice } from "../pictureFile.ts";
import { cautionOf } from "../pictureFile.ts";

/** Says on standard error where an animation that was written flashes more than is safe for all who see it. */
export function sayFlashing(file: BitmapFile, name: string, choice: PictureChoice): void {
  const findings = () => checkFile(file);
  for (const [i, { array }] of file.bitmaps.entries()) {
    const caution = array.name === name ? cautionOf(choice, findings, i) : undefined;
    if (caution === undefined) continue;
    process.stderr.write(`dotwright: ${name}: ${caution}\n`);
    return;
  }
}
