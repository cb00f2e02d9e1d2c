// Cells for the LED column, drawn beside the numbers
const uint8_t drip[] = {
  0x00, // ........
  0x00, // ........
  0x18, // ...##...
  0x18, // ...##...
  0x18, // ...##...
  0x3C, // ..####..
  0x3C, // ..####..
  0x3C, // ..####..
  0x3C, // ..####..
  0x3C, // ..####..
  0x18, // ...##...
  0x00, // ........
};

const uint8_t sprout[] = {
  0x00, 0x00, /* ------------ */
  0x78, 0x00, /* -XXXX------- */
  0x7E, 0x00, /* -XXXXXX----- */
  0x7F, 0x00, /* -XXXXXXX---- */
  0x3E, 0x80, /* --XXXXX-X--- */
  0x3D, 0xC0, /* --XXXX-XXX-- */
  0x1B, 0xC0, /* ---XX-XXXX-- */
  0x17, 0xE0, /* ---X-XXXXXX- */
  0x0F, 0xE0, /* ----XXXXXXX- */
  0x03, 0xE0, /* ------XXXXX- */
  0x41, 0xE0, /* -X-----XXXX- */
  0x80, 0x00, /* X----------- */
};

const uint8_t mirror_leaf[] = {
  0x00, /*          */
  0x0E, /*  @@@     */
  0x1E, /*  @@@@    */
  0x1E, /*  @@@@    */
  0x6E, /*  @@@ @@  */
  0x74, /*   @ @@@  */
  0x78, /*    @@@@  */
  0x78, /*    @@@@  */
  0xF2, /*  @  @@@@ */
  0x01, /* @        */
};

const uint8_t spark[] = {
  0b00010000,
  0b01010100,
  0b00111000,
  0b11111110,
  0b00111000,
  0b01010100,
  0b00010000,
  0b00000000,
};

const unsigned char cell_heart[7] = { // heart in a 5-dot cell
  0b01010,
  0b11111,
  0b11111,
  0b11111,
  0b01110,
  0b00100,
  0b00000,
};

// What each line of the port does
const uint8_t port_bits[8] = {
  0b00000001, // pump
  0b00000010, // fan
  0b00000100, // lamp
  0b00001000, // bell
  0b00010000, // heater
  0b00100000, // door
  0b01000000, // valve
  0b10000000, // spare
};
const uint8_t stepper[8] = {
  0b1000,
  0b1100,
  0b0100,
  0b0110,
  0b0010,
  0b0011,
  0b0001,
  0b1001,
};
