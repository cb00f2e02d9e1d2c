/** The documents that are ours: of any scheme, so that virtual and untitled ones are read too. */
export const SOURCES: ({ readonly language: string } | { readonly pattern: string })[] = [
  { language: "c" },
  { language: "cpp" },
  { language: "arduino" },
  { pattern: "**/*.{ino,pde,xbm}" },
];
