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

// One bit for each sight that a contact is fitted for.
CALLED inline uint8_t fittedSights(const Setup& setup) {
  uint8_t bits = 0;
  for (uint8_t sight = SIGHTS; sight-- > 0;) {
    bits = static_cast<uint8_t>(bits << 1);
    if (contactOf(setup, sight).pin != NO_PIN) ++bits;
  }
  return bits;
}

// Where the pins lie that the keeper drives: relay, buzzer, lamp, and both of the probe.
constexpr uint8_t OUTPUT_AT[] = {2, 27, 28, 35, 36};

// Takes each pin once: an output on a contact would be a short circuit.
class PinsOnce {
 public:
  CALLED void take(uint8_t pin) {
    if (pin == NO_PIN) return;
    const uint16_t bit = static_cast<uint16_t>(1u << (pin & 15));
    if (pin < PIN_FIRST || pin > PIN_LAST || (taken_ & bit) != 0) good_ = false;
    taken_ = static_cast<uint16_t>(taken_ | bit);
  }
  bool good() const { return good_; }

 private:
  uint16_t taken_ = 0;
  bool good_ = true;
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
  // A kind without a pin, or a pin without a kind.
  if ((setup.water.pin == NO_PIN) == setup.seesReturn()) return false;
  if ((setup.current.pin == NO_PIN) == (setup.currentKind != Fitted::None)) return false;
  if (setup.probeChannel != NO_PIN && (setup.probePins[0] == NO_PIN || setup.probePins[1] == NO_PIN)) return false;
  PinsOnce pins;
  for (const uint8_t at : OUTPUT_AT) pins.take(bytesOf(setup)[at]);
  pins.take(setup.button);
  for (uint8_t sight = 0; sight < SIGHTS; ++sight) {
    const Contact contact = contactOf(setup, sight);
    if (sight == CURRENT && setup.measuresCurrent()) {
      if (contact.pin >= CHANNELS) return false;
      continue;
    }
    pins.take(contact.pin);
    if (contact.pin != NO_PIN && contact.level > 1) return false;
  }
  return pins.good();
}

}  // namespace keeper
