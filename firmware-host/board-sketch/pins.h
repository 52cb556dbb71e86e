// The pins by the numbers that are printed on the boards: 0-13 digital, 14-19 analog 0-5, 20 and 21 analog 6 and 7, which only
// read voltages. ATmega328P data sheet, "I/O-Ports".
#pragma once
#include <stdint.h>
#include "core/setup.h"

namespace pins {

constexpr uint8_t COUNT = 22;
constexpr uint8_t ANALOG_FIRST = 14;
constexpr uint8_t DIGITAL_LAST = 19;

// Where a pin is read, for an interrupt that has no time to look for it.
struct Input {
  const volatile uint8_t* port;
  // Nought where there is no such pin.
  uint8_t mask;
  uint8_t level() const { return *port & mask; }
};
Input inputOf(uint8_t pin);
// The same for what drives a pin, where each must take as many cycles as the other.
struct Output {
  volatile uint8_t* port;
  uint8_t mask;
  void low() const { *port = static_cast<uint8_t>(*port & ~mask); }
  void high() const { *port = static_cast<uint8_t>(*port | mask); }
};
Output outputOf(uint8_t pin);
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
