/** An array of the corpus by file and name. */
export interface Labelled {
  readonly file: string;
  readonly name: string;
  /** The words that a person who knows the array would write after `@bitmap`; undefined for one that is no picture. */
  readonly words: string | undefined;
}
