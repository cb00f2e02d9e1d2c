/*
 * Deliberate mistakes, one for every finding the checks make on numbers and markers.
 * The compiler accepts all of them without an error; the display would not forgive them.
 */
#pragma once
#include "board.h"

// @panel shelf 5x5 gray8 cap=64 full=5mA

/* annotation: the option is spelt "tint". */
// @bitmap 3x3 gray8 tnit=#ffb84d
const uint8_t misspelt_option[9] PROGMEM = {
   7, 26,  7,
  26, 64, 26,
   7, 26,  7,
};

/* annotation: the panel is named already, and "shiny" is no option. */
// @bitmap shelf 3x3 shiny
const uint8_t unknown_word[9] PROGMEM = {
  26,  0, 26,
   0, 64,  0,
  26,  0, 26,
};

/* annotation: the cap is given twice. */
// @bitmap 3x3 gray8 cap=64 cap=40
const uint8_t repeated_option[9] PROGMEM = {
   0, 26,  0,
  26,  7, 26,
   0, 26,  0,
};

/* annotation: bits are "msb" or "lsb" first. */
// @bitmap 8x3 mono1 bits=left
const uint8_t bad_value[3] PROGMEM = {
  0b00111100,
  0b01000010,
  0b00111100,
};

/* annotation: a single number is no bitmap, so the marker binds to nothing. */
// @bitmap shelf
const uint8_t lonely_marker = 3;

/* length: the last row is missing; the compiler fills it with zeros. */
// @bitmap shelf
const uint8_t missing_row[25] PROGMEM = {
   0,  7, 26,  7,  0,
   7, 42, 64, 42,  7,
  26, 64, 64, 64, 26,
   7, 42, 64, 42,  7,
};

/* length: one row too many for a 5x5 panel. */
// @bitmap shelf
const uint8_t extra_row[] PROGMEM = {
  26,  0,  0,  0, 26,
   0, 26,  0, 26,  0,
   0,  0, 64,  0,  0,
   0,  0, 64,  0,  0,
   0, 26,  0, 26,  0,
  26,  0,  0,  0, 26,
};

/* length: 25 numbers are enough, but 32 are declared. */
// @bitmap shelf
const uint8_t declared_too_large[32] PROGMEM = {
   0,  0, 64,  0,  0,
   0, 42,  7, 42,  0,
  42,  7,  3,  7, 42,
   0, 42,  7, 42,  0,
   0,  0, 64,  0,  0,
};

/* length: three frames are promised; the third is cut off after two rows. */
// @bitmap 3x3 gray8 frames=3 fps=4
const uint8_t broken_frame[] PROGMEM = {
   0,  0,  0,
   0, 15,  0,
   0,  0,  0,

   0,  7,  0,
   7, 26,  7,
   0,  7,  0,

   7, 15,  7,
  15, 26, 15,
};

/* row-shape: the lines are six long, as in a 6x4 picture; the size is turned. */
// @bitmap 4x6 gray8
const uint8_t turned_size[24] PROGMEM = {
   0, 26, 42, 42, 26,  0,
  26, 64,  7,  7, 64, 26,
  26, 64,  7,  7, 64, 26,
   0, 26, 42, 42, 26,  0,
};

/* out-of-range: the array's type holds 300, a gray8 pixel ends at 255. */
// @bitmap 3x3 gray8 pack=each
const int16_t too_bright_to_exist[9] PROGMEM = {
   15, 120,  15,
  120, 300, 120,
   15, 120,  15,
};

/* over-cap: the panel's cap is 64. */
// @bitmap shelf
const uint8_t glaring_centre[25] PROGMEM = {
   0,  0,  7,  0,  0,
   0,  7, 26,  7,  0,
   7, 26, 96, 26,  7,
   0,  7, 26,  7,  0,
   0,  0,  7,  0,  0,
};

/* padding-bits: ten columns use two bits of the second byte; row 2 sets one beyond them. */
// @bitmap 10x3 mono1
const uint8_t stray_bit[6] PROGMEM = {
  0x3F, 0x00,
  0x40, 0x90,
  0x3F, 0x00,
};

/* uniform: every pixel is the same, perhaps a picture not drawn yet. */
// @bitmap shelf
const uint8_t not_drawn_yet[25] PROGMEM = {
  15, 15, 15, 15, 15,
  15, 15, 15, 15, 15,
  15, 15, 15, 15, 15,
  15, 15, 15, 15, 15,
  15, 15, 15, 15, 15,
};

