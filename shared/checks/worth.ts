/** Which texts can have findings at all, told without reading them: most files of a firmware hold no picture. */
import { markerNear } from "../pixels/markers.ts";

/**
 * False where reading the text would surely give no bitmap, no panel and no finding: it holds neither a marker, be it misspelt, nor a
 * name that ends in `bits`, as the arrays of X bitmaps do.
 */
export function isWorthReading(text: string): boolean {
  for (let at = text.indexOf("@"); at >= 0; at = text.indexOf("@", at + 1))
    if (markerNear(/^\w*/.exec(text.slice(at + 1, at + 12))?.[0] ?? "")) return true;
  for (let at = text.indexOf("bits"); at >= 0; at = text.indexOf("bits", at + 4))
    if (!isNameCharacter(text.charCodeAt(at + 4))) return true;
  return false;
}

function isNameCharacter(c: number): boolean {
  return (c >= 97 && c <= 122) || (c >= 65 && c <= 90) || (c >= 48 && c <= 57) || c === 95;
}

/** Whether the text may define a panel. */
export function mayDefinePanel(text: string): boolean {
  return text.includes("@panel");
}
