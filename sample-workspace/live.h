/*
 * Live code for the lantern: functions that the sketch calls for every frame, and that are played from their source.
 * Not part of the sketch.
 */
#pragma once
#include "board.h"
#include <math.h>

/* As the GLSL reference defines it. */
static float smoothstep(float low, float high, float v) {
  float s = (v - low) / (high - low);
  if (s < 0.0f) s = 0.0f;
  if (s > 1.0f) s = 1.0f;
  return s * s * (3.0f - 2.0f * s);
}

/* A soft ring grows from the middle, as when a drop falls into the tank; one every two seconds. */
// @motion lantern code fps=20
uint8_t ripple(int8_t x, int8_t y, uint16_t frame) {
  const float dx = x - 4.0f;
  const float dy = y - 4.0f;
  const float distance = sqrtf(dx * dx + dy * dy);
  const float front = (frame % 40) * 0.25f - 1.0f;
  const float ring = smoothstep(front - 1.5f, front, distance) * (1.0f - smoothstep(front, front + 1.5f, distance));
  const float fade = 1.0f - smoothstep(3.0f, 7.0f, front);
  return (uint8_t)(ring * fade * 64.0f + 0.5f);
}

uint8_t mist[81];

/* Mist over the beds: each lamp goes slowly to a level of its own, and then to another. */
// @motion lantern code fps=20 buffer=mist
void drift(void) {
  static uint16_t state = 0x5EED;
  static uint8_t wanted[81];
  for (uint8_t i = 0; i < 81; i++) {
    if (mist[i] == wanted[i]) {
      state = state * 25173u + 13849u;
      wanted[i] = 3 + (state >> 8) % 24;
    }
    mist[i] += mist[i] < wanted[i] ? 1 : -1;
  }
}
