import type { Trap } from "./traps.ts";

/** Rules of the preprocessor, of constant expressions and of types that a reader is likely to get wrong. */
export const LANGUAGE_TRAPS: readonly Trap[] = [
  {
    path: "trap_macros.cpp",
    arrays: {
      uint8_t:
        "loose lazy redefined_a redefined_b undone spliced split_token commented chained sized_by_macro shadowing negative_macro",
    },
    allowed: "split_token",
    text: String.raw`
#include <stdint.h>
#define SUM 1 + 2
const uint8_t loose[] = { SUM, SUM * 3, 3 * SUM, (SUM) * 3, -SUM };
#define OUTER (INNER + 1)
#define INNER 4
const uint8_t lazy[] = { OUTER, INNER };
#define LEVEL 1
const uint8_t redefined_a[] = { LEVEL, LEVEL };
#undef LEVEL
#define LEVEL 0x20
const uint8_t redefined_b[] = { LEVEL, OUTER };
#undef INNER
enum { INNER = 9 };
const uint8_t undone[] = { OUTER };
#define LONG_ONE \
  ((1 << 3) \
   | 2)
const uint8_t spliced[] = { LONG_ONE, /* LONG_ONE */ 0x07 };
const uint8_t split_token[] = { 0x0\
7 };
#define NOTED 12 /* not 13 */  // nor 14
#define  SPACED	0x0F
const uint8_t commented[] = { NOTED, SPACED };
#define A1 B1_
#define B1_ C1_
#define C1_ 77
const uint8_t chained[] = { A1, B1_ , C1_ };
#define CELLS (2 * 3)
const uint8_t sized_by_macro[CELLS] = { 1 };
const int Shade = 3;
#define Shade (Shade + 1)
const uint8_t shadowing[] = { Shade };
#define MINUS -1
const uint8_t negative_macro[] = { MINUS, 5 -MINUS, - MINUS };
`,
  },
  {
    path: "trap_promotion.ino",
    arrays: {
      uint8_t: "narrow shifts signs logic character_sums",
      int16_t: "halves quotients",
      uint16_t: "sixteen",
      uint32_t: "thirty_two complements",
      int64_t: "widened",
      "unsigned long long": "sixty_four",
      long: "longs",
    },
    text: String.raw`
const uint8_t narrow[] = { 256, -1, ~0x0F, (uint8_t)~0x0F >> 4, ~0x0F >> 4, uint8_t(200) + uint8_t(100), 0xFFF, (int8_t)200 >> 1 };
const uint8_t shifts[] = { 0x8000 >> 15, 0x8000 << 1 >> 12, 1 << 7, 0xFFFF << 4 >> 8, 1u << 15 >> 15, -7 >> 1, -1 >> 15 };
const uint8_t signs[] = { -1 < 0, -1 < 0u, -1 < 0x8000, -1 < 32768, -1L < 1u, 0x8000 < 0, (1 ? -1 : 0u) > 0, -1 > 0xFFFFFFFF, '\xff' < 0, (uint8_t)'\xff' == 255, -1 == 0xFFFF, -1 == 65535u };
const uint8_t logic[] = { !5, !!5, 3 > 2 > 1, 1 | 2 == 2, 6 & 3 << 1, 1 + 2 << 3, true + true, 0 && 1 || 1, 4 ^ 1 & 3, 2 ? 3 : 4 ? 5 : 6, ~!0, 10 - 4 - 3, 24 / 4 / 3, 7 == 7 == 1 };
const uint8_t character_sums[] = { 'A' + 1, 'z' - 'a', '\x80' + 1, '\0' + '\t', '9' - '0', '\'' , '"', '\\', '\101', '\x7F' };
const int16_t halves[] = { 0x7FFF, 0x8000, 0xFFFF, -32767 - 1, 65535, '\xff', (char)0x80, -'\x80' };
const int16_t quotients[] = { -7 / 2, -7 % 2, 7 / -2, 7 % -2, -7u % 10, -7 / 2u > 5 };
const uint16_t sixteen[] = { 0xFFFF + 1, 0xFFFFu * 2, 40000u + 40000u >> 1, 300 * 100, 0x1234 >> 4 << 4, ~0, -1 };
const uint32_t thirty_two[] = { 0xFFFFu + 1u, 0x8000 * 2, 40000 * 2, 0xFFFF * 0xFFFFul, 1UL << 31, 65535 + 1, 0xFFFF << 1, 0x10000 << 4, ~0, ~0u, ~0ul, -1 };
const uint32_t complements[] = { ~0x00FF, ~0xFF00, ~0x8000u, ~(uint8_t)0, ~(uint16_t)0, ~1L, -1u, -32768 };
const int64_t widened[] = { (uint16_t(-1)), (uint8_t(200) + uint8_t(100)), (unsigned(3)) - 4, -1, -1u, ~0u, 0xFFFFFFFF, -0x80000000, 0x7FFFFFFFFFFFFFFF, -9223372036854775807 - 1, 4294967296, 'a' };
const unsigned long long sixty_four[] = { 0xFFFFFFFFFFFFFFFF, 18446744073709551615ull, 1ULL << 63, -1, -1u, ~0ULL >> 4, 0x0123456789ABCDEFULL };
const long longs[] = { -1, 2147483647, 0x7FFFFFFF, -2147483647 - 1, 1L << 30, 0xFFFF + 1L };
`,
  },
  {
    path: "trap_names.cpp",
    arrays: { uint8_t: "by_const by_typed_const by_enum by_wide_enum by_bool by_negative", int: "enum_signs" },
    text: `
#include <stdint.h>
const uint8_t Wrapped = 300, Next = Wrapped + 1;
const int8_t Low(200);
constexpr char Letter = 'A';
const bool Lit = 7;
static const unsigned Sixteen{0xFFFF};
const uint8_t by_const[] = { Wrapped, Next, Low, Letter, Lit, Sixteen + 1 };
constexpr uint16_t Wide = 70000 % 65536;
const uint8_t by_typed_const[] = { Wide >> 8, Wide & 0xFF, (Wide << 4) >> 8, Low < 0, -Low };
enum Step { First, Second = First + 4, Third, Fourth = Third * 2, Alias = Second };
enum class Kind : uint8_t { Dark = 3, Bright };
enum Byte : uint8_t { Most = 255, };
const uint8_t by_enum[] = { First, Second, Third, Fourth, Alias, Most, Most + 1, (uint8_t)Kind::Bright, static_cast<uint8_t>(Kind::Dark) };
enum Sign { Below = -5, Zero, Above = 0x7FFF };
enum Unsigned { One = 1, Two };
const int enum_signs[] = { Below, Below / 2, One - Two, (One - Two) >> 1, One - Two < 0, -Two < 0, Above };
enum { Huge = 40000, Huger = 70000 };
const uint8_t by_wide_enum[] = { Huge >> 8, Huger >> 16, Huge & 0xFF };
const uint8_t by_bool[] = { true, false, !Lit, Lit + 1, Lit ? 9 : 8 };
const int Minus = -3;
const uint8_t by_negative[] = { Minus, Minus * Minus, -Minus, Minus % 2, Minus >> 1, 5 -Minus, 5-Minus };
`,
  },
  {
    path: "trap_comments.h",
    arrays: { uint8_t: "after_raw after_strings after_continued after_quotes in_between after_divisions last_one" },
    text: String.raw`
#pragma once
#include <stdint.h>
// const uint8_t ghost_a[] = { 1, 2, 3 };
/* const uint8_t ghost_b[] = { 1, 2, 3 }; */
static const char *const raw_words = R"("; const uint8_t ghost_c[] = { 1 }; /* )";
const uint8_t after_raw[] = { 1, 2 };
static const char *const words_here = "{ \" const uint8_t ghost_d[] = { 2 }; // \\";
static const char one_quote = '"', one_brace = '{', one_slash = '\\';
const uint8_t after_strings[] = { '"', '{', '}', ',', '/', '*', ';' };
// a comment that goes on in the next line \
const uint8_t ghost_e[] = { 3 };
const uint8_t after_continued[] = { 4 };
/* it's, "open */
const uint8_t after_quotes[] /* = { 9 } */ = /* { 8 } */ { /* 7, */ 6 /* , 5 */, // 4, }
  /* { 3 */ 2 };
const /* PROGMEM */ uint8_t // name: ghost_f[]
  in_between // size [9]
  [ /* nine? */ 3 // four
  ] = // { 1,
  { 1, 2, 3, };
const uint8_t after_divisions[] = { 8 / 2, 8 /* 4 */ / 4, 9//* 3 */
  / 3 };
#if 0
const uint8_t ghost_g[] = { 1, 2 };
it's not C
#endif
const uint8_t last_one[] = {7}/* no newline */ ;`,
  },
  {
    path: "trap_unknown.cpp",
    arrays: {
      uint8_t:
        "level_unknown count_unknown row_unknown known_beside call_macro sizes_of shadowed short_circuit wide_characters",
    },
    required: "level_unknown count_unknown row_unknown",
    allowed: "sizes_of shadowed short_circuit wide_characters",
    text: `
#include <stdint.h>
const uint8_t level_unknown[] = { 1, HIDDEN_LEVEL, 3 };
const uint8_t count_unknown[HIDDEN_COUNT] = { 1, 2, 3 };
const uint8_t row_unknown[] = { HIDDEN_ROW(1, 2), HIDDEN_ROW(3, 4) };
const uint8_t known_beside[] = { 1, 37, 3 };
#define ROW16(w) (uint8_t)((w) >> 8), (uint8_t)((w) & 0xFF)
const uint8_t call_macro[] = { ROW16(0b1010000011110000), ROW16(0x1234) };
const uint8_t sizes_of[] = { sizeof(uint16_t), sizeof(known_beside), sizeof(int), sizeof 'a', sizeof(known_beside) / sizeof(known_beside[0]) };
const int Tone = 5;
namespace deep { const int Tone = 6; const uint8_t shadowed[] = { Tone, ::Tone }; }
const uint8_t short_circuit[] = { 0 && 1 / 0, 1 || 1 / 0, 1 ? 2 : 1 / 0 };
const uint8_t wide_characters[] = { u'a', U'b' };
`,
  },
];
