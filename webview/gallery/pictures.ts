/** Fetches the pictures of rows in view, several of a file at once, and keeps them. */

interface Wanted {
  readonly key: string;
  readonly uri: string;
  readonly name: string;
  readonly ordinal: number;
}

type Fetch = (uri: string, wanted: readonly Wanted[]) => Promise<readonly (string | null)[]>;

export interface Pictures {
  /** The picture of a row: null where there is none, undefined while it is not known. An old one is given until there is a new one. */
  of(key: string): string | null | undefined;
  want(rows: readonly Wanted[]): void;
  /** Those of a file are to be fetched anew. */
  stale(uri: string): void;
}

/** Scrolling past is no wish for a picture. */
const PAUSE_MS = 60;

/** `arrived` is called with the keys of pictures that are new. */
export function makePictures(fetch: Fetch, arrived: (keys: readonly string[]) => void): Pictures {
  const known = new Map<string, string | null>();
  /** Known to be of the newest version of its file. */
  const fresh = new Set<string>();
  const asked = new Map<string, number>();
  /** How often each file has changed. */
  const versions = new Map<string, number>();
  let wanted: readonly Wanted[] = [];
  let waiting = false;

  const ask = () => {
    waiting = false;
    const byFile = new Map<string, Wanted[]>();
    for (const row of wanted) {
      if (fresh.has(row.key) || asked.get(row.key) === versionOf(row.uri)) continue;
      asked.set(row.key, versionOf(row.uri));
      byFile.set(row.uri, [...(byFile.get(row.uri) ?? []), row]);
    }
    for (const [uri, rows] of byFile) void get(uri, rows);
  };
  const versionOf = (uri: string) => versions.get(uri) ?? 0;
  const get = async (uri: string, rows: readonly Wanted[]) => {
    const version = versionOf(uri);
    // Without an answer a row stays without a picture until its file changes.
    const found = await fetch(uri, rows).catch(() => rows.map(() => null));
    if (version !== versionOf(uri)) return;
    rows.forEach(({ key }, i) => {
      known.set(key, found[i] ?? null);
      fresh.add(key);
    });
    arrived(rows.map(({ key }) => key));
  };

  return {
    of: (key) => known.get(key),
    want(rows) {
      wanted = rows;
      if (waiting) return;
      waiting = true;
      setTimeout(ask, PAUSE_MS);
    },
    stale(uri) {
      versions.set(uri, versionOf(uri) + 1);
      for (const key of [...fresh]) if (key.startsWith(`${uri} `)) fresh.delete(key);
    },
  };
}
