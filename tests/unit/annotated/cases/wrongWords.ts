/**
 * Wrong annotations. The wrong piece of the source stands in ‹ ›: the finding must cover it and stay within the word
 * it belongs to. The fix, where one is expected, puts its text in place of that piece and changes nothing else.
 */
export type WrongWord = [marked: string, says: RegExp, fix?: string];

const bytes = "const uint8_t vent[8] = { 1, 2 };";
const above = (annotation: string, declaration = bytes) => `// ${annotation}\n${declaration}`;
const panel = "// @panel lantern 9x9 gray8\n";
const lanternArt = "const uint8_t drop[81] = { 1, 2 };";

/** Words that are near a right one. */
const misspelt: WrongWord[] = [
  [above("@bitmap 8x8 ‹mono›"), /mono/, "mono1"],
  [above("@bitmap 8x8 ‹mon1›"), /mon1/, "mono1"],
  [above("@bitmap 8x8 ‹monol› pack=pages"), /monol/, "mono1"],
  [above("@bitmap 4x2 ‹grey8›"), /grey8/, "gray8"],
  [above("@bitmap 8x8 mono1 ‹invrt›"), /invrt/, "invert"],
  [above("@bitmap 8x8 mono1 pack=‹pagse›"), /pagse/, "pages"],
  [above("@bitmap 8x8 mono1 pack=‹page›"), /page/, "pages"],
  [above("@bitmap 8x8 mono1 pack=‹row›"), /row/, "rows"],
  [above("@bitmap 8x8 mono1 ‹spair›=last"), /spair/, "spare"],
  [above("@bitmap 8x8 mono1 spare=‹lest›"), /lest/, "last"],
  [above("@bitmap 8x8 mono1 bits=‹lbs›"), /lbs/, "lsb"],
  [above("@bitmap 8x8 mono1 ‹bit›=lsb"), /bit/, "bits"],
  [above("@bitmap 8x8 mono1 pad=‹elment›"), /elment/, "element"],
  [above("@bitmap 8x4 mono1 ‹frame›=2"), /frame/, "frames"],
  [above("@bitmap 4x2 gray8 from=‹topleft›"), /topleft/, "top-left"],
  [above("@bitmap 4x2 gray8 from=‹bottom-rigth›"), /bottom-rigth/, "bottom-right"],
  [above("@bitmap 4x2 gray8 scan=‹serpentin›"), /serpentin/, "serpentine"],
  [above("@bitmap 4x2 gray8 scan=‹serpentine-column›"), /serpentine-column/, "serpentine-columns"],
  [`/*\n * The vent.\n * @bitmap 8x8 mono1\n *   pack=‹pagse›\n */\n${bytes}`, /pagse/, "pages"],
  [`/* \u{1F331} */ // @bitmap 8x8 mono1 pack=‹pagse›\r\n${bytes}`, /pagse/, "pages"],
  [above("‹@Bitmap› 8x8 mono1"), /@Bitmap/, "@bitmap"],
  [above("‹@bitmaps› 8x8 mono1 whatever"), /@bitmaps/, "@bitmap"],
  [above("‹@bitmpa› 8x8"), /@bitmpa/, "@bitmap"],
  [above("‹@bitmap2› pack=columns"), /@bitmap2/, "@bitmap"],
  [`// ‹@pannel› lantern 9x9 gray8\n${bytes}`, /@pannel/, "@panel"],
  [`// @panel lantern 9x9 gray8\n// ‹@bitmp› lantern\n${lanternArt}`, /@bitmp/, "@bitmap"],
  [`const uint8_t drop[] = {\n  // ‹@bitmep› 1x1 gray8\n  1 };`, /@bitmep/, "@bitmap"],
  [`// @panel lantern 9x9 ‹grey8›\n// @bitmap lantern\n${lanternArt}`, /grey8/, "gray8"],
];

