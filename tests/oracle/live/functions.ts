/**
 * Functions of live code, as people write them for small displays, for a compiler to judge what the interpreter plays.
 * Each stands in a namespace of its own in one program; `pixel` is a call for one pixel, `fill` one for a frame.
 */
export interface LiveCase {
  readonly name: string;
  /** Words of the panel. */
  readonly panel: string;
  readonly code: string;
  /** In C, with x, y, t (the frame) and ms in reach. */
  readonly pixel?: string;
  readonly fill?: string;
  /** The array that a `fill` fills. */
  readonly buffer?: string;
  readonly frames: number;
}

const P = "9x9 gray8";
const SMOOTH = `static float smoothstep(float e0, float e1, float v) {
  float s = (v - e0) / (e1 - e0);
  if (s < 0.0f) s = 0.0f;
  if (s > 1.0f) s = 1.0f;
  return s * s * (3.0f - 2.0f * s);
}
`;
const SEEDLING = `const uint8_t seedling[81] PROGMEM = {
  0, 0, 0, 0, 0, 0, 0, 0, 0,   0, 0, 7, 15, 0, 15, 7, 0, 0,   0, 7, 42, 26, 3, 26, 42, 7, 0,
  0, 3, 26, 42, 15, 42, 26, 3, 0,   0, 0, 3, 15, 64, 15, 3, 0, 0,   0, 0, 0, 3, 64, 3, 0, 0, 0,
  0, 0, 0, 1, 42, 1, 0, 0, 0,   0, 3, 7, 15, 26, 15, 7, 3, 0,   7, 15, 15, 15, 15, 15, 15, 15, 7 };
`;

const pixel = (name: string, code: string, call: string, frames = 5, more: Partial<LiveCase> = {}): LiveCase => ({
  name,
  panel: P,
  code,
  pixel: call,
  frames,
  ...more,
});
const fill = (name: string, code: string, call: string, frames = 5, more: Partial<LiveCase> = {}): LiveCase => ({
  name,
  panel: P,
  code,
  fill: call,
  buffer: "buf",
  frames,
  ...more,
});

