// What the board is wired to, as it lies in the flash. Layout: docs/board-protocol.md, "Setup".
#pragma once
#include "bytes.h"
#include "sights.h"
#include "times.h"

namespace keeper {

constexpr uint8_t NO_PIN = 0xFF;
// Pins 0 and 1 are the serial line; 13 blinks while a bootloader waits.
constexpr uint8_t PIN_FIRST = 2;
constexpr uint8_t PIN_LAST = 12;
constexpr uint8_t CHANNELS = 8;

enum class Fitted : uint8_t { None = 0, Contact = 1, Measured = 2 };
enum class DeadBoard : uint8_t { PumpStops = 0, PumpRuns = 1, PlainTimer = 2 };

struct Contact {
  uint8_t pin;
  // The level while the thing is so.
  uint8_t level;
};

struct AS_ON_THE_WIRE Setup {
  uint8_t schema;
  DeadBoard deadBoard;
  Contact relay;
  Seconds longestOn;
  Seconds shortestOff;
  // Contact: a switch; Measured: a meter, whose pin falls with each pulse.
  Fitted returnKind;
  Contact water;
  uint8_t pulsesAreWater;
  // Contact, or Measured: then the pin is an analog channel.
  Fitted currentKind;
  Contact current;
  uint16_t currentAbove;
  Contact floatLow;
  Contact readBack;
  Contact mains;
  Contact leak;
  Contact overflow;
  uint8_t buzzer;
  uint8_t lamp;
  uint8_t button;
  uint8_t airChannel;
  uint8_t airCountsRise;
  uint16_t airThreshold;
  uint8_t probeChannel;
  uint8_t probePins[2];
  uint8_t sip;
  uint8_t noWatchdog;
  uint8_t spare[33];

  bool runsAtRest() const { return deadBoard == DeadBoard::PumpRuns; }
  bool hasMeter() const { return returnKind == Fitted::Measured; }
  bool measuresCurrent() const { return currentKind == Fitted::Measured; }
  bool seesReturn() const { return returnKind != Fitted::None; }
  // Whether water or current could tell that a flood ran.
  bool hasEvidence() const { return seesReturn() || currentKind != Fitted::None; }
};

constexpr uint8_t SETUP_BYTES = 72;
static_assert(sizeof(Setup) == SETUP_BYTES, "as in the flash");

// Where the contacts of the sights lie in the setup.
constexpr uint8_t CONTACT_AT[SIGHTS] = {19, 9, 13, 17, 23, 25, 21};
inline Contact contactOf(const Setup& setup, uint8_t sight) {
  const uint8_t* at = bytesOf(setup) + CONTACT_AT[sight];
  return {at[0], at[1]};
}

// Takes each pin once: an output on a contact would be a short circuit.
class PinsOnce {
 public:
  CALLED bool take(uint8_t pin) {
    if (pin == NO_PIN) return true;
    const uint16_t bit = static_cast<uint16_t>(1u << (pin & 15));
    if (pin < PIN_FIRST || pin > PIN_LAST || (taken_ & bit) != 0) return false;
    taken_ = static_cast<uint16_t>(taken_ | bit);
    return true;
  }

 private:
  uint16_t taken_ = 0;
};

inline bool isChannel(uint8_t channel) { return channel == NO_PIN || channel < CHANNELS; }

// Whether plants may be kept by this setup.
CALLED inline bool isGood(const Setup& setup) {
  if (setup.schema != 1 || setup.deadBoard > DeadBoard::PlainTimer) return false;
  if (setup.returnKind > Fitted::Measured || setup.currentKind > Fitted::Measured) return false;
  if (setup.relay.pin == NO_PIN || setup.relay.level > 1) return false;
  if (setup.longestOn < times::LONGEST_ON_LEAST || setup.longestOn > times::LONGEST_ON_MOST) return false;
  if (setup.shortestOff < times::SHORTEST_OFF_LEAST || setup.shortestOff > times::SHORTEST_OFF_MOST) return false;
  if (setup.hasMeter() && setup.pulsesAreWater == 0) return false;
  if (setup.sip < 1 || setup.sip > 60) return false;
  if (!isChannel(setup.airChannel) || !isChannel(setup.probeChannel)) return false;
  PinsOnce pins;
  bool good = pins.take(setup.relay.pin);
  for (uint8_t sight = 0; sight < SIGHTS; ++sight) {
    const Contact contact = contactOf(setup, sight);
    const bool named = contact.pin != NO_PIN;
    if (sight == WATER) good &= named == setup.seesReturn();
    if (sight == CURRENT) good &= named == (setup.currentKind != Fitted::None);
    if (sight == CURRENT && setup.measuresCurrent()) good &= contact.pin < CHANNELS;
    else good &= pins.take(contact.pin) && (!named || contact.level <= 1);
  }
  good &= pins.take(setup.buzzer) && pins.take(setup.lamp) && pins.take(setup.button);
  for (const uint8_t pin : setup.probePins) good &= pins.take(pin) && (setup.probeChannel == NO_PIN || pin != NO_PIN);
  return good;
}

}  // namespace keeper