/** Words that are near none, said twice, or bare where a value belongs. */
const unknown: WrongWord[] = [
  [above("@bitmap 8x8 mono1 ‹weather›=sunny"), /weather/],
  [above("@bitmap 8x8 mono1 pack=‹zigzag›"), /zigzag/],
  [above("@bitmap 8x8 mono1 ‹invert=1›"), /invert/],
  [above("@bitmap 8x8 mono1 pack=rows ‹pack=columns›"), /pack/],
  [above("@bitmap 8x8 mono1 bits=msb ‹bits=msb›"), /bits/],
  [above("@bitmap 8x8 mono1 invert ‹invert›"), /invert/],
  [above("@bitmap 8x8 mono1 ‹gray8›"), /gray8|format/],
  [above("@bitmap 8x8 ‹4x2› mono1"), /4x2|size/i],
  [above("@bitmap 8x8 mono1 ‹pack›"), /pack/],
  [above("@bitmap 8x8 mono1 ‹frames›"), /frames/],
  [above("@bitmap 8x8 mono1 ‹pack=›"), /pack/],
  [above("@bitmap 4x2 gray8 ‹cap=›"), /cap/],
];

const numbers: WrongWord[] = [
  [above("@bitmap 8x8 mono1 frames=‹0›"), /frames/],
  [above("@bitmap 8x8 mono1 frames=‹x›"), /frames/],
  [above("@bitmap 8x8 mono1 frames=‹1.5›"), /frames/],
  [above("@bitmap 8x8 mono1 frames=‹99999999999999999999›"), /frames/],
  [above("@bitmap 8x7 mono1 skip=‹-1›"), /skip/],
  [above("@bitmap 8x7 mono1 lead=‹two›"), /lead/],
  [above("@bitmap 4x2 gray8 cap=‹300›"), /300|255/],
  [above("@bitmap 4x2 gray8 cap=‹-1›"), /cap/],
  [above("@bitmap 4x2 gray8 cap=‹120%›"), /120|cap/],
  [above("@bitmap 4x2 gray8 cap=25 ‹%›"), /%/],
  [above("@bitmap 4x2 gray8 cap=‹bright›"), /cap/],
  [above("@bitmap 8x8 mono1 cap=‹2›"), /cap|1/],
  [above("@bitmap 4x2 gray8 drive=‹250%›"), /drive/],
  [above("@bitmap 8x1 mono1 frames=8 first=‹'AB'›"), /first|AB/],
  [above("@bitmap 8x1 mono1 frames=8 first=‹''›"), /first/],
  [above("@bitmap 8x1 mono1 frames=8 first=‹U+12ZZ›"), /first|12ZZ/],
  [above("@bitmap 8x1 mono1 frames=8 first=‹U+110000›"), /first|110000/],
];

const sizes: WrongWord[] = [
  [above("@bitmap ‹0x0› mono1"), /0x0|size|0×0/i],
  [above("@bitmap ‹8x0› mono1"), /8x0|size|8×0/i],
  [above("@bitmap ‹1000000x1000000› mono1"), /1000000|size|large|big|many/i],
  [above("‹@bitmap› mono1"), /size|panel/i],
  [above("‹@bitmap›"), /size|panel/i],
  [`// @panel ‹lantern› gray8\n// @bitmap 9x9\n${lanternArt}`, /size/i],
];

/** Options that do not go together. */
const together: WrongWord[] = [
  [above("@bitmap 4x2 gray8 pack=‹pages›"), /pages/],
  [above("@bitmap 4x2 gray8 pack=‹columns›"), /columns/],
  [above("@bitmap 4x2 pack=‹pages›"), /pages/],
  [above("@bitmap 8x8 mono1 scan=‹serpentine›"), /scan/],
  [above("@bitmap 8x8 mono1 scan=‹columns›"), /scan/],
  [above("@bitmap 8x8 mono1 pack=pages scan=‹serpentine›"), /scan/],
];

const names: WrongWord[] = [
  ["// @panel ‹gray8› 9x9", /gray8/],
  ["// @panel ‹mono1› 9x9 mono1", /mono1/],
  ["// @panel ‹invert› 9x9", /invert/],
  ["// ‹@panel›", /name/i],
  [`${panel}// @panel ‹lantern› 5x7 gray8\n// @bitmap lantern\n${lanternArt}`, /lantern/],
];

