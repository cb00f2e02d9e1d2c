/** Sources in every format with colours, of the potting bench's colour grid. */

/** A dawn in 16-bit colours under a cap, two icons that share a palette, and the same in other formats. */
export const COLOUR_ART = `// @panel grid 4x4 rgb565 cap=50%
// @bitmap grid
const uint16_t dawn[16] = {
  0x0002, 0x0004, 0x1006, 0x2886,
  0x48E6, 0x50E5, 0x6164, 0x69C3,
  0x7A42, 0x7202, 0x7AC1, 0x7B80,
  0x0140, 0x0180, 0x0000, 0xFFE0,
};
// @palette rgb565
const uint16_t seedling_colours[4] = { 0x0000, 0x0320, 0x4A00, 0x7A80 };
// @bitmap grid palette2 palette=seedling_colours frames=2 fps=2
const uint8_t seedling[8] = { 0x00, 0x3C, 0x14, 0x28, 0x03, 0x3C, 0x14, 0x28 };
// @bitmap grid palette2 palette=seedling_colours
const uint8_t sprout[4] = { 0x00, 0x14, 0x28, 0x3C };
// @bitmap 4x2 rgb888 tint=#ffe0c0
const uint8_t petals[24] = {
  0, 0, 0, 255, 255, 255, 18, 52, 86, 1, 2, 3,
  255, 0, 255, 0, 128, 0, 0, 0, 7, 200, 100, 50,
};
// @bitmap 4x2 rgb332
const uint8_t berries[8] = { 0x00, 0xE3, 0x0A, 0x08, 0xA0, 0x6D, 0xFF, 0x1C };
// @bitmap 4x1 palette4
const uint8_t unnamed[2] = { 0x1B, 0x0F };
// @bitmap 4x2 gray8 cap=64 tint=#ffb84d
const uint8_t lamp[8] = { 0, 1, 2, 15, 26, 42, 63, 64 };
// @bitmap 4x1 gray4 light=srgb
const uint8_t fog[2] = { 0x07, 0x8F };
`;
