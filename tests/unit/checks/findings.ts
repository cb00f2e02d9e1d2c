import { type ReadFinding, readPictures } from "../../support/readPictures.ts";

/** What a finding says and mends, as the tables of this folder write it. */
export interface Expected {
  what: string;
  source: string;
  /** Part of the message. */
  says: string;
  /** The text it stands on. */
  on: string;
  severity?: string;
  /** Titles of all its fixes, each with the whole text afterwards. */
  fixes?: Record<string, string>;
  /** Codes that are still found after a fix, by its title; none where it is not named here. */
  left?: Record<string, string[]>;
}

export function findingsOf(source: string, code: string): ReadFinding[] {
  return readPictures(source).findings.filter((finding) => finding.code === code);
}

export function codesIn(source: string): string[] {
  return readPictures(source).findings.map((finding) => finding.code);
}

/** `// @bitmap OPTIONS` over an array of bytes. */
export const bytes = (options: string, list: string, size = "") =>
  `// @bitmap ${options}\nconst uint8_t a[${size}] = ${list};`;
