// The analog converter, and the bare conductivity cell that is driven with alternating current. ATmega328P data sheet,
// "Analog-to-Digital Converter".
#pragma once
#include "core/setup.h"

namespace converter {

void begin();
// Counts of 1023 against the supply.
uint16_t read(uint8_t channel);
// 1023 x R / (R + cell): eight periods of 1 ms, as long in the one direction as in the other, so that no charge is left in
// the water; the pins float before and after.
uint16_t readProbe(const keeper::Setup& setup);

}  // namespace converter