const unbound: WrongWord[] = [
  ["// ‹@bitmap› 8x8 mono1", /bitmap/],
  ["int x = 3;\n// ‹@bitmap› 8x8 mono1\n", /bitmap/],
  [`${bytes}\n/* ‹@bitmap› 8x8 mono1 */`, /bitmap/],
  ["// ‹@bitmap› 8x1 mono1\nextern const uint8_t vent[1];\nconst uint8_t vent[1] = { 1 };", /bitmap/],
  ["// ‹@bitmap› 8x1 mono1\nconst int height = 8;\nconst uint8_t vent[1] = { 1 };", /bitmap/],
  ["// ‹@bitmap› 8x1 mono1\nvoid draw() {\n  static const uint8_t vent[1] = { 1 };\n  show(vent);\n}", /bitmap/],
  ["// ‹@bitmap› 8x1 mono1\nstruct Vent { uint8_t bits[1]; };\nconst uint8_t vent[1] = { 1 };", /bitmap/],
  [
    "const uint8_t a[2][1] = {\n  { 1 }, { 2 } };\n// ‹@bitmap› 8x1 mono1\nvoid draw();\nconst uint8_t b[] = { 1 };",
    /bitmap/,
  ],
];

export const wrongWords: Record<string, WrongWord[]> = {
  "misspelt words": misspelt,
  "unknown, repeated and bare words": unknown,
  numbers,
  sizes,
  "options that do not go together": together,
  "names of panels": names,
  "annotations that bind to nothing": unbound,
};

/** Panels that are not known, with the nearest name where one is near. */
export const unknownPanels: WrongWord[] = [
  [`${panel}// @bitmap ‹lanern›\n${lanternArt}`, /lanern/, "lantern"],
  [`${panel}// @bitmap ‹lanterns› 9x9\n${lanternArt}`, /lanterns/, "lantern"],
  [`// @panel status 8x8 mono1\n${panel}// @bitmap ‹statuss›\n${bytes}`, /statuss/, "status"],
  [`${panel}// @bitmap ‹greenhouse›\n${lanternArt}`, /greenhouse/],
  [`// @bitmap ‹lantern›\n${lanternArt}`, /lantern/],
];

/** Half-typed annotations: each ‹ › is a place where a finding may stand; there is one at least. */
export const halfTyped: string[] = [
  above("‹@bitmap›"),
  above("‹@bitmap› ‹9x›"),
  above("‹@bitmap› ‹9›"),
  above("‹@bitmap› ‹pack=›"),
  above("‹@bitmap› ‹=›"),
  above("@bitmap 8x8 mono1 ‹=rows›"),
  above("@bitmap 8x1 mono1 frames=8 ‹first='›"),
  above('@bitmap 8x1 mono1 frames=8 ‹chars="01›'),
  above("@bitmap 8x8 mono1 ‹-›"),
  "// ‹@panel›",
  "// ‹@panel› ‹lan›",
  "// ‹@panel› ‹lantern› ‹9x›",
  "/* ‹@bitmap› 8x8 mono1",
  "// ‹@bitmap› 8x8 mono1\nconst uint8_t vent[] =",
];

/** Texts that hold no annotation. */
export const leftAlone: string[] = [
  above("@bitmaps of the vent, all of them whatever"),
  above("@bitmap_size 8x8"),
  above("@Bitmap of the vent"),
  above("@param 8x8 mono1"),
  above("@page 8x8 mono1"),
  above("@panels lantern"),
  `/// @brief The vent, 8x8 mono1 pack=pagse\n/// @param nothing\n${bytes}`,
  `/**\n * @file vent.h\n * @see drop\n */\n${bytes}`,
  above("a@bitmap 8x8 mono1 pack=pagse"),
  above("mail to grower@bitmap 8x8"),
  above("see @bitmap 8x8 mono1 pack=pagse for how"),
  above("-- @bitmap 8x8 mono1 pack=pagse"),
  `/* the vent; @bitmap pack=pagse */\n${bytes}`,
  'const char *help = "// @bitmap 8x8 mono1 pack=pagse";',
  'const char *help = R"(\n// @bitmap 8x8 mono1 pack=pagse\n)";',
  `@bitmap 8x8 mono1\n${bytes}`,
];
