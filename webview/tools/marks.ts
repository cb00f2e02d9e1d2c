/** What a stroke changes: new values by the index of the pixel, counted row by row. */

export type Marks = ReadonlyMap<number, number>;

/** From so many pixels on a typed array is filled, copied and read several times as fast as a map. */
const MANY = 2048;

const tables = new WeakMap<Marks, Int32Array>();

/** Copies `marks`, adds to them through `add`, and gives the result. At most `most` are added, to a picture of `count`. */
export function addedTo(
  marks: Marks | undefined,
  count: number,
  most: number,
  add: (set: (index: number, value: number) => void) => void,
): Marks {
  if ((marks?.size ?? 0) + most < MANY) {
    const out = new Map(marks);
    add((index, value) => out.set(index, value));
    return out;
  }
  const known = marks && tables.get(marks);
  const table = known ? known.slice() : new Int32Array(count).fill(-1);
  let size = marks?.size ?? 0;
  if (!known)
    marks?.forEach((value, index) => {
      table[index] = value;
    });
  add((index, value) => {
    if ((table[index] as number) < 0) size++;
    table[index] = value;
  });
  const out = asMap(table, size);
  tables.set(out, table);
  return out;
}

/** A table of values by index, -1 where there is none, as the map that it stands for. */
function asMap(table: Int32Array, size: number): Marks {
  const has = (index: number) => (table[index] ?? -1) >= 0;
  function* entries(): MapIterator<[number, number]> {
    for (const [index, value] of table.entries()) if (value >= 0) yield [index, value];
  }
  function* keys(): MapIterator<number> {
    for (const [index, value] of table.entries()) if (value >= 0) yield index;
  }
  function* values(): MapIterator<number> {
    for (const value of table) if (value >= 0) yield value;
  }
  const marks: Marks = {
    size,
    has,
    get: (index) => (has(index) ? table[index] : undefined),
    forEach: (call) => {
      for (let index = 0; index < table.length; index++) {
        const value = table[index] as number;
        if (value >= 0) call(value, index, marks);
      }
    },
    entries,
    keys,
    values,
    [Symbol.iterator]: entries,
  };
  return marks;
}
