/** Several arrays of a file that are shown and painted as the frames of one set, such as numerals with an array each. */
import type { PixelChange } from "../shared/bitmap/edit.ts";
import type { BitmapInfo, LspTextEdit, PictureFrame } from "../shared/protocol/lsp.ts";
import type { FrameNames } from "../shared/protocol/webview.ts";
import type { Ask } from "./ask.ts";

/** One array of a set. */
export interface Member {
  readonly bitmap: BitmapInfo;
  /** Where its frames begin among those of the set. */
  readonly first: number;
}

/** Whether two bitmaps can be one set: their pixels mean the same, and there are as many. */
export function alike(a: BitmapInfo, b: BitmapInfo): boolean {
  const of = ({ width, height, format, light, drive, cap, tint, palette, why }: BitmapInfo) =>
    [width, height, format, light, drive, cap, tint, palette, why === undefined].join();
  return of(a) === of(b);
}

/** The set's arrays in the order of the text: those of `wanted` that are like the first of them. */
export function membersOf(shown: BitmapInfo, bitmaps: readonly BitmapInfo[], wanted: readonly Wanted[]): Member[] {
  let first = 0;
  const found = bitmaps.filter((b) => alike(b, shown) && (b === shown || wanted.some((w) => isSame(b.identity, w))));
  return found.map((bitmap) => {
    const member = { bitmap, first };
    first += bitmap.frames;
    return member;
  });
}

type Wanted = Pick<BitmapInfo["identity"], "name" | "ordinal">;

/** Whether two identities mean one array of a document, whatever has become of its shape. */
export function isSame(a: Wanted, b: Wanted): boolean {
  return a.name === b.name && a.ordinal === b.ordinal;
}

/** The set as one bitmap of many frames, with the name of its array for each. */
export function joined(members: readonly Member[]): BitmapInfo & FrameNames {
  const all = members.map((m) => m.bitmap);
  const [shown] = all;
  if (!shown) throw new Error("a set has arrays");
  const { characters: _, widths: __, ...rest } = shown;
  const names = all.map((b) => b.name);
  const name = names.length > 1 ? `${names[0]} … ${names[names.length - 1]}` : shown.name;
  const structure = all.map(({ identity }) => `${identity.name} ${identity.ordinal} ${identity.structure}`).join("; ");
  return {
    ...rest,
    // Known by the array that it begins with, also where others come to it.
    identity: { name: `${names[0]} …`, ordinal: 0, siblings: 1, structure },
    name,
    frames: all.reduce((sum, b) => sum + b.frames, 0),
    bytes: all.reduce((sum, b) => sum + b.bytes, 0),
    frameNames: all.flatMap((b) =>
      Array.from({ length: b.frames }, (_, i) => (b.frames > 1 ? `${b.name} ${i}` : b.name)),
    ),
  };
}

/** The frames of all members, counted through. */
export function framesOf(members: readonly Member[], pictures: readonly (readonly PictureFrame[])[]): PictureFrame[] {
  return members.flatMap(({ first }, i) => (pictures[i] ?? []).map((f) => ({ ...f, frame: f.frame + first })));
}

/** The array that a frame of the set belongs to, and which of its frames it is. */
export function memberAt(
  members: readonly Member[],
  frame: number,
): { readonly member: Member; readonly frame: number } {
  const member = members.filter((m) => m.first <= frame).pop() ?? members[0];
  if (!member) throw new Error("a set has arrays");
  return { member, frame: frame - member.first };
}

/** The edits of a stroke, of all arrays that it touches, of one version; an error in words where one of them is refused. */
export async function paintSet(
  ask: Ask,
  {
    uri,
    version,
    members,
    changes,
  }: { uri: string; version: number; members: readonly Member[]; changes: readonly PixelChange[] },
): Promise<{ readonly version: number; readonly edits: readonly LspTextEdit[] }> {
  const byMember = new Map<Member, PixelChange[]>();
  for (const change of changes) {
    const { member, frame } = memberAt(members, change.frame);
    const own = byMember.get(member) ?? [];
    byMember.set(member, own);
    own.push({ ...change, frame });
  }
  const answers = await Promise.all(
    [...byMember].map(([{ bitmap }, own]) =>
      ask("dotwright/paint", { uri, version, identity: bitmap.identity, changes: own }),
    ),
  );
  // Where the document moved on between two answers none of them is used: it is asked once more.
  const versions = new Set(answers.map((a) => a.version));
  if (versions.size > 1) return { version: Number.NaN, edits: [] };
  return { version: answers[0]?.version ?? version, edits: eachOnce(answers) };
}

/** A table of pointers and an array that it leads to may be of one set: then both edit the same number, once. */
function eachOnce(answers: readonly { readonly edits: readonly LspTextEdit[] }[]): LspTextEdit[] {
  const before = new Set<string>();
  return answers.flatMap(({ edits }) => {
    const own = edits.filter((edit) => !before.has(JSON.stringify(edit)));
    for (const edit of own) before.add(JSON.stringify(edit));
    return own;
  });
}
