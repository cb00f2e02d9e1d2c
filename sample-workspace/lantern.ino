/*
 * Greenhouse status lantern: a warm 9x9 panel that can be read from across the garden,
 * and a small status display for whoever stands at the door.
 */
#include "board.h"
#include "font5x7.h"
#include "lantern_art.h"
#include "status_screen.h"

const uint8_t MOISTURE_PIN = 0;
const uint8_t AIR_PIN = 1;
const uint16_t FRAME_MS = 83; /* 12 frames a second, as the drip is annotated */
const uint16_t PAGE_MS = 3000;

/* Plain numbers, not a picture: soil readings from parched to soaked. */
const uint16_t soil_steps[] = { 220, 300, 410, 530, 660 };

uint8_t lantern_frame[81];
uint8_t status_frame[512];

void show_icon(const uint8_t *icon) {
  for (uint8_t i = 0; i < 81; i++) lantern_frame[i] = pgm_read_byte(icon + i);
  bus_send(SELECT_LANTERN, lantern_frame, 81);
}

void show_numeral(uint8_t digit) {
  for (uint8_t i = 0; i < 81; i++) lantern_frame[i] = 0;
  for (uint8_t y = 0; y < 7; y++)
    for (uint8_t x = 0; x < 5; x++)
      lantern_frame[(y + 1) * 9 + x + 2] = pgm_read_byte(numerals + digit * 35 + y * 5 + x);
  bus_send(SELECT_LANTERN, lantern_frame, 81);
}

/* Writes text into one page, starting at column x; the page's lowest row stays as drawn. */
void print_status(const char *text, uint8_t page, uint8_t x) {
  for (; *text && x <= 122; text++, x += 6)
    for (uint8_t column = 0; column < 5; column++) {
      uint8_t &eight = status_frame[page * 128 + x + column];
      eight = (eight & 0x80) | pgm_read_byte(font5x7 + (*text - ' ') * 5 + column);
    }
}

void show_status(bool thirsty) {
  for (uint16_t i = 0; i < 512; i++) status_frame[i] = pgm_read_byte(status_screen + i);
  if (thirsty) print_status("water! ", 3, 17);
  bus_send(SELECT_STATUS, status_frame, 512);
}

void setup() {
  bus_begin();
  show_status(false);
}

void loop() {
  const int soil = analogRead(MOISTURE_PIN);
  const bool thirsty = soil < (int)soil_steps[1];
  const uint8_t degrees = (uint8_t)(analogRead(AIR_PIN) / 20);
  const uint16_t page = (uint16_t)(millis() / PAGE_MS % 4);

  if (thirsty) show_icon(drip[millis() / FRAME_MS % 16]);
  else if (soil > (int)soil_steps[4]) show_icon(drop_reveal + 81 * pgm_read_byte(drop_reveal_order + millis() / FRAME_MS % 30));
  else if (degrees < 3) show_icon(frost_icon);
  else if (page == 0) show_icon(thermometer_icon);
  else if (page == 1) show_numeral(degrees / 10 % 10);
  else if (page == 2) show_numeral(degrees % 10);
  else show_icon(GLOW < 20 ? moon_icon : leaf_icon);

  show_status(thirsty);
}
