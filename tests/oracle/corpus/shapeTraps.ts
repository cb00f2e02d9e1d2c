import type { Trap } from "./traps.ts";

const MANY = Array.from({ length: 4096 }, (_, i) => `0x${((i * 37) & 0xff).toString(16).padStart(2, "0")}`);

/** Shapes of declarations and lists: nesting, structs, linkage, decoys, size. */
export const SHAPE_TRAPS: readonly Trap[] = [
  {
    path: "trap_nesting.cpp",
    arrays: {
      uint8_t: "elided half_elided inner_short deep_mixed inferred inferred_elided row_open empty_rows",
      int16_t: "cube",
    },
    text: `
#include <stdint.h>
const uint8_t elided[2][3] = { 1, 2, 3, 4 };
const uint8_t half_elided[3][2] = { { 1 }, 2, 3, { 4, 5 } };
const uint8_t inner_short[3][4] = { { 1 }, { }, { 2, 3, } };
const uint8_t deep_mixed[2][2][2] = { 1, 2, { 3, 4 }, { { 5 }, 6, 7 } };
const uint8_t inferred[][3] = { { 1 }, { 2, 3 }, { } };
const uint8_t inferred_elided[][3] = { 1, 2, 3, 4 };
const uint8_t row_open[][2] = { 1, 2, { 3 }, 4, 5 };
const uint8_t empty_rows[2][2] = { {}, {} };
const int16_t cube[2][3][2] = { { { 1, -1 }, { 2 } }, { { 3, 4 }, { 5, 6 }, { 7, 8 } } };
`,
  },
  {
    path: "trap_structs.cpp",
    arrays: {
      uint8_t: "drop.rows pair.left pair.right icons[0].rows icons[1].rows inner.shape.rows anonymous.rows",
      uint16_t: "wide.colours",
    },
    text: `
#include <stdint.h>
struct Glyph { uint8_t width; uint8_t rows[5]; char name; };
const Glyph drop = { 5, { 0x04, 0x0E, 0x1F, 0x1F }, 'd' };
typedef struct { uint8_t left[3], right[2]; } Pair;
const Pair pair PROGMEM = { { 1, 2, 3 }, { 4 } };
struct Wide { uint8_t flag; uint16_t colours[2][2]; long after; };
static const struct Wide wide = { 1, { { 0xF800 }, { 0x07E0, 0x001F } }, 7 };
struct Icon { const char *key; uint8_t rows[3]; uint16_t tint; };
const Icon icons[] PROGMEM = { { "leaf", { 1, 2 }, 0xF800 }, { "}\\"{", { 3, 4, 5 } } };
struct Nested { int at; Glyph shape; };
const Nested inner = { 1, { 2, { 3, 4 }, 'n' } };
const struct { uint8_t count; uint8_t rows[2]; } anonymous = { 2, { 8, 9 } };
struct Point { int x, y; };
const Point origin = { 3, 4 };
const Point corners[] = { { 0, 1 }, { 2, 3 } };
const int scalar = { 5 }, other{6};
`,
    optional: "corners",
  },
  {
    path: "trap_linkage.cpp",
    arrays: {
      uint8_t:
        "declared_first flat_c block_c no_equals no_equals_empty by_attribute pointed_a pointed_b prototype_after in_anonymous static_local const_local after_lambda aligned_value",
      "unsigned char": "reversed_words",
    },
    optional: "buffer table words_list",
    text: `
#include <stdint.h>
extern const uint8_t declared_first[4];
const uint8_t declared_first[4] = { 1, 2 };
extern "C" const uint8_t flat_c[] = { 3 };
extern "C" {
extern const uint8_t block_c[];
const uint8_t block_c[] = { 4, 5 };
}
const uint8_t no_equals[]{ 1, 2 };
const uint8_t no_equals_empty[3]{};
[[gnu::used]] const uint8_t by_attribute[] = { 6 };
char const unsigned static reversed_words[] = { 7 };
const uint8_t pointed_a[] = { 1 }, pointed_b[2] = { 2 }, *const table[] = { pointed_a, pointed_b }, count = 2;
uint8_t buffer[16];
const char *const words_list[] = { "{", "}" };
void send(const uint8_t *data, int size = 3);
uint8_t (*handler)(uint8_t) = nullptr;
const uint8_t prototype_after[] = { 8 };
namespace { namespace lantern { const uint8_t in_anonymous[] = { 9 }; } }
int busy(int n) {
  static const uint8_t static_local[] = { 10, 11 };
  for (int i = 0; i < n; ++i) { if (i % 2) { continue; } else { static constexpr uint8_t const_local[2] = { 12 }; n += const_local[0]; } }
  auto twice = [](int v) { return v * 2; };
  return twice(n) + static_local[n > 1 ? 1 : 0];
}
const uint8_t after_lambda[] = { 13 };
alignas(8) const uint8_t aligned_value[] __attribute__((aligned(16))) = { 14 };
`,
  },
  {
    path: "trap_types.h",
    arrays: {
      uint8_t: "by_array_type by_array_rows by_const_type by_macro_type by_two_steps by_enum_type volatile_one",
      int16_t: "by_using",
      bool: "truths",
      char: "letters",
      "signed char": "signed_letters",
      "unsigned long long": "wide_rows",
    },
    text: String.raw`
#include <stdint.h>
typedef uint8_t icon_t[4];
const icon_t by_array_type = { 1, 2, 3 };
const icon_t by_array_rows[] = { { 1 }, { 2, 3 } };
typedef const unsigned char frozen_t;
frozen_t by_const_type[] = { 4, 5 };
#define SHADE_T unsigned char
static const SHADE_T by_macro_type[2] = { 6 };
typedef unsigned char first_t;
typedef first_t second_t;
const second_t by_two_steps[] = { 7, 300 };
enum Level : uint8_t { Night, Dusk = 40, Day };
const Level by_enum_type[] = { Night, Dusk, Day };
const volatile uint8_t volatile_one[] = { 8 };
using depth_t = signed short;
const depth_t by_using[] = { -1, 0x7FFF, -32768 };
const bool truths[] = { 2, 0, 256, -1, true, false, 0x100, !1 };
const char letters[] = { 'a', -1, '\xff', 0x80, 200 };
const signed char signed_letters[] = { 128, -128, 255, 127 };
const unsigned long long wide_rows[] = { 0x8000000000000001ULL, 0b1, 01777777777777777777777 };
`,
  },
  {
    path: "trap_large.cpp",
    arrays: { uint8_t: "many_lines many_in_one", uint16_t: "mostly_zero", uint32_t: "all_zero" },
    text: `#include <stdint.h>\nconst uint8_t many_lines[] = {\n${MANY.map((item, i) => item + (i % 16 === 15 ? ",\n" : ", ")).join("")}};\nconst uint8_t many_in_one[4096] = {${MANY.slice(0, 3000).join(",")}};\nconst uint16_t mostly_zero[40][50] = { { 1 }, { 0, 2 } };\nuint32_t all_zero[300] = { 0 };\n`,
  },
  {
    path: "trap_strings.h",
    arrays: { char: "greeting spelled escaped", uint8_t: "octets padded" },
    text: String.raw`
#include <stdint.h>
// @bitmap 6x1 gray8
const char greeting[] = "lamp!";
// @bitmap 3x2 gray8
const char spelled[6] = "ab" "cd" /* "ef" */ "e";
// @bitmap 9x1 gray8
const char escaped[] = "\x41\0\101\n\"\\{\377";
// @bitmap 4x1 gray8
const uint8_t octets[] = "\xFF\x80" "1";
// @bitmap 8x1 gray8
const unsigned char padded[8] = "\1\2";
`,
  },
  {
    path: "trap_designated.c",
    arrays: { uint8_t: "by_index by_letter by_range out_of_order", int16_t: "by_row" },
    text: `
#include <stdint.h>
const uint8_t by_index[] = { [2] = 7, 8, [1] = 5 };
const uint8_t by_letter['D'] = { ['A'] = 1, ['B'] = 2, 3 };
static const uint8_t by_range[8] = { [1 ... 3] = 9, 4 };
const uint8_t out_of_order[6] = { 1, 2, 3, [0] = 9, [5] = 8 };
const int16_t by_row[3][2] = { [1] = { 1, 2 }, [2][1] = -3, [0] = { [1] = 4 } };
`,
  },
];
