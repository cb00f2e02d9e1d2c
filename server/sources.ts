/** File names that C, C++, sketch and XBM sources end with. */
export const SOURCE = /\.(?:ino|pde|c|cc|cpp|cxx|h|hh|hpp|hxx|inc|ipp|xbm)$/i;

/** Folders that hold nobody's sources. */
export const SKIPPED: ReadonlySet<string> = new Set([".git", "node_modules"]);
