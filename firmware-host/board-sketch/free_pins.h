// Firmata's ordinary side: pins that the setup leaves free, and reports of readings. What belongs to the keeper cannot be
// changed from here.
#pragma once
#include "core/firmata.h"
#include "core/setup.h"

namespace free_pins {

// At the start; `setup` is null on a board that was not set up.
void begin(const keeper::Setup* setup);
void message(uint8_t command, uint8_t low, uint8_t first, uint8_t second);
void sysex(uint8_t id, const uint8_t* bytes, uint8_t count);
void tellVersion();
void tellFirmware();
// Tells ports that have changed, and readings that are due.
void report();
// When the next reading is due, in ticks; meaningful while `reads`.
uint16_t nextReading();
bool reads();

}  // namespace free_pins
