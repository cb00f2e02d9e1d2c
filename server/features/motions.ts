/** The actions that bake the motion at the cursor and write its function; each is worked out when it is chosen. */
import type { CodeAction, CodeActionContext, Range } from "vscode-languageserver/node";
import { CodeActionKind } from "vscode-languageserver/node";
import type { BitmapFile } from "../../shared/bitmap/resolve.ts";
import { bake, isShared } from "../../shared/motion/bake.ts";
import { firmware } from "../../shared/motion/firmware/place.ts";
import { orderOf } from "../../shared/motion/kernel/timeline.ts";
import type { Motion } from "../../shared/motion/resolve.ts";
import { motionsOf } from "../../shared/motion/resolve.ts";
import type { TextEdit } from "../../shared/source/text.ts";
import type { Parsed } from "../documents.ts";
import { workspaceEdit } from "./place.ts";
import type { ClientSettings } from "./settings.ts";
import { isWanted } from "./wanted.ts";

type Deed = "bake" | "share" | "firmware";

/** What the action is resolved by: the motion's place among those of its name. */
export interface LaterMotion {
  readonly uri: string;
  readonly motion: string;
  readonly ordinal: number;
  readonly deed: Deed;
}

/** Most pixels that are baked at once for a client that can't ask for an edit later. */
const MOST_AT_ONCE = 100_000;

/** Where the cursor is on an `@motion`, or on what it stands before. */
export function motionActions(
  parsed: Parsed,
  range: Range,
  context: CodeActionContext,
  settings: ClientSettings,
): CodeAction[] {
  const kind = `${CodeActionKind.RefactorRewrite}.dotwright.motion`;
  if (!isWanted(context, kind)) return [];
  const motion = motionAt(parsed.file, parsed.document.offsetAt(range.start));
  if (!motion?.moving) return [];
  const ordinal = namesakes(parsed.file, motion.name).indexOf(motion);
  return deedsFor(parsed.file, motion).flatMap(([deed, title]): CodeAction[] => {
    const data: LaterMotion = { uri: parsed.uri, motion: motion.name, ordinal, deed };
    const action: CodeAction = { title, kind };
    if (settings.lazyActions) return [{ ...action, data }];
    const { width, height, timeline } = motion.moving as NonNullable<Motion["moving"]>;
    if (width * height * timeline.positions.length > MOST_AT_ONCE) return [];
    const resolved = resolveMotion(parsed, action, data, settings);
    return resolved.edit ? [resolved] : [];
  });
}

/** Without an edit where the motion has gone or what is asked for is refused. */
export function resolveMotion(
  parsed: Parsed,
  action: CodeAction,
  { motion: name, ordinal, deed }: LaterMotion,
  settings: ClientSettings,
): CodeAction {
  const motion = namesakes(parsed.file, name)[ordinal];
  const edits = motion ? editsOf(parsed.file, motion, deed) : [];
  return edits.length === 0 ? action : { ...action, edit: workspaceEdit(parsed, edits, settings) };
}

function deedsFor(file: BitmapFile, motion: Motion): [Deed, string][] {
  const { target, name, moving } = motion;
  const deeds: [Deed, string][] = [];
  if (target && moving) {
    const { positions, loop } = moving.timeline;
    const shared = isShared(file, motion);
    const count = shared ? positions.length : orderOf(moving.timeline).length;
    deeds.push(["bake", `Bake ${count} frames into ${name}`]);
    if (!shared && loop === "there-and-back")
      deeds.push(["share", `Bake ${positions.length} frames into ${name}, with a table of their order`]);
  }
  return [...deeds, ["firmware", `Write the function that computes ${name}`]];
}

function editsOf(file: BitmapFile, motion: Motion, deed: Deed): readonly TextEdit[] {
  const made = deed === "firmware" ? firmware(file, motion) : bake(file, motion, deed === "share" ? true : undefined);
  return "refused" in made ? [] : made.edits;
}

const namesakes = (file: BitmapFile, name: string) => motionsOf(file).filter((m) => m.name === name);

/** The motion whose annotation, array head or function head an offset stands in. */
function motionAt(file: BitmapFile, offset: number): Motion | undefined {
  const within = (start: number, end: number) => start <= offset && offset <= end;
  return motionsOf(file).find(({ annotation: { comment }, target, code }) => {
    if (within(comment.start, comment.end)) return true;
    if (target) return within(target.array.declaration.start, target.array.base);
    return code !== undefined && within(code.start, code.nameSpan.end);
  });
}
