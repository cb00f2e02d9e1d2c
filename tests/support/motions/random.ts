/** Sources with random motions: images and masks in several packings, fields, edges, timelines; always the same ones. */

export type Next = (below: number) => number;

/** A linear congruential generator: whole numbers from 0. */
export function numbers(seed: number): Next {
  let state = seed >>> 0;
  return (below) => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return Math.floor((state / 2 ** 32) * below);
  };
}

interface Store {
  readonly words: string;
  readonly bytes: (width: number, height: number) => number;
}

const rows = (depth: number) => (width: number, height: number) => Math.ceil((width * depth) / 8) * height;
const STORES: readonly Store[] = [
  { words: "gray8", bytes: (w, h) => w * h },
  { words: "gray8 invert", bytes: (w, h) => w * h },
  { words: "gray4", bytes: rows(4) },
  { words: "gray4 bits=lsb", bytes: rows(4) },
  { words: "gray2", bytes: rows(2) },
  { words: "mono1", bytes: rows(1) },
  { words: "mono1 bits=lsb", bytes: rows(1) },
  { words: "mono1 pack=pages", bytes: (w, h) => w * Math.ceil(h / 8) },
  { words: "mono1 pack=columns", bytes: (w, h) => w * Math.ceil(h / 8) },
  { words: "gray4 pack=columns", bytes: (w, h) => w * Math.ceil((h * 4) / 8) },
];

/** A source of so many motions, before functions that are still to be written: `play_i0`, `play_i1`, … */
export function randomSource(seed: number, count: number): string {
  const next = numbers(seed);
  const parts: string[] = [];
  for (let i = 0; i < count; i++) parts.push(randomMotion(next, i));
  return `${parts.join("\n")}\n`;
}

function randomMotion(next: Next, i: number): string {
  const width = 1 + next(next(8) === 0 ? 20 : 9);
  const height = 1 + next(next(8) === 0 ? 17 : 9);
  const store = STORES[next(3) > 0 ? 0 : next(STORES.length)] as Store;
  const set = next(5) === 0;
  const frames = set ? 2 + next(3) : 1 + next(2) * next(3);
  const cap = store.words.startsWith("gray8") && next(2) === 0 ? ` cap=${1 + next(255)}` : "";
  const chars = set ? " first='A'" : "";
  const image = array(next, `i${i}`, width, height, { ...store, words: `${store.words}${cap}${chars}` }, frames);
  const own = next(3) === 0;
  const maskStore = STORES[next(STORES.length)] as Store;
  const mask = own ? `${array(next, `m${i}`, width, height, maskStore, 1)}\n` : "";
  const words = [
    `image=i${i}${!set && frames > 1 ? `[${next(frames)}]` : ""}`,
    ...maskWords(next, own ? `m${i}` : undefined),
  ];
  words.push(...edgeWords(next), ...timeWords(next));
  return `${image}\n${mask}// @motion ${words.join(" ")}\nvoid after_${i}();`;
}

function array(next: Next, name: string, width: number, height: number, store: Store, frames: number): string {
  const sparse = next(3) === 0;
  const values = Array.from({ length: store.bytes(width, height) * frames }, () => (sparse && next(2) ? 0 : next(256)));
  // Some arrays are kept in memory, where a controller of AVR's kind reads them in another way.
  const flash = next(12) === 0 ? "" : " PROGMEM";
  return `// @bitmap ${width}x${height} ${store.words}${frames > 1 ? ` frames=${frames}` : ""}
const uint8_t ${name}[]${flash} = { ${values.join(", ")} };`;
}

function maskWords(next: Next, own: string | undefined): string[] {
  if (own !== undefined) return [`mask=${own}`];
  const field = ["radial", "linear", "angular", "diamond", "noise"][next(5)] as string;
  const words = next(6) === 0 && field === "radial" ? [] : [`mask=${field}`];
  if (field === "linear" || field === "angular") words.push(`angle=${next(361)}`);
  if (field === "noise") words.push(`seed=${next(1000)}`);
  return words;
}

function edgeWords(next: Next): string[] {
  const soft = next(5) === 0 ? next(3) : next(200);
  const rim = next(4) === 0 ? soft : next(soft + 1);
  const words = [`soft=${soft}`, `rim=${rim}`];
  // Levels up to 1 are within any cap; without a word it is the cap.
  if (next(4) === 0) words.push(`level=${next(2)}`);
  return words;
}

function timeWords(next: Next): string[] {
  const words: string[] = [];
  if (next(2) === 0) words.push(`from=${next(700) - 200}`, `to=${next(700) - 200}`);
  if (next(4) === 0) words.push(`seconds=${(2 + next(9)) / 10}`, "fps=10");
  else words.push(`step=${30 + next(300)}`);
  if (next(2) === 0) words.push(`ease=${["linear", "cubic-in", "cubic-out", "cubic-in-out"][next(4)]}`);
  return [...words, `loop=${["once", "around", "there-and-back"][next(3)]}`];
}
