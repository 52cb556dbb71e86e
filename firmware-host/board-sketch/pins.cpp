#include "pins.h"

#include <avr/io.h>
#include <avr/pgmspace.h>

namespace {

// Of a port: what is read, the direction, the level, one behind the other.
struct Port {
  uint8_t input;
  uint8_t direction;
  uint8_t output;
};

// Ports B, C and D lie one behind the other, and so do the masks of what wakes the chip (data sheet, "Register Summary").
enum : uint8_t { PORT_B, PORT_C, PORT_D };
volatile Port& portAt(uint8_t port) { return reinterpret_cast<volatile Port*>(&PINB)[port]; }
volatile uint8_t& wakesAt(uint8_t port) { return (&PCMSK0)[port]; }

struct Place {
  uint8_t port;
  uint8_t mask;
};

// The chip shifts by one place at a time.
const uint8_t MASKS[] PROGMEM = {1, 2, 4, 8, 16, 32, 64, 128};

CALLED Place placeOf(uint8_t pin) {
  uint8_t port = PORT_D;
  if (pin >= 14) {
    port = PORT_C;
    pin = static_cast<uint8_t>(pin - 14);
  } else if (pin >= 8) {
    port = PORT_B;
    pin = static_cast<uint8_t>(pin - 8);
  }
  return {port, pgm_read_byte(&MASKS[pin])};
}

void set(volatile uint8_t& port, uint8_t bits, bool on) {
  port = on ? static_cast<uint8_t>(port | bits) : static_cast<uint8_t>(port & ~bits);
}

void become(uint8_t pin, bool output, bool on) {
  const Place place = placeOf(pin);
  volatile Port& port = portAt(place.port);
  // An output shows its level from the first moment; an input has lost its direction before its pull-up changes.
  if (!output) set(port.direction, place.mask, false);
  set(port.output, place.mask, on);
  if (output) set(port.direction, place.mask, true);
}

}  // namespace

namespace pins {

Input inputOf(uint8_t pin) {
  const Place place = placeOf(pin);
  return {&portAt(place.port).input, place.mask};
}
Output outputOf(uint8_t pin) {
  const Place place = placeOf(pin);
  return {&portAt(place.port).output, place.mask};
}
bool high(uint8_t pin) {
  const Place place = placeOf(pin);
  return (portAt(place.port).input & place.mask) != 0;
}
uint8_t levels(uint8_t port) {
  switch (port) {
    case 0:
      return PIND;
    case 1:
      return static_cast<uint8_t>((PINB & 0x3F) | PINC << 6);
    default:
      return PINC >> 2 & 0x0F;
  }
}
bool drivesHigh(uint8_t pin) {
  const Place place = placeOf(pin);
  return (portAt(place.port).output & place.mask) != 0;
}
void level(uint8_t pin, bool on) {
  const Place place = placeOf(pin);
  set(portAt(place.port).output, place.mask, on);
}
void drive(uint8_t pin, bool on) { become(pin, true, on); }
void floating(uint8_t pin) { become(pin, false, false); }
void pulledUp(uint8_t pin) { become(pin, false, true); }
bool so(const keeper::Contact& contact) { return high(contact.pin) == (contact.level != 0); }
void watch(uint8_t pin, bool wakes) {
  const Place place = placeOf(pin);
  set(wakesAt(place.port), place.mask, wakes);
}

}  // namespace pins
