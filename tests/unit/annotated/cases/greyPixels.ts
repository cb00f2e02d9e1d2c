import { type ArrayCase, drawn } from "./arrayCase.ts";

const six = "const uint8_t a[] = { 1, 2, 3, 4, 5, 6 };";
const nine = "const uint8_t a[] = { 1, 2, 3, 4, 5, 6, 7, 8, 9 };";
const three = (words: string) => ({ source: `// @bitmap ${words}\n${nine}` });

/** gray8: one pixel per element in every order of scanning, and several pixels in a wider element. */
export const greyPixels: ArrayCase[] = [
  {
    what: "gray8 is the format where none is named",
    source: `// @bitmap 3x2\n${six}`,
    pictures: drawn(`
      1 2 3
      4 5 6`),
  },
  {
    what: "two pixels in a 16-bit element, high byte first",
    source: "// @bitmap 4x2 gray8\nconst uint16_t a[] = { 0x0102, 0x0304, 0x0506, 0x0708 };",
    pictures: drawn(`
      1 2 3 4
      5 6 7 8`),
  },
  {
    what: "three pixels in the high bytes of a 32-bit element",
    source: "// @bitmap 3x2 gray8\nconst uint32_t a[] = { 0x01020300, 0x04050600 };",
    pictures: drawn(`
      1 2 3
      4 5 6`),
  },
  {
    what: "three pixels in the low bytes of a 32-bit element",
    source: "// @bitmap 3x2 gray8 spare=first\nconst uint32_t a[] = { 0x00010203, 0x00040506 };",
    pictures: drawn(`
      1 2 3
      4 5 6`),
  },
  {
    what: "four pixels in a 32-bit element, low byte first",
    source: "// @bitmap 4x1 gray8 bytes=le\nconst uint32_t a[] = { 0x04030201 };",
    pictures: drawn("1 2 3 4"),
  },
  {
    what: "pixels running on through 32-bit elements",
    source: "// @bitmap 3x2 gray8 pad=frame\nconst uint32_t a[] = { 0x01020304, 0x05060000 };",
    pictures: drawn(`
      1 2 3
      4 5 6`),
  },
  {
    what: "the low end of an element first",
    source: "// @bitmap 2x2 gray8 bits=lsb\nconst uint16_t a[] = { 0x0201, 0x0403 };",
    pictures: drawn(`
      1 2
      3 4`),
  },
  {
    what: "the bits inside a pixel are never reversed",
    source: "// @bitmap 2x1 gray8 bits=lsb\nconst uint8_t a[] = { 0x01, 0x80 };",
    pictures: drawn("1 128"),
  },
  {
    what: "one pixel per 16-bit element",
    source: "// @bitmap 3x1 gray8 pack=each\nconst uint16_t a[] = { 0x0001, 0x00ff, 128 };",
    pictures: drawn("1 255 128"),
  },
  {
    what: "one pixel per int on a 16-bit target",
    file: "lantern.ino",
    source: "// @bitmap 3x1 gray8 pack=each\nconst int a[3] = { 7, 64, 200 };",
    pictures: drawn("7 64 200"),
  },
  {
    what: "scan by columns",
    source: `// @bitmap 3x2 gray8 scan=columns\n${six}`,
    pictures: drawn(`
      1 3 5
      2 4 6`),
  },
  {
    what: "scan by rows said in words",
    source: `// @bitmap 3x2 gray8 scan=rows\n${six}`,
    pictures: drawn(`
      1 2 3
      4 5 6`),
  },
  {
    what: "serpentine rows",
    ...three("3x3 gray8 scan=serpentine"),
    pictures: drawn(`
      1 2 3
      6 5 4
      7 8 9`),
  },
  {
    what: "serpentine columns",
    ...three("3x3 gray8 scan=serpentine-columns"),
    pictures: drawn(`
      1 6 7
      2 5 8
      3 4 9`),
  },
  {
    what: "rows from the top right",
    source: `// @bitmap 3x2 gray8 from=top-right\n${six}`,
    pictures: drawn(`
      3 2 1
      6 5 4`),
  },
  {
    what: "rows from the bottom left",
    source: `// @bitmap 3x2 gray8 from=bottom-left\n${six}`,
    pictures: drawn(`
      4 5 6
      1 2 3`),
  },
  {
    what: "rows from the bottom right",
    source: `// @bitmap 3x2 gray8 from=bottom-right\n${six}`,
    pictures: drawn(`
      6 5 4
      3 2 1`),
  },
  {
    what: "columns from the bottom right",
    source: `// @bitmap 3x2 gray8 scan=columns from=bottom-right\n${six}`,
    pictures: drawn(`
      6 4 2
      5 3 1`),
  },
  {
    what: "serpentine rows from the bottom left",
    ...three("3x3 gray8 scan=serpentine from=bottom-left"),
    pictures: drawn(`
      7 8 9
      6 5 4
      1 2 3`),
  },
  {
    what: "serpentine rows from the bottom right",
    source: `// @bitmap 3x2 gray8 scan=serpentine from=bottom-right\n${six}`,
    pictures: drawn(`
      4 5 6
      3 2 1`),
  },
  {
    what: "serpentine columns from the top right",
    ...three("3x3 gray8 scan=serpentine-columns from=top-right"),
    pictures: drawn(`
      7 6 1
      8 5 2
      9 4 3`),
  },
  {
    what: "serpentine columns from the bottom left",
    source: `// @bitmap 2x3 gray8 scan=serpentine-columns from=bottom-left\n${six}`,
    pictures: drawn(`
      3 4
      2 5
      1 6`),
  },
  {
    what: "serpentine with one bit per element",
    source: "// @bitmap 3x2 mono1 pack=each scan=serpentine\nconst uint8_t a[] = { 1, 0, 0, 1, 1, 0 };",
    pictures: drawn(`
      #..
      .##`),
  },
  {
    what: "inverted: a stored 0 is full light",
    source: "// @bitmap 3x1 gray8 invert\nconst uint8_t a[] = { 0, 10, 255 };",
    pictures: drawn("255 245 0"),
  },
];
