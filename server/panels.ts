/** The panels of all files that are known to the server, open and stored, by the file that defines them. */
import type { Panel } from "../shared/light/panel.ts";
import { wiringKey } from "../shared/light/panel.ts";
import type { PanelIndex } from "../shared/light/panelIndex.ts";
import { indexPanels } from "../shared/light/panelIndex.ts";

export interface Panels {
  /** The same object until a panel changes. */
  index(): PanelIndex;
  has(id: string): boolean;
  /** What a file defines now; true where that is something else than before. */
  set(id: string, panels: readonly Panel[]): boolean;
  /** False until all files of the workspace have been looked through: names may be defined that are not known yet. */
  readonly complete: boolean;
  setComplete(): void;
}

export function createPanels(complete = false): Panels {
  const byFile = new Map<string, readonly Panel[]>();
  let index: PanelIndex | undefined;
  let all = complete;
  return {
    index() {
      index ??= indexPanels([...byFile.values()].flat());
      return index;
    },
    has: (id) => byFile.has(id),
    set(id, panels) {
      const before = byFile.get(id) ?? [];
      if (panels.length === 0) byFile.delete(id);
      else byFile.set(id, panels);
      if (JSON.stringify(before.map(said)) === JSON.stringify(panels.map(said))) return false;
      index = undefined;
      return true;
    },
    get complete() {
      return all;
    },
    setComplete() {
      all = true;
    },
  };
}

function said(panel: Panel) {
  const { name, file, text, place } = panel;
  return [name, file, text, place, wiringKey(panel)];
}
