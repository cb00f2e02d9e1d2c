/** Rows of the tables of options, by the kind of value that they take. */
import type { Marker } from "../source/annotationSyntax.ts";
import type { Span } from "../source/text.ts";

type Parse = (value: string) => unknown;

export interface OptionRow {
  readonly on: readonly Marker[];
  readonly parse: Parse;
  /** What a value looks like, for messages and completion. */
  readonly form: string;
  readonly values?: readonly string[];
  readonly doc: string;
  /** A bare word, without a value. */
  readonly flag?: true;
  /** What is wrong with the parts of a value, by offsets in it. Then the value counts as given. */
  readonly judge?: (value: string) => readonly (Span & { readonly message: string; readonly suggestion?: string })[];
}

export const BITMAP: readonly Marker[] = ["bitmap"];
export const BOTH: readonly Marker[] = ["bitmap", "panel"];
/** Options that decide how the colours of a palette lie in its array. */
export const STORED: readonly Marker[] = ["bitmap", "panel", "palette"];

export const choice = (
  on: readonly Marker[],
  values: readonly string[],
  doc: string,
  parse: Parse = (v) => v,
): OptionRow => ({
  on,
  values,
  doc,
  form: values.join(", "),
  parse: (v) => (values.includes(v) ? parse(v) : undefined),
});
export const whole = (on: readonly Marker[], least: number, doc: string, most = 1 << 24): OptionRow => ({
  on,
  doc,
  form: `a whole number from ${least}`,
  parse: (v) => (/^\d{1,9}$/.test(v) && Number(v) >= least && Number(v) <= most ? Number(v) : undefined),
});
export const unit = (
  on: readonly Marker[],
  units: Readonly<Record<string, number>>,
  form: string,
  doc: string,
): OptionRow => ({
  on,
  doc,
  form,
  parse: (v) => {
    const m = /^(\d+(?:\.\d+)?)([A-Za-zµ]*)$/.exec(v);
    const factor = m ? units[m[2] as string] : undefined;
    return m && factor !== undefined && Number(m[1]) > 0 ? Number(m[1]) * factor : undefined;
  },
});
export const name = (on: readonly Marker[], form: string, doc: string): OptionRow => ({
  on,
  doc,
  form,
  parse: (v) => (/^[A-Za-z_][\w:.]*$/.test(v) ? v : undefined),
});

export const CURRENT = { mA: 1, A: 1000, uA: 0.001, µA: 0.001 };
export const LENGTH = { mm: 1, cm: 10, m: 1000 };
