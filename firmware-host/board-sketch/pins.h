// The pins by the numbers that are printed on the boards: 0-13 digital, 14-19 analog 0-5, 20 and 21 analog 6 and 7, which only
// read voltages. ATmega328P data sheet, "I/O-Ports".
#pragma once
#include <stdint.h>
#include "core/setup.h"

namespace pins {

constexpr uint8_t COUNT = 22;
constexpr uint8_t ANALOG_FIRST = 14;
constexpr uint8_t DIGITAL_LAST = 19;

bool high(uint8_t pin);
// Eight pins at once, as Firmata numbers its ports.
uint8_t levels(uint8_t port);
// Whether the pin drives its wire high.
bool drivesHigh(uint8_t pin);
void level(uint8_t pin, bool on);
void drive(uint8_t pin, bool on);
void floating(uint8_t pin);
void pulledUp(uint8_t pin);
bool so(const keeper::Contact& contact);
// Whether a change of this pin wakes the chip. One that floats would wake it without end.
void watch(uint8_t pin, bool wakes);

}  // namespace pins
