import type { CorpusFile } from "../../support/formsCorpus.ts";
import type { Target } from "./arithmetic.ts";
import type { CorpusArray } from "./declarations.ts";
import { LANGUAGE_TRAPS } from "./languageTraps.ts";
import { SHAPE_TRAPS } from "./shapeTraps.ts";
import { TYPES } from "./types.ts";

/**
 * A file written by hand: `arrays` maps an element type to the names that have it, in one string. An array inside a
 * struct variable is named `variable.member`.
 */
export interface Trap {
  readonly path: string;
  readonly text: string;
  readonly arrays: Readonly<Record<string, string>>;
  /** Names that the product may leave unread, saying why. */
  readonly allowed?: string;
  /** Names that the product must leave unread: their values depend on what only the compiler sees. */
  readonly required?: string;
  readonly optional?: string;
  readonly targets?: readonly Target[];
}

export function trapFiles(): readonly CorpusFile[] {
  return [...LANGUAGE_TRAPS, ...SHAPE_TRAPS].map((trap) => ({
    path: trap.path,
    bytes: Buffer.from(trap.text.replace(/^\n/, "")),
    targets: trap.targets ?? ["avr", "host"],
    arrays: Object.entries(trap.arrays).flatMap(([type, names]) => words(names).map((name) => found(trap, type, name))),
    optional: words(trap.optional),
  }));
}

function words(names = ""): readonly string[] {
  return names.split(/\s+/).filter((name) => name !== "");
}

function found(trap: Trap, type: string, name: string): CorpusArray {
  const known = TYPES.find(({ words: spelled }) => spelled.join(" ") === type);
  if (!known) throw new Error(`${trap.path}: no element type ${type}`);
  const readOnly = words(trap.required).includes(name)
    ? "required"
    : words(trap.allowed).includes(name)
      ? "allowed"
      : "never";
  const [variable = ""] = name.split(/[.[]/);
  const declaration = new RegExp(`^.*\\b${variable}\\b[^;]*;`, "m").exec(trap.text)?.[0];
  if (declaration === undefined) throw new Error(`${trap.path}: no declaration of ${name}`);
  return { name, declaration, bits: known.bits, signed: known.signed, readOnly };
}
