/** Index tables of driver addresses: written into the file in its style, and put right. */
import type { Panel } from "../../light/panel.ts";
import { usualFor } from "../../light/wiring/family.ts";
import type { Wiring } from "../../light/wiring/wiring.ts";
import { wiringOf } from "../../light/wiring/wiring.ts";
import type { Format } from "../../pixels/formats.ts";
import { FORMATS } from "../../pixels/formats.ts";
import { highestOf } from "../../pixels/picture.ts";
import { readWire } from "../../pixels/wireWords.ts";
import { freeName } from "../../source/identifiers.ts";
import type { ListNode } from "../../source/initialiser.ts";
import { rewriteElements } from "../../source/rewrite.ts";
import { indentAt } from "../../source/scan.ts";
import type { TextEdit } from "../../source/text.ts";
import { eolOf } from "../../source/text.ts";
import type { IntType } from "../../source/types.ts";
import type { House } from "../house.ts";
import { houseOf } from "../house.ts";
import { emitValues } from "../make.ts";
import type { BitmapFile } from "../resolve.ts";
import type { WiringTable } from "../wirings.ts";
import { stemOf } from "./names.ts";

export interface MadeTable {
  /** The annotation and the array, as lines without a break at the end. */
  readonly text: string;
  readonly name: string;
  readonly bits: 8 | 16 | 32;
  readonly flash: boolean;
}

/** Numbers of a row of the panel stand on a line; wider panels are wrapped. */
const WIDEST = 64;
const USUAL = 16;

/** The table of a panel with its `@wiring`, in the style of the file around an offset, in the smallest element type. */
export function tableText(file: BitmapFile, panel: Panel, wiring: Wiring, offset: number, indent = ""): MadeTable {
  const { text } = file.source;
  const eol = eolOf(text);
  const most = highestOf(wiring.index);
  const bits = most < 256 ? 8 : most < 65536 ? 16 : 32;
  const house = houseFor(file, offset, most, bits);
  const name = freeName(text, `${stemOf(panel)}_wiring`);
  const list = numbers(wiring.index, panel.options.width ?? USUAL, house, indent, eol);
  const size = house.open ? "" : wiring.index.length;
  const lines = [
    `${indent}// @wiring ${panel.name}`,
    `${indent}${house.head}${name}[${size}]${house.tail}{`,
    list,
    `${indent}};`,
  ];
  return { text: lines.join(eol), name, bits, flash: /\bPROGMEM\b/.test(house.head + house.tail) };
}

/** The style of the file's levels, in decimal: addresses are counted. */
function houseFor(file: BitmapFile, offset: number, most: number, bits: 8 | 16 | 32): House {
  const format = FORMATS.get("gray8") as Format;
  const house = houseOf(file, offset, { format, pack: "rows", most, lit: true });
  const type: IntType = { kind: "int", bits, signed: false };
  const words = /\b(?:u?int(?:8|16|32|64)_t|byte|word|unsigned char|unsigned short|unsigned int|unsigned long)\b/g;
  const found = house.head.match(words) ?? [];
  const fits = house.type.bits === bits && !house.type.signed;
  const head = fits
    ? house.head
    : found.length === 1
      ? house.head.replace(words, `uint${bits}_t`)
      : `static const uint${bits}_t `;
  const literal = { sign: "", prefix: "", base: 10, digits: "0", suffix: "" } as const;
  return { ...house, type, head, literal, width: String(most).length };
}

function numbers(index: Uint32Array, width: number, style: House, indent: string, eol: string): string {
  const perLine = width > WIDEST ? USUAL : width;
  const lines = Array.from({ length: Math.ceil(index.length / perLine) }, (_, i) => {
    const first = i * perLine;
    return { first, count: Math.min(perLine, index.length - first) };
  });
  return emitValues(lines, style, indent, eol, (i) => BigInt(index[i] as number));
}

/** The edits that make a table say what the panel's `wire=` says; undefined where that can't be written. */
export function tableEdits(file: BitmapFile, { panel, array }: WiringTable): TextEdit[] | undefined {
  const { wire, width = 0, height = 0 } = panel.options;
  const wiring = wire === undefined ? undefined : wiringOf(wire, width, height).wiring;
  const { list, type } = array;
  if (!wiring || !type || !list || highestOf(wiring.index) >= 2 ** (type.bits - (type.signed ? 1 : 0)))
    return undefined;
  const { text } = file.source;
  if (array.count === width * height) {
    const changes = Array.from(wiring.index, (address, slot) => ({ slot, bits: BigInt(address) }));
    const made = rewriteElements(text, array, changes, width);
    return "refused" in made ? undefined : made.edits;
  }
  const node = list.nodes[array.node] as ListNode;
  const [size, ...more] = array.dimensions;
  if (more.length > 0 || node.lists + node.strings > 0 || node.quoted || array.fixed !== undefined) return undefined;
  const edits: TextEdit[] = [];
  if (size?.size !== undefined) edits.push({ ...size.span, text: String(width * height) });
  const eol = eolOf(text);
  const indent = indentAt(text, array.base);
  const style = { ...houseFor(file, array.base, highestOf(wiring.index), 8), type };
  const body = numbers(wiring.index, width, style, indent, eol);
  edits.push({
    ...{ start: array.base + node.open + 1, end: array.base + node.close },
    text: `${eol}${body}${eol}${indent}`,
  });
  return edits;
}

/** The simplest `wire=` that says what a wiring does, on the same canvas; undefined where no usual one does. */
export function wireWordsOf(wiring: Wiring, panel: Panel): string | undefined {
  const { width = 0, height = 0, wire = "" } = panel.options;
  const usual = usualFor(wiring.index, width, height, wiring);
  if (!usual) return undefined;
  const same = usual.canvas.width === wiring.width && usual.canvas.height === wiring.height;
  return same || readWire(wire).wire.canvas === undefined ? usual.wire() : undefined;
}
