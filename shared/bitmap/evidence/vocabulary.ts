/** What names and comments say of an array in words: that it is a picture, or that it is something else. */

const set = (words: string) => new Set(words.split(/\s+/));

/** Nouns for pictures and sets of pictures. */
const PICTURES = set(`
  icon icons ico bitmap bitmaps bmp logo logos sprite sprites glyph glyphs font fonts image images img imgs pic pics
  picture pictures pixel pixels pixmap splash frame frames anim animation animations tile tiles cursor emoji emojis
  face faces arrow arrows digit digits numeral numerals letters charset art drawing drawings xbm symbol symbols banner
  background avatar badge mask masks gfx bits`);

/** Motifs that small pictures show; only as a name's own word. */
const MOTIFS = set(`
  heart hearts smiley smile cloud clouds sun moon star stars thermometer drop droplet leaf snowflake house bell lock
  unlock antenna bluetooth wifi fan flame umbrella tree flower cat dog fish bird skull ghost robot rocket checkmark
  tick cross warning lightning raindrop bulb lamp lantern plug mug cup pot kettle`);

/** Nouns for tables that are no pictures. */
const TABLES = set(`
  init initcode initialization initialisation setup startup cmd cmds command commands config cfg conf seq sequence
  sequences reg regs register registers tune tunes melody melodies song songs note notes duration durations tone tones
  beats rhythm tempo jingle chime freq freqs frequency frequencies sine sin cos cosine tan wave waves waveform
  waveforms wavetable lut luts table tbl gamma curve curves ramp ease easing pin pins pinmap pinout gpio port ports map
  maps remap order ordering index indexes indices idx offset offsets offs width widths height heights len lens length
  lengths size sizes count counts kern kerns kerning kernel kernels filter filters fir iir tap taps coef coefs coeff
  coeffs coefficients weight weights window windows crc crc8 crc16 crc32 checksum hash sbox key keys keymap keymaps
  keypad keyboard keycode keycodes scancode scancodes hid report descriptor descriptors mac uuid addr address addresses
  packet packets payload eeprom cal calib calibration trim trims bayer dither threshold thresholds quant quantisation
  quantization zigzag dct huff huffman rle lz4 lzss lz zip gz gzip zlib packed compressed deflate png jpg jpeg gif
  webp wav pcm sample samples audio sound sounds delay delays time times timing timings period periods schedule steps
  path paths point points coord coords coordinate coordinates position positions pos palette palettes pal clut color
  colors colour colours wiring mapping lookup rand random noise seed seeds prime primes pow log exp sqrt atan temp temps
  temperature temperatures ntc adc dac volt volts voltage baud prescaler prescalers seg segs segment segments sevenseg
  morse days months envelope adsr velocity velocities scale scales chord chords arp brightness level levels duty angles
  servo speeds speed mult divisors perm permutation shuffle rom firmware blob cert certificate secret token nonce iv
  salt signature digest route routes rules states transitions parity popcount reverse rev bitrev advance advances
  advances bearing bearings pairs ranges limits inventory moves piece pieces board boards labels strings menu`);

const DATA = set("data bits bmp map raw buf buffer array arr p pgm progmem flash rom const v b lsb msb px x y");

/** The words of a C name, in lower case: `sunIcon_16x16` gives sun, icon, 16x16. */
export function wordsOfName(name: string): string[] {
  return name
    .replace(/\[\d+\]|\./g, "_")
    .replace(/([a-z])([A-Z])/g, "$1_$2")
    .replace(/([A-Z])([A-Z][a-z])/g, "$1_$2")
    .replace(/([A-Za-z])(\d+[xX]\d+)/g, "$1_$2")
    .toLowerCase()
    .split(/_+/)
    .filter((word) => word !== "");
}

export type Sort = "picture" | "motif" | "table" | "unknown";

/** What a name says: the last word that says anything decides, since English puts the thing named last. */
export function sortOfName(name: string): Sort {
  const words = wordsOfName(name);
  const joined = words.map((word, i) =>
    word === "map" && /^(?:bit|pix|pixel)$/.test(words[i - 1] ?? "") ? "pixmap" : word,
  );
  let table = false;
  let motif = false;
  let picture = false;
  let last = "unknown" as Sort;
  joined.forEach((raw, i) => {
    const word = raw.replace(/(?<=[a-z])\d+$/, "");
    if (/^\d/.test(word)) return;
    // `bits` and the like only say that there are data; alone they are no word for a picture.
    if (DATA.has(word) && i > 0 && word !== "map") {
      picture ||= word === "bmp";
      return;
    }
    if (TABLES.has(word) || TABLES.has(raw)) {
      table = true;
      last = "table";
    } else if (PICTURES.has(word)) {
      picture = true;
      last = "picture";
    } else if (MOTIFS.has(word)) {
      motif = true;
      if (last !== "table") last = "motif";
    }
  });
  if (last === "table") return "table";
  if (picture) return "picture";
  if (table) return "table";
  return motif ? "motif" : "unknown";
}

const PICTURE_TEXT =
  /\b(?:icons?|bitmaps?|logos?|sprites?|glyphs?|fonts?|images?|pictures?|pixels?|px|splash|animations?|drawings?|artwork|art|frames?|xbm|emoji|smiley|numerals?|pixel art)\b/i;
const TABLE_TEXT =
  /\b(?:commands?|init|initiali[sz]\w*|start-?up|power-?(?:up|on)|sequences?|registers?|lookup|look-up|gamma|sine|cosine|melod(?:y|ies)|tunes?|notes?|song|keymap|keypad|keys?|pins?|gpio|crc|checksum|coefficients?|filters?|kernels?|taps|thresholds?|dither\w*|kerning|advance|offsets?|ind(?:ex(?:es)?|ices)|palette|calibration|quanti[sz]\w*|permutation|mapping|maps? |wiring|order|waveform|envelope|duration|frequenc(?:y|ies)|delays?|timings?|table of|weights|matrix multiplication|rotation|touch|servo|scan ?codes?|seven-?segment|7-?segment|morse|descriptor|positions?|coordinates?|moves?|parity|s-?box|primes?|samples?|pcm|audio|lengths?|widths of|colou?rs? of)\b/i;
const PACKED_TEXT =
  /\b(?:rle|run[- ]?lengths?(?:[- ]?encoded)?|lz4|lzss|heatshrink|deflated?|zlib|gzip|huffman|compressed|packbits)\b/i;
const PLAIN_TEXT = /\b(?:uncompressed|not compressed|no compression|without compression|not run[- ]?length)\b/i;

export function speaksOfPictures(text: string): boolean {
  return PICTURE_TEXT.test(text);
}

export function speaksOfTables(text: string): boolean {
  return TABLE_TEXT.test(text);
}

export function speaksOfCompression(text: string): boolean {
  return PACKED_TEXT.test(text) && !PLAIN_TEXT.test(text);
}

/** Words of a function or type that handles pictures. */
export function handlesPictures(words: string): boolean {
  return wordsOfName(words.replace(/\W+/g, "_")).some(
    (word) =>
      /^(?:draw|blit|show|render|paint|splash|display|put|plot|stamp|screen|gfx)$/.test(word) ||
      (PICTURES.has(word) && word !== "bits") ||
      /(?:bitmap|image|icon|sprite|glyph|font|xbm|picture)/.test(word),
  );
}

export function isFontWord(word: string): boolean {
  return /^(?:fonts?|glyphs?|charset|ascii|letters|chars|characters|alphabet|typeface)$/.test(word);
}
