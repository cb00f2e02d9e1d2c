/** The form of a question: a line of its own with the answer, and what it can be answered with. */
import type { PictureChoices } from "../../shared/protocol/importing.ts";
import type { Change } from "./state.ts";

export interface Option {
  readonly value: string;
  readonly label: string;
  readonly hint?: string;
}

interface Named {
  /** Tells it from the others of the question. */
  readonly name: string;
  readonly label: string;
  readonly value: string;
  /** What becomes of another value. */
  set(value: string): readonly Change[];
}

export type Field =
  /** Words side by side, or a list where there may be many. */
  | (Named & { readonly kind: "pick"; readonly options: readonly Option[] })
  | (Named & { readonly kind: "list"; readonly options: readonly Option[] })
  | (Named & { readonly kind: "text"; readonly hint?: string; readonly narrow?: boolean });

export interface Question {
  readonly key: string;
  /** One word for the line that it stands on. */
  readonly word: string;
  readonly ask: string;
  readonly answer: string;
  readonly fields: readonly Field[];
}

export const chosen = (choices: { readonly [K in keyof PictureChoices]?: PictureChoices[K] | undefined }): Change[] => [
  { type: "choose", choices },
];

/** A whole number; undefined for anything else. */
export function whole(text: string): number | undefined {
  return /^\d{1,5}$/.test(text.trim()) ? Number(text) : undefined;
}

/** The label of the option that is taken. */
export function labelOf(options: readonly Option[], value: string): string {
  return options.find((option) => option.value === value)?.label ?? value;
}
