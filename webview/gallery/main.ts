/** Starts the gallery: the files as they come, the filter, the groups, and the list of what is left. */
import "../translate.ts";
import * as l10n from "@vscode/l10n";
import type { GalleryToHost, GalleryToPage } from "../../shared/protocol/galleryPage.ts";
import type { GalleryFile } from "../../shared/protocol/lsp.ts";
import { openPort } from "../port.ts";
import { el, setText } from "../view/dom.ts";
import { onThemeChange, readTheme, tellStyle } from "../view/theme.ts";
import { makeList } from "./list.ts";
import type { Grouping } from "./model.ts";
import { listing } from "./model.ts";
import { makePictures } from "./pictures.ts";

interface Kept {
  readonly filter: string;
  readonly grouping: Grouping;
}

function start(root: HTMLElement): void {
  const files = new Map<string, GalleryFile>();
  let left = 0;
  let why: string | undefined;
  let begun = false;

  const port = openPort<GalleryToPage, GalleryToHost>({
    files: ({ files: changed, gone, left: still }) => {
      for (const file of changed) {
        if (file.bitmaps.length > 0) files.set(file.uri, file);
        else files.delete(file.uri);
        pictures.stale(file.uri);
      }
      for (const uri of gone) files.delete(uri);
      [left, why, begun] = [still, undefined, true];
      soon();
      return {};
    },
    nothing: (nothing) => {
      why = nothing.why;
      soon();
      return {};
    },
  });
  const { rpc } = port;
  const kept = keptOf(port.kept);
  let grouping = kept.grouping;

  const pictures = makePictures(
    async (uri, rows) =>
      (await rpc.call("pictures", { uri, wanted: rows.map(({ name, ordinal }) => ({ name, ordinal })) })).pictures,
    (keys) => list.arrived(keys),
  );
  const say = (asked: Promise<unknown>) =>
    void asked.catch((error: unknown) => setText(status, error instanceof Error ? error.message : String(error)));
  const list = makeList(
    l10n.t("Bitmaps of the workspace"),
    {
      open: ({ uri, entry: { identity } }) =>
        say(rpc.call("open", { uri, name: identity.name, ordinal: identity.ordinal })),
      paint: ({ uri, entry: { identity } }) => say(rpc.call("paint", { uri, identity })),
    },
    pictures,
  );
  const filter = el("input", {
    type: "search",
    placeholder: l10n.t("Filter: name, file, format, finding"),
    "aria-label": l10n.t("Filter the bitmaps"),
  });
  filter.value = kept.filter;
  const groups = (["file", "panel"] as const).map((by) => {
    const text = by === "file" ? l10n.t("by file") : l10n.t("by panel");
    const button = el("button", { type: "button", class: "word", text });
    button.addEventListener("click", () => {
      grouping = by;
      changed();
    });
    return [by, button] as const;
  });
  const status = el("span", { role: "status", class: "dim" });
  const bar = el("div", { class: "bar" }, ...groups.map(([, button]) => button), status);
  const empty = el("p", { class: "empty" });
  root.replaceChildren(filter, bar, empty, list.element);

  const changed = () => {
    port.keep({ filter: filter.value, grouping } satisfies Kept);
    draw();
  };
  filter.addEventListener("input", changed);
  filter.addEventListener("keydown", (event) => {
    if (event.key === "ArrowDown") {
      event.preventDefault();
      list.focus();
    }
  });

  let queued = false;
  const soon = () => {
    if (queued) return;
    queued = true;
    requestAnimationFrame(() => {
      queued = false;
      draw();
    });
  };
  const draw = () => {
    const sorted = [...files.values()].sort((a, b) => (a.title < b.title ? -1 : 1));
    const { rows, shown, all } = listing(sorted, filter.value, grouping, l10n.t("no panel"));
    for (const [by, button] of groups) button.setAttribute("aria-pressed", String(by === grouping));
    setText(status, begun ? statusWords(shown, all, left) : "");
    const none = why ?? (begun && left === 0 ? noneWords(shown, all) : "");
    setText(empty, none);
    empty.hidden = none === "";
    list.element.hidden = rows.length === 0;
    list.draw(rows, grouping);
  };

  tellStyle(root, readTheme());
  onThemeChange(() => tellStyle(root, readTheme()));
  draw();
  void rpc.call("ready", {});
}

function statusWords(shown: number, all: number, left: number): string {
  const count = all === 1 ? l10n.t("1 bitmap") : l10n.t("{0} bitmaps", all);
  const parts = [shown === all ? count : l10n.t("{0} of {1}", shown, count)];
  if (left > 0) parts.push(left === 1 ? l10n.t("1 file to read") : l10n.t("{0} files to read", left));
  return parts.join(", ");
}

function noneWords(shown: number, all: number): string {
  if (all === 0)
    return l10n.t(
      "No file of the workspace holds a bitmap. Write “@bitmap” and its size in a comment before an array.",
    );
  return shown === 0 ? l10n.t("No bitmap has these words.") : "";
}

function keptOf(kept: unknown): Kept {
  const before = typeof kept === "object" && kept !== null ? (kept as Partial<Kept>) : {};
  return {
    filter: typeof before.filter === "string" ? before.filter : "",
    grouping: before.grouping === "panel" ? "panel" : "file",
  };
}

const root = document.getElementById("dotwright");
if (root) start(root);
