/** Files that open documents include and that are not open themselves: their text, fetched when first asked for. */

export interface Unopened {
  /** The text of a file; undefined while it is being fetched, and where there is none. */
  text(uri: string): string | undefined;
  /** A file was changed, made or deleted: one that was asked for is fetched again. */
  changed(uri: string): void;
  /** Resolves when nothing is being fetched any more; true where something was. */
  fetched(): Promise<boolean>;
}

/** `arrived` is told of each file whose text is another than the last one given. */
export function createUnopened(
  fetch: (uri: string) => Promise<string | undefined>,
  arrived: (uri: string) => void,
): Unopened {
  const known = new Map<string, { text: string | undefined; asked: number }>();
  const pending = new Set<Promise<void>>();
  const ask = async (uri: string) => {
    const entry = known.get(uri) ?? { text: undefined, asked: 0 };
    known.set(uri, entry);
    const mine = ++entry.asked;
    // A file that can't be read is as if it were not there.
    const text = await fetch(uri).catch(() => undefined);
    // Of several answers the one to the last question counts.
    if (mine !== entry.asked || text === entry.text) return;
    entry.text = text;
    arrived(uri);
  };
  const follow = (asking: Promise<void>) => {
    const done = asking.finally(() => pending.delete(done));
    pending.add(done);
  };
  return {
    text(uri) {
      if (!known.has(uri)) follow(ask(uri));
      return known.get(uri)?.text;
    },
    changed(uri) {
      if (known.has(uri)) follow(ask(uri));
    },
    async fetched() {
      const some = pending.size > 0;
      while (pending.size > 0) await Promise.all(pending);
      return some;
    },
  };
}
