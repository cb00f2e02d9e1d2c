/** Pieces of C and of annotations, whole and broken, to build hostile texts of. */
export const FRAGMENTS: readonly string[] = [
  "{", "}", "(", ")", "[", "]", ";", ",", "=", " = {", "};", "={( ", "\"", "'", "\\", "\\\n", "\n", "\r\n", "\r", "\t", " ", "\uFEFF", "\0", "\uFFFD",
  "/*", "*/", "//", "// ", "/* @bitmap 3x3 */", "// @bitmap 2x2 mono1\n", "// @bitmap 0x0\n", "@bitmap", "@panel lamp 3x3", "// @panel lamp 9x9 gray8 cap=64\n",
  "// @bitmap lamp frames=2\n", "cap=", "frames=", "first='", "chars=\"", "pack=pages", "bits=lsb", "--", "entries",
  "#if", "#if 0\n", "#if X\n", "#else\n", "#elif 1\n", "#endif\n", "#define A ", "#define A B B\n", "#define F(x) x x\n", "#include \"x.inc\"\n", "#undef A\n",
  "const uint8_t a[] = {", "const uint8_t a[4] = {1, 2, 3, 4};", "uint16_t b[2][3] = {{1}, {2, 3}};", "static const char t[] = \"#..#\";", "int x",
  "struct S { uint8_t d[2]; int n; };", "S s[] = {{{1, 2}, 3}};", "enum { P = 1, Q, };", "enum E : uint8_t {", "typedef unsigned char Dot;", "namespace n {",
  "0x", "0xFF", "0b", "0b1", "0777", "08", "1'000", "1.5", "1e9", "18446744073709551616", "B0101", "-1", "~0", "1 / 0", "1 << 99", "'ab'", "'\\x'", "'\\u'",
  "sizeof(a)", "a[", "A", "F(1)", "F(", "x ? 1 :", "(uint8_t)", "[3] = 4", ".d = {1}", "R\"(", "R\"x(\")x\"", "u8\"", "operator=", "extern \"C\" {", "asm(",
];
