/** What holds for all documents of the workspace: the settings, and how a file is opened with them. */
import type { openText } from "../shared/bitmap/open.ts";
import type { Target } from "../shared/source/types.ts";

/** Options of `openText` that come from the workspace, not from the document. */
export type OpenOptions = Pick<NonNullable<Parameters<typeof openText>[2]>, "target">;

export interface Workspace {
  readonly openOptions: () => OpenOptions;
  /** Takes the value of `dotwright.target`; true where files must be read anew. */
  readonly setTarget: (value: unknown) => boolean;
  /** `dotwright.checkWorkspace`: findings are told of files that are not open, too. */
  readonly checks: () => boolean;
  readonly setChecks: (value: unknown) => boolean;
}

/** Starts with the values of the initialisation options. */
export function createWorkspace(initial: { readonly target?: unknown; readonly checkWorkspace?: unknown }): Workspace {
  let target = targetFrom(initial.target);
  let checks = initial.checkWorkspace !== false;
  return {
    openOptions: () => ({ target }),
    setTarget(value) {
      const before = target;
      target = targetFrom(value);
      return target !== before;
    },
    checks: () => checks,
    setChecks(value) {
      const before = checks;
      checks = value !== false;
      return checks !== before;
    },
  };
}

/** undefined for `auto` and for anything that is no target: then the file's ending decides. */
function targetFrom(value: unknown): Target | undefined {
  return value === "avr" || value === "arm32" || value === "host" ? value : undefined;
}