export const CASES: readonly LiveCase[] = [
  pixel("diagonal", `uint8_t f(uint8_t x, uint8_t y, uint8_t t) { return x * 20 + y * 7 + t * 5; }`, "f(x, y, t)"),
  pixel("parameters wrap", `uint8_t f(int8_t x, int8_t y, uint8_t t) { return (x - 4) * (y - 4) - t; }`, "f(x, y, t)"),
  pixel(
    "int widens or does not",
    `uint8_t f(uint8_t x, uint8_t y, uint8_t t) { return (uint8_t)((x * 4000 + y * 4000 + t) >> 8); }`,
    "f(x, y, t)",
  ),
  pixel(
    "unsigned and signed compared",
    `uint8_t f(int x, int y, unsigned t) { return (x - 5 < t) + 2 * (y - 3 > (int)t) + 4 * ((unsigned char)(x - 9) > 250); }`,
    "f(x, y, t)",
  ),
  pixel(
    "division and remainder of negatives",
    `uint8_t f(int x, int y, int t) { int d = x * 7 - 40; return (uint8_t)(d / 3 + d % 4 + (y - 5) / 2 * 3 + (t - 3) % 2); }`,
    "f(x, y, t)",
  ),
  pixel(
    "shifts of negatives",
    `uint8_t f(int16_t x, int16_t y, int16_t t) { int16_t v = (x - 4) * 300; return (v >> 3) ^ ((unsigned)y << 2) ^ (t >> 1); }`,
    "f(x, y, t)",
  ),
  pixel(
    "long arithmetic",
    `uint8_t f(long x, long y, long t) { return ((x * 123457L + y * 76543L) / (t + 3)) >> 7; }`,
    "f(x, y, t)",
  ),
  pixel(
    "64 bits",
    `uint8_t f(uint8_t x, uint8_t y, uint8_t t) {
  uint64_t v = 0x9E3779B97F4A7C15ULL * (x + 9 * y + 1);
  v ^= v >> 29;
  v *= 0xBF58476D1CE4E5B9ULL + t;
  int64_t s = (int64_t)v;
  return (s >> 33) % 251 - (v >> 60);
}`,
    "f(x, y, t)",
  ),
  pixel(
    "a hash as noise",
    `static uint16_t hash(uint16_t v) { v ^= v << 7; v ^= v >> 9; v ^= v << 8; return v; }
uint8_t f(uint8_t x, uint8_t y, uint8_t t) { return hash(x + 9 * y + 81 * t + 1) >> 8; }`,
    "f(x, y, t)",
  ),
  pixel(
    "ring of distance squared",
    `uint8_t f(int x, int y, int t) { int dx = x - 4, dy = y - 4; int d = dx * dx + dy * dy; return abs(d - t * 4) < 5 ? 64 : 0; }`,
    "f(x, y, t)",
    8,
  ),
  pixel(
    "a triangle wave",
    `uint8_t tri(uint8_t v) { return v < 128 ? v * 2 : (255 - v) * 2; }
uint8_t f(uint8_t x, uint8_t y, uint8_t t) { return tri(x * 28 + t * 16) / 4 + tri(y * 28) / 8; }`,
    "f(x, y, t)",
  ),
  pixel(
    "min, max and constrain",
    `uint8_t f(int x, int y, int t) { return constrain(min(x, y) * 20 - max(x - 4, 3) * t, 0, 64); }`,
    "f(x, y, t)",
  ),
  pixel("map", `uint8_t f(int x, int y, int t) { return map(x * y, 0, 64, 5 - t, 250); }`, "f(x, y, t)"),
  pixel(
    "the file's own macros",
    `#define SIDE 9
#define AT(x, y) ((y) * SIDE + (x))
#define MIX(a, b, k) (((a) * (255 - (k)) + (b) * (k)) / 255)
uint8_t f(uint8_t x, uint8_t y, uint8_t t) { return MIX(AT(x, y), 80 - AT(x, y), t * 30); }
#undef MIX
#undef AT
#undef SIDE`,
    "f(x, y, t)",
    8,
  ),
  pixel(
    "enums, constants and a typedef",
    `enum Tone { DARK = 3, DIM = DARK * 5, FULL = 64 };
typedef uint8_t level;
const int HALF = (FULL + DIM) / 2;
level f(level x, level y, level t) { return x == t ? FULL : y == t ? HALF : (x + y) % 2 ? DIM : DARK; }`,
    "f(x, y, t)",
  ),
  pixel(
    "flash is read",
    `${SEEDLING}uint8_t f(uint8_t x, uint8_t y, uint8_t t) { return pgm_read_byte(&seedling[y * 9 + (x + t) % 9]); }`,
    "f(x, y, t)",
    9,
  ),
  pixel(
    "words of flash",
    `const uint16_t rows[9] PROGMEM = { 0x1ff, 0x101, 0x17d, 0x145, 0x155, 0x145, 0x17d, 0x101, 0x1ff };
uint8_t f(uint8_t x, uint8_t y, uint8_t t) { return (pgm_read_word(rows + (y + t) % 9) >> (8 - x)) & 1 ? 64 : 0; }`,
    "f(x, y, t)",
  ),
  pixel(
    "two dimensions",
    `const int8_t weights[3][3] = { { 1, -2, 1 }, { -2, 12, -2 }, { 1, -2, 1 } };
uint8_t f(uint8_t x, uint8_t y, uint8_t t) { return (uint8_t)(weights[y / 3][x / 3] * (t + 1) * 3); }`,
    "f(x, y, t)",
  ),
  pixel(
    "comma, increments and compound assignment",
    `uint8_t f(uint8_t x, uint8_t y, uint8_t t) {
  uint8_t a = x, b = y;
  a <<= 3, b |= 0x41;
  a ^= b++;
  b -= a--;
  a *= ++b;
  a %= 100;
  a += t ? --a, a / 2 : 7;
  return a & ~b;
}`,
    "f(x, y, t)",
  ),
  pixel(
    "precedence",
    `uint8_t f(int x, int y, int t) { return x & 3 | y ^ 5 + t << 1 == 10 ? x + y * 2 << 1 : !x + ~y & 0x3f ^ -t; }`,
    "f(x, y, t)",
  ),
  pixel(
    "switch falls through",
    `uint8_t f(uint8_t x, uint8_t y, uint8_t t) {
  uint8_t v = 0;
  switch ((x + t) % 5) {
    case 0: v += 10;
    case 1: v += 20; break;
    case 2: { v = y * 3; if (v > 12) break; }
    default: v += 5;
    case 4: v ^= 0x15;
  }
  return v;
}`,
    "f(x, y, t)",
  ),
  pixel(
    "loops with break and continue",
    `uint8_t f(uint8_t x, uint8_t y, uint8_t t) {
  uint16_t sum = 0;
  for (uint8_t i = 0; i < 20; i++) {
    if (i % 3 == x % 3) continue;
    if (i > y + t + 4) break;
    uint8_t k = i;
    do sum += k; while (k-- > 3);
    while (k < 5) { k += 2; if (sum & 1) break; sum++; }
  }
  return sum;
}`,
    "f(x, y, t)",
  ),
  pixel(
    "a function that calls itself",
    `uint8_t depth(uint16_t v) { return v <= 1 ? 0 : 1 + depth(v & 1 ? 3 * v + 1 : v / 2); }
uint8_t f(uint8_t x, uint8_t y, uint8_t t) { return depth(x + y * 2 + t + 1); }`,
    "f(x, y, t)",
  ),
  pixel(
    "calls inside of calls",
    `uint8_t half(uint8_t a, uint8_t b) { return (a + b) / 2; }
uint8_t f(uint8_t x, uint8_t y, uint8_t t) { return half(half(x * 20, y * 20), half(t * 30, half(x, y))); }`,
    "f(x, y, t)",
  ),
  pixel(
    "smoothstep",
    `${SMOOTH}uint8_t f(uint8_t x, uint8_t y, uint8_t t) { return (uint8_t)(smoothstep(t * 0.7f, t * 0.7f + 5.0f, x * 0.9f + y * 0.3f) * 64.0f + 0.5f); }`,
    "f(x, y, t)",
    8,
  ),
  pixel(
    "a soft ring",
    `${SMOOTH}uint8_t f(uint8_t x, uint8_t y, uint8_t t) {
  float dx = x - 4.0f, dy = y - 4.0f;
  float d = sqrtf(dx * dx + dy * dy);
  float p = t * 0.5f;
  float inside = smoothstep(p - 1.0f, p, d);
  float edge = inside * (1.0f - smoothstep(p, p + 1.5f, d));
  return (uint8_t)roundf(edge * 64.0f);
}`,
    "f(x, y, t)",
    10,
  ),
  pixel(
    "floats in single steps",
    `uint8_t f(float x, float y, float t) {
  float v = x / 3.0f + y / 7.0f;
  v = v * 1.1f - t / 9.0f;
  v = v * v + 0.1f;
  return (uint8_t)(int)(v * 10.0f);
}`,
    "f(x, y, t)",
  ),
  pixel(
    "double is float on AVR",
    `uint8_t f(uint8_t x, uint8_t y, uint8_t t) {
  double v = 0.1 * x + 0.7 * y;
  double w = v / 3.0 * 9.0;
  return (uint8_t)(w * 10.0) + (sizeof(v) == 4 ? 100 : 0) + t;
}`,
    "f(x, y, t)",
  ),
  pixel(
    "floats and integers mixed",
    `uint8_t f(uint8_t x, uint8_t y, uint8_t t) {
  int32_t big = 16777217L + x;
  float v = big;
  v += y * 0.5f;
  uint32_t w = (uint32_t)v;
  return w + (int)(x * -0.75f) + (v > big) + t;
}`,
    "f(x, y, t)",
  ),
  pixel(
    "floor, ceil, fmod and fabs",
    `uint8_t f(uint8_t x, uint8_t y, uint8_t t) {
  float v = (x - 4) * 0.7f;
  return (uint8_t)(floorf(v) + 10) + (uint8_t)(ceilf(v) + 10) * 3 + (uint8_t)(fmodf(y * 1.3f + t, 2.0f) * 8.0f) + (uint8_t)fabsf(v);
}`,
    "f(x, y, t)",
  ),
  pixel(
    "lerp",
    `uint8_t f(uint8_t x, uint8_t y, uint8_t t) { return (uint8_t)lerp(x * 4.0f, y * 6.0f, t / 8.0f); }`,
    "f(x, y, t)",
  ),
  pixel(
    "a wave of sines",
    `uint8_t f(uint8_t x, uint8_t y, uint8_t t) { return (uint8_t)(32.5f + 31.0f * sinf(x * 0.6f + t * 0.4f) * cosf(y * 0.5f)); }`,
    "f(x, y, t)",
    8,
  ),
  pixel(
    "sines of double",
    `uint8_t f(uint8_t x, uint8_t y, uint8_t t) { return (uint8_t)(sin(x * 0.3 + t) * 100.0 + 110.0) ^ y; }`,
    "f(x, y, t)",
  ),
  pixel(
    "casts of all kinds",
    `uint8_t f(uint8_t x, uint8_t y, uint8_t t) {
  int v = 1000 * (x - 4);
  return (int8_t)v ^ static_cast<uint8_t>(v >> 4) ^ uint8_t(y * 40) ^ (unsigned char)-t ^ (bool)x;
}`,
    "f(x, y, t)",
  ),
  pixel(
    "characters and text",
    `const char words[] = "water!";
uint8_t f(uint8_t x, uint8_t y, uint8_t t) {
  const char *p = words;
  uint8_t n = 0;
  while (*p && n < x) p++, n++;
  return *p ? *p - 'a' + y + t : '\\x10';
}`,
    "f(x, y, t)",
  ),
  pixel(
    "sizeof",
    `struct Drop { uint8_t x; int16_t y; uint8_t tone; };
const uint16_t table[7] = { 1, 2, 3, 4, 5, 6, 7 };
uint8_t f(uint8_t x, uint8_t y, uint8_t t) {
  return sizeof(struct Drop) * 10 + sizeof table / sizeof table[0] + sizeof(int) + sizeof(x + y) + sizeof 'a' + t + sizeof(char *);
}`,
    "f(x, y, t)",
  ),
  pixel(
    "powers and logarithms",
    `uint8_t f(uint8_t x, uint8_t y, uint8_t t) {
  return (uint8_t)(powf(x + 1.0f, 0.7f) * 10.0f) + (uint8_t)(expf(-0.3f * y) * 50.0f) + (uint8_t)(logf(x + y + 2.0f) * 9.0f) + (uint8_t)(log10f(t + 3.0f) * 7.0f) + (uint8_t)(cbrtf(x * y + 1.5f) * 3.0f);
}`,
    "f(x, y, t)",
  ),
  pixel(
    "angles",
    `uint8_t f(uint8_t x, uint8_t y, uint8_t t) {
  float a = atan2f(y - 4.1f, x - 3.9f);
  return (uint8_t)((a + 3.2f) * 20.0f) ^ (uint8_t)(hypotf(x - 4.0f, y - 4.0f) * 10.0f) ^ (uint8_t)((asinf((x - 4) / 5.0f) + acosf((y - 4) / 5.0f)) * 9.0f + 40.0f) ^ (uint8_t)(tanf(t * 0.3f - 0.5f) * 5.0f + 60.0f);
}`,
    "f(x, y, t)",
  ),
  pixel(
    "the nearest, the least and the greatest",
    `uint8_t f(uint8_t x, uint8_t y, uint8_t t) {
  float v = (x - 4) * 0.5f + t * 0.25f;
  return (uint8_t)(lround(v) + 20) * 3 + (uint8_t)(truncf(v) + 9) + (uint8_t)fminf(v + 9, y) + (uint8_t)fmaxf(v, y) + (uint8_t)(round(v * 2) + 30) + (uint8_t)(fmod(y, 3.5f) * 4);
}`,
    "f(x, y, t)",
  ),
  pixel(
    "wide words and floats of flash",
    `const uint32_t words[3] PROGMEM = { 0x01020304, 0xfffefdfc, 70000 };
const float shares[4] PROGMEM = { 0.5f, 0.25f, 1.5f, -2 };
uint8_t f(uint8_t x, uint8_t y, uint8_t t) { return (pgm_read_dword(&words[x % 3]) >> (y + t)) + (uint8_t)(pgm_read_float(shares + (x + y) % 4) * 16 + 40); }`,
    "f(x, y, t)",
  ),
  pixel(
    "tables of structs in flash are copied",
    `struct Tone { uint8_t level; int16_t by; };
const Tone tones[3] PROGMEM = { { 3, -2 }, { 15, 300 }, { 42, 7 } };
uint8_t f(uint8_t x, uint8_t y, uint8_t t) { Tone one; memcpy_P(&one, &tones[(x + y + t) % 3], sizeof one); return one.level + one.by * x; }`,
    "f(x, y, t)",
  ),
  fill(
    "memory is moved",
    `uint8_t buf[81];
void f(uint8_t t) { memmove(buf + 9, buf, 72); for (uint8_t x = 0; x < 9; x++) buf[x] = (x * 7 + t * 5) % 64; memmove(buf + 40, buf + 41, 20); }`,
    "f(t)",
    9,
  ),
  fill(
    "globals are kept",
    `uint8_t buf[81];
static uint16_t seed = 1;
void f() { for (uint8_t i = 0; i < 81; i++) { seed = seed * 25173 + 13849; if ((seed >> 8) < 40) buf[i] = 64; else if (buf[i] > 5) buf[i] -= 5; else buf[i] = 0; } }`,
    "f()",
    12,
  ),
  fill(
    "static inside of a function",
    `uint8_t buf[81];
void f() { static uint8_t at = 3; static int8_t by = 2; buf[at] = 64; at += by; if (at > 74 || at < 5) by = -by; for (uint8_t i = 0; i < 81; i++) buf[i] -= buf[i] >> 2; }`,
    "f()",
    20,
  ),
  fill(
    "pointers walk",
    `uint8_t buf[81];
${SEEDLING}void f(uint8_t t) { const uint8_t *from = seedling; uint8_t *to = buf; uint8_t n = 81; while (n--) *to++ = pgm_read_byte(from++) * (t + 1) / 4; uint8_t *end = buf + 81; --end; *end = end - buf; to = &buf[9]; to[2] ^= 0x11; *(to + 3) += 4; }`,
    "f(t)",
  ),
  fill(
    "helpers take pointers",
    `uint8_t buf[81];
void fade(uint8_t *p, uint8_t n, uint8_t by) { for (uint8_t i = 0; i < n; i++) p[i] = p[i] > by ? p[i] - by : 0; }
void spot(uint8_t a[], int8_t x, int8_t y, uint8_t v) { if (x < 0 || y < 0 || x > 8 || y > 8) return; a[y * 9 + x] = v; }
void f(uint8_t t) { fade(buf, sizeof buf, 9); for (int8_t k = -1; k <= 1; k++) spot(buf, t + k, t * 2 % 9 - k, 64 - 20 * k * k); }`,
    "f(t)",
    10,
  ),
  fill(
    "structs",
    `uint8_t buf[81];
struct Drop { int16_t x, y; int8_t dx, dy; uint8_t tone; };
Drop drops[3] = { { 0, 0, 11, 7, 64 }, { 512, 256, -9, 5, 42 }, { 1024, 1700, 6, -13, 15 } };
void step(Drop *d) { d->x += d->dx * 8; d->y += d->dy * 8; if (d->x < 0 || d->x > 2047) { d->dx = -d->dx; d->x += 2 * d->dx; } if (d->y < 0 || d->y > 2047) { d->dy = -d->dy; d->y += 2 * d->dy; } }
void f() { memset(buf, 0, sizeof(buf)); for (uint8_t i = 0; i < 3; i++) { step(&drops[i]); Drop d = drops[i]; if (d.x >= 0 && d.y >= 0) buf[(d.y >> 8) * 9 + (d.x >> 8)] = d.tone; } }`,
    "f()",
    16,
  ),
  fill(
    "references",
    `uint8_t buf[81];
void swap(uint8_t &a, uint8_t &b) { uint8_t c = a; a = b; b = c; }
void f(uint8_t t) { for (uint8_t i = 0; i < 81; i++) buf[i] = i * 3; for (uint8_t i = 0; i < 40; i++) swap(buf[i], buf[80 - (i + t) % 41]); uint8_t &middle = buf[40]; middle = 64; middle += t; }`,
    "f(t)",
  ),
  fill(
    "rows of two dimensions",
    `uint8_t buf[9][9];
void f(uint8_t t) { for (uint8_t y = 0; y < 9; y++) { uint8_t *row = buf[y]; for (uint8_t x = 0; x < 9; x++) row[x] = x > y ? buf[x % 9][y] + t : x * y; } uint8_t (*p)[9] = buf + 3; (*p)[2] = 77; p[1][1] = 78; }`,
    "f(t)",
  ),
  fill(
    "a game of neighbours",
    `uint8_t buf[81] = { 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 1, 1, 0, 1, 0, 0, 0, 0, 1, 1, 0, 0, 1, 1, 1 };
uint8_t next[81];
uint8_t alive(int8_t x, int8_t y) { return buf[(y + 9) % 9 * 9 + (x + 9) % 9] ? 1 : 0; }
void f() { for (int8_t y = 0; y < 9; y++) for (int8_t x = 0; x < 9; x++) { uint8_t n = 0; for (int8_t j = -1; j <= 1; j++) for (int8_t i = -1; i <= 1; i++) if (i || j) n += alive(x + i, y + j); next[y * 9 + x] = n == 3 || (n == 2 && alive(x, y)) ? 64 : 0; } memcpy(buf, next, sizeof buf); }`,
    "f()",
    10,
  ),
  fill(
    "time in milliseconds",
    `uint8_t buf[81];
unsigned long last = 0;
uint8_t at = 0;
void f() { if (millis() - last >= 80) { last = millis(); at++; } for (uint8_t i = 0; i < 81; i++) buf[i] = (i + at) % 9 == 0 ? 64 : (uint8_t)(millis() / 50); }`,
    "f()",
    12,
  ),
  fill(
    "heat that rises",
    `uint8_t buf[81];
static uint32_t state = 12345;
uint8_t noise() { state = state * 1664525UL + 1013904223UL; return state >> 24; }
void f() { for (uint8_t x = 0; x < 9; x++) buf[72 + x] = 20 + noise() / 6; for (uint8_t y = 0; y < 8; y++) for (uint8_t x = 0; x < 9; x++) { uint16_t sum = buf[(y + 1) * 9 + x] * 2 + buf[(y + 1) * 9 + (x ? x - 1 : 8)] + buf[(y + 1) * 9 + (x + 1) % 9]; sum = sum / 4; buf[y * 9 + x] = sum > 3 ? sum - 3 : 0; } }`,
    "f()",
    12,
  ),
  fill(
    "bits of a mono panel",
    `uint8_t buf[32];
void set(uint8_t x, uint8_t y, bool on) { uint8_t bit = 1 << (y & 7); if (on) buf[(y >> 3) * 16 + x] |= bit; else buf[(y >> 3) * 16 + x] &= ~bit; }
void f(uint8_t t) { for (uint8_t x = 0; x < 16; x++) for (uint8_t y = 0; y < 16; y++) set(x, y, ((x ^ y) + t) % 5 < 2); }`,
    "f(t)",
    4,
    { panel: "16x16 mono1 pack=pages" },
  ),
  fill(
    "colours of 16 bits",
    `uint16_t buf[49];
uint16_t mix(uint8_t r, uint8_t g, uint8_t b) { return (uint16_t)(r & 0xf8) << 8 | (uint16_t)(g & 0xfc) << 3 | b >> 3; }
void f(uint8_t t) { for (int i = 0; i < 49; i++) buf[i] = mix(i * 5, 255 - i * 4, t * 16 + i); }`,
    "f(t)",
    4,
    { panel: "7x7 rgb565" },
  ),
  fill(
    "a buffer handed over",
    `uint8_t buf[81];
void draw(uint8_t *out, uint16_t frame) { for (uint8_t i = 0; i < 81; i++) out[i] = (i * frame) & 63; }`,
    "draw(buf, t)",
    4,
  ),
  fill(
    "masks that open",
    `uint8_t buf[81];
${SEEDLING}${SMOOTH}uint8_t maskAt(int8_t x, int8_t y) { float dx = x - 4, dy = y - 4; return (uint8_t)roundf(255.0f * (1.0f - sqrtf(dx * dx + dy * dy) / 5.656854f)); }
void f(uint8_t t) { int p = 300 - t * 30; for (uint8_t i = 0; i < 81; i++) { float inside = smoothstep(p - 90, p - 8, maskAt(i % 9, i / 9)); buf[i] = (uint8_t)roundf(pgm_read_byte(seedling + i) * inside); } }`,
    "f(t)",
    10,
  ),
];
