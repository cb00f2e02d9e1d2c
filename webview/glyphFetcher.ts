/** Asks the extension for glyph sets when text is to be written, and for the glyphs of what is typed. */
import type { GlyphSetInfo } from "../shared/protocol/lsp.ts";
import type { Rpc } from "../shared/protocol/rpc.ts";
import type { ToHost } from "../shared/protocol/webview.ts";
import type { Action, State } from "./state.ts";
import { setOf } from "./stroke.ts";
import { reasonOf } from "./strokes.ts";
import { type GlyphSet, layText } from "./tools/text.ts";
import { toolOf } from "./tools/tools.ts";

/** To be called on every change of state. One call at a time: what is typed meanwhile is asked for after it. */
export function glyphFetcher(rpc: Rpc<ToHost>, dispatch: (action: Action) => void): (state: State) => void {
  let busy = false;
  // For which version of which document's bitmap the sets were asked for, and what was asked in vain.
  let asked: string | undefined;
  let refused: string | undefined;
  let infos = new Map<string, GlyphSetInfo>();

  const ask = (params: ToHost["glyphs"]["params"], then: (result: ToHost["glyphs"]["result"]) => void, key = "") => {
    busy = true;
    rpc.call("glyphs", params).then(
      (result) => {
        busy = false;
        then(result);
      },
      (error: unknown) => {
        busy = false;
        refused = key;
        dispatch({ type: "say", note: reasonOf(error) });
      },
    );
  };

  return (state) => {
    // Chosen again, the tool asks again: a header may have changed.
    if (!toolOf(state.tool).typed) asked = undefined;
    if (busy || !state.shown || !toolOf(state.tool).typed) return;
    const { version, bitmap } = state.shown;
    const now = `${bitmap.identity.name} ${version}`;
    if (asked !== now) {
      asked = now;
      ask({}, ({ sets }) => {
        infos = new Map(sets.map((info) => [keyOf(info), info]));
        dispatch({ type: "sets", sets: sets.map((info) => setFrom(info, sets)) });
      });
      return;
    }
    const set = setOf(state);
    const info = set && infos.get(set.key);
    if (!info || !state.stroke?.text) return;
    const characters = layText(state.stroke.text, set, state.options.spacing).wanted;
    const key = `${set.key} ${version} ${characters.join()}`;
    if (characters.length === 0 || key === refused) return;
    const { uri, identity } = info;
    ask(
      { wanted: { uri, identity, characters } },
      ({ glyphs }) => {
        // What the set has lost meanwhile is asked for no more.
        if (glyphs.length === 0) refused = key;
        const byPoint = new Map(glyphs.map((glyph) => [glyph.character, glyph.pixels]));
        dispatch({ type: "glyphs", key: set.key, glyphs: byPoint });
      },
      key,
    );
  };
}

function keyOf({ uri, identity }: GlyphSetInfo): string {
  return `${identity.name} ${identity.ordinal} ${uri}`;
}

/** The file is told only where there are sets of several. */
function setFrom(info: GlyphSetInfo, all: readonly GlyphSetInfo[]): GlyphSet {
  const { uri, name, width, height, full, characters, widths } = info;
  const elsewhere = all.some((other) => other.uri !== uri) ? { file: fileOf(uri) } : {};
  const own = { key: keyOf(info), name, width, height, full, characters, glyphs: new Map(), ...elsewhere };
  return widths ? { ...own, widths } : own;
}

function fileOf(uri: string): string {
  const last = uri.split("/").pop() ?? uri;
  try {
    return decodeURIComponent(last);
  } catch {
    return last;
  }
}