/* unreadable: GLOW depends on how the sketch is built, so its value cannot be known from the source. */
// @bitmap 3x3 gray8
const uint8_t depends_on_build[9] PROGMEM = {
     0, GLOW,    0,
  GLOW,   64, GLOW,
     0, GLOW,    0,
};

/* flashing: from dark to the cap and back ten times a second; slower, or in softer steps, it is safe to look at. */
// @bitmap shelf frames=2 fps=20
const uint8_t frost_alarm[50] PROGMEM = {
  26,  0, 26,  0, 26,
   0, 64,  0, 64,  0,
  26,  0, 64,  0, 26,
   0, 64,  0, 64,  0,
  26,  0, 26,  0, 26,

   0, 26,  0, 26,  0,
  26,  0, 26,  0, 26,
   0, 26,  0, 26,  0,
  26,  0, 26,  0, 26,
   0, 26,  0, 26,  0,
};

/* current: 25 lamps at a quarter of 5 mA each are more than this supply gives. */
// @bitmap shelf budget=25mA
const uint8_t all_lamps[25] PROGMEM = {
  42, 64, 64, 64, 42,
  64, 64, 64, 64, 64,
  64, 64, 64, 64, 64,
  64, 64, 64, 64, 64,
  42, 64, 64, 64, 42,
};

/* bus: at 9600 bits a second a frame of 25 bytes takes 21 ms; 50 a second do not go through. */
// @bitmap shelf frames=2 fps=50 bus=9600
const uint8_t glimmer[50] PROGMEM = {
   0,  1,  3,  1,  0,
   1,  7, 15,  7,  1,
   3, 15, 26, 15,  3,
   1,  7, 15,  7,  1,
   0,  1,  3,  1,  0,

   0,  1,  1,  1,  0,
   1,  3,  7,  3,  1,
   1,  7, 15,  7,  1,
   1,  3,  7,  3,  1,
   0,  1,  1,  1,  0,
};

/* memory: without PROGMEM it takes RAM too, which an AVR has little of. */
// @bitmap shelf
const uint8_t left_in_ram[25] = {
   0,  7,  0,  7,  0,
   7, 26, 15, 26,  7,
   0, 15, 42, 15,  0,
   7, 26, 15, 26,  7,
   0,  7,  0,  7,  0,
};

/* motion: the baked frames are those of another step, and the edge ends before the picture stands alone. */
// @bitmap shelf frames=4 fps=8
// @motion image=glowing_seed mask=diamond soft=60 rim=10 to=-20 step=100
const uint8_t seed_reveal[4 * 25] PROGMEM = {
   0,  0,  0,  0,  0,
   0,  0,  0,  0,  0,
   0,  0, 26,  0,  0,
   0,  0,  0,  0,  0,
   0,  0,  0,  0,  0,

   0,  0,  0,  0,  0,
   0,  7, 26,  7,  0,
   0, 26, 64, 26,  0,
   0,  7, 26,  7,  0,
   0,  0,  0,  0,  0,

   0,  7, 15,  7,  0,
   7, 26, 42, 26,  7,
  15, 42, 64, 42, 15,
   7, 26, 42, 26,  7,
   0,  7, 15,  7,  0,

   7, 15, 26, 15,  7,
  15, 26, 42, 26, 15,
  26, 42, 64, 42, 26,
  15, 26, 42, 26, 15,
   7, 15, 26, 15,  7,
};

// @bitmap shelf
const uint8_t glowing_seed[25] PROGMEM = {
   0,  0,  7,  0,  0,
   0, 26, 42, 26,  0,
   7, 42, 64, 42,  7,
   0, 26, 42, 26,  0,
   0,  0,  7,  0,  0,
};

/* night: scaled from 64 to 8 for the night, the outer petals go dark and the inner ones become alike. */
// @bitmap shelf night=8
const uint8_t night_flower[25] PROGMEM = {
   7,  0,  7,  0,  7,
   0, 26, 30, 26,  0,
   7, 30, 64, 30,  7,
   0, 26, 30, 26,  0,
   7,  0,  7,  0,  7,
};

/* wiring: two modules of 4x2 in a chain; the lower one begins in row 2, not in row 1. */
// @panel sill 4x4 gray8 cap=64 wire=8x2;4x2@0,0>0,0;4x2@0,1>4,0
