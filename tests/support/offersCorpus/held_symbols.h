/* SYMBOLS
 * every symbol is 10 wide and 10 high; rows, most significant bit first
 */
extern const unsigned char plug_symbol[20];
const unsigned char plug_symbol[20] = {
  0x00, 0x00, 0x04, 0x00, 0x06, 0x00, 0xFF, 0x00, 0xFF, 0xC0,
  0xFF, 0x80, 0xFF, 0x00, 0x06, 0x00, 0x04, 0x00, 0x00, 0x00,
};
const unsigned char vent_symbol[20] = {
  0x10, 0x00, 0x38, 0x00, 0x78, 0x00, 0x08, 0xC0, 0x0D, 0xC0,
  0x1F, 0xC0, 0x31, 0xC0, 0x30, 0x00, 0x38, 0x00, 0x18, 0x00,
};

/* 7 x 9 face */
const unsigned char mood_happy[] = {
  0x38, 0x44, 0x82, 0xAA, 0x82, 0xAA, 0x92, 0x44, 0x38
};

const unsigned char mood_names[3][6] = { "happy", "soso", "sad" };

// frog, one hex digit pair a row
const unsigned char frog[8] = { 0x66, 0x99, 0xFF, 0xDB, 0xFF, 0x7E, 0xA5, 0xC3 };

const unsigned char beetle_8x8[] = { 0x30, 0x70, 0x31, 0x1B, 0x3F, 0x70, 0x70, 0x30, };

// how far each symbol moves the cursor
const unsigned char symbol_step[4] = { 11, 11, 8, 9 };
// chance of rain, 8x3 hours
const unsigned char rain_chance[24] = { 10, 10, 20, 40, 60, 80, 90, 80, 60, 40, 20, 10, 10, 10, 5, 5, 5, 10, 20, 30, 40, 50, 50, 40 };
/* 6 x 8 nodes on the bus */
const unsigned char node_ids[48] = { 10, 39, 68, 97, 6, 35, 64, 93, 122, 31, 60, 89, 118, 27, 56, 85,
114, 23, 52, 81, 110, 19, 48, 77, 106, 15, 44, 73, 102, 11, 40, 69,
98, 7, 36, 65, 94, 3, 32, 61, 90, 119, 28, 57, 86, 115, 24, 53 };
// 8x8 cosines
const signed char dct_cos[64] = { 90, 90, 90, 90, 90, 90, 90, 90, 88, 75, 50, 18, -18, -50, -75, -88,
83, 34, -34, -83, -83, -34, 34, 83, 75, -18, -88, -50, 50, 88, 18, -75,
64, -64, -64, 64, 64, -64, -64, 64, 50, -88, 18, 75, -75, -18, 88, -50,
34, -83, 83, -34, -34, 83, -83, 34, 18, -50, 75, -88, 88, -75, 50, -18 };
