/*
 * What the board gives the sketch: flash access, timing, and the bus both displays hang on.
 * On a PC (for tests) the flash macros fall away and the bus writes go nowhere.
 */
#pragma once
#include <stdint.h>

#ifdef __AVR__
#include <avr/io.h>
#include <avr/pgmspace.h>
#else
#define PROGMEM
#define pgm_read_byte(address) (*(const uint8_t *)(address))
#endif

/* The night build, chosen on the command line, glows less. */
#ifdef GREENHOUSE_NIGHT
#define GLOW 15
#else
#define GLOW 42
#endif

/* Supplied by the board's core library. */
extern "C" unsigned long millis(void);
extern "C" int analogRead(uint8_t pin);

/* Select lines on port B. */
const uint8_t SELECT_LANTERN = 1 << 1;
const uint8_t SELECT_STATUS = 1 << 2;

inline void bus_begin() {
#ifdef __AVR__
  DDRB |= SELECT_LANTERN | SELECT_STATUS | (1 << 3) | (1 << 5);
  PORTB |= SELECT_LANTERN | SELECT_STATUS;
  SPCR = (1 << SPE) | (1 << MSTR);
#endif
}

inline void bus_send(uint8_t select, const uint8_t *bytes, uint16_t count) {
#ifdef __AVR__
  PORTB &= ~select;
  while (count--) {
    SPDR = *bytes++;
    while (!(SPSR & (1 << SPIF))) {
    }
  }
  PORTB |= select;
#else
  (void)select;
  (void)bytes;
  (void)count;
#endif
}
