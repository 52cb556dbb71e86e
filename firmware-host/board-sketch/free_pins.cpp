#include "free_pins.h"

#include <avr/pgmspace.h>

#include "clock.h"
#include "converter.h"
#include "line.h"
#include "pins.h"

namespace {

namespace firmata = keeper::firmata;
using keeper::NO_PIN;

enum Mode : uint8_t { INPUT = 0, OUTPUT = 1, ANALOG = 2, PULL_UP = 11, NONE = 0x7F };
// Whose a pin is.
enum class Use : uint8_t { Free, KeeperIn, KeeperOut, Measured, Line };

constexpr uint8_t PORTS = 3;
constexpr uint16_t INTERVAL_LEAST = 10;
constexpr uint16_t INTERVAL_MOST = 2000;
constexpr uint8_t PROTOCOL[] = {2, 7};
constexpr uint8_t FIRMWARE_VERSION[] = {1, 0};
const char NAME[] PROGMEM = "RillkeeperBoard";

const keeper::Setup* setup = nullptr;
Mode mode[pins::COUNT];
Use use[pins::COUNT];
uint8_t reported = 0;
uint8_t told[PORTS];
// Pins that are told of; at first 2 to 13.
uint8_t inputs[PORTS] = {0xFC, 0x3F};
uint8_t channels = 0;
uint16_t interval = clock::ticksOf(100);
uint16_t due = 0;

CALLED void switched(uint8_t& bits, uint8_t at, bool on) {
  const uint8_t bit = static_cast<uint8_t>(1u << at);
  bits = on ? static_cast<uint8_t>(bits | bit) : static_cast<uint8_t>(bits & ~bit);
}

void become(uint8_t pin, Mode to) {
  mode[pin] = to;
  switched(inputs[pin >> 3], pin & 7, to == INPUT || to == PULL_UP);
  pins::watch(pin, to == PULL_UP);
}

void keepOut(uint8_t pin) {
  if (pin == NO_PIN) return;
  use[pin] = Use::KeeperOut;
  become(pin, OUTPUT);
}
void keepIn(uint8_t pin) {
  if (pin == NO_PIN) return;
  use[pin] = Use::KeeperIn;
  become(pin, PULL_UP);
  pins::pulledUp(pin);
}

// A host that drove it would forge what the keeper measures.
CALLED void keepMeasured(uint8_t channel) {
  if (channel != NO_PIN) use[pins::ANALOG_FIRST + channel] = Use::Measured;
}

void pairs(uint8_t byte) {
  line::write(byte & 0x7F);
  line::write(static_cast<uint8_t>(byte >> 7));
}
void open(uint8_t id) {
  line::write(keeper::SYSEX_START);
  line::write(id);
}
void close() { line::write(keeper::SYSEX_END); }

void setMode(uint8_t pin, uint8_t asked) {
  if (pin >= pins::COUNT || use[pin] != Use::Free) return;
  if (pin > pins::DIGITAL_LAST) {
    if (asked == ANALOG) mode[pin] = ANALOG;
    return;
  }
  switch (asked) {
    case INPUT:
    case ANALOG:
      if (asked == ANALOG && pin < pins::ANALOG_FIRST) return;
      pins::floating(pin);
      break;
    case PULL_UP:
      pins::pulledUp(pin);
      break;
    case OUTPUT:
      pins::drive(pin, false);
      break;
    default:
      return;
  }
  become(pin, static_cast<Mode>(asked));
}

void setLevel(uint8_t pin, bool high) {
  if (pin < pins::COUNT && use[pin] == Use::Free && mode[pin] == OUTPUT) pins::level(pin, high);
}

uint8_t levelsOf(uint8_t port) { return pins::levels(port) & inputs[port]; }

void tellPort(uint8_t port) {
  told[port] = levelsOf(port);
  line::write(static_cast<uint8_t>(firmata::DIGITAL | port));
  pairs(told[port]);
}

void tellChannel(uint8_t channel) {
  const bool driven = setup != nullptr && setup->probeChannel == channel;
  const uint16_t counts = driven ? converter::readProbe(*setup) : converter::read(channel);
  line::write(static_cast<uint8_t>(firmata::ANALOG | channel));
  line::write(counts & 0x7F);
  line::write(static_cast<uint8_t>(counts >> 7));
}

void ability(uint8_t of, uint8_t bits) {
  line::write(of);
  line::write(bits);
}

void tellCapabilities() {
  open(firmata::CAPABILITY);
  for (uint8_t pin = 0; pin < pins::COUNT; ++pin) {
    const bool digital = pin <= pins::DIGITAL_LAST;
    if (use[pin] == Use::Free && digital) {
      ability(INPUT, 1);
      ability(OUTPUT, 1);
    }
    if (digital && (use[pin] == Use::Free || use[pin] == Use::KeeperIn)) ability(PULL_UP, 1);
    if (pin >= pins::ANALOG_FIRST) ability(ANALOG, 10);
    line::write(NONE);
  }
  close();
}

void tellMapping() {
  open(firmata::ANALOG_MAPPING);
  for (uint8_t pin = 0; pin < pins::COUNT; ++pin)
    line::write(pin < pins::ANALOG_FIRST ? static_cast<uint8_t>(NONE)
                                         : static_cast<uint8_t>(pin - pins::ANALOG_FIRST));
  close();
}

void tellState(uint8_t pin) {
  open(firmata::PIN_STATE);
  line::write(pin);
  if (pin < pins::COUNT && use[pin] != Use::Line && use[pin] != Use::KeeperOut) {
    line::write(mode[pin]);
    const bool on = mode[pin] == OUTPUT ? pins::drivesHigh(pin) : mode[pin] == PULL_UP;
    line::write(on ? 1 : 0);
  }
  close();
}

CALLED void readNext() { due = static_cast<uint16_t>(clock::ticks() + interval); }

void setInterval(uint16_t millis) {
  const uint16_t most = millis > INTERVAL_MOST ? INTERVAL_MOST : millis;
  interval = clock::ticksOf(most < INTERVAL_LEAST ? INTERVAL_LEAST : most);
}

}  // namespace

namespace free_pins {

void begin(const keeper::Setup* of) {
  setup = of;
  for (uint8_t pin = pins::ANALOG_FIRST; pin < pins::COUNT; ++pin) mode[pin] = ANALOG;
  for (uint8_t pin = 0; pin < keeper::PIN_FIRST; ++pin) use[pin] = Use::Line;
  if (setup == nullptr) return;
  for (const uint8_t at : keeper::OUTPUT_AT) keepOut(keeper::bytesOf(*setup)[at]);
  for (uint8_t sight = 0; sight < keeper::SIGHTS; ++sight)
    if (sight != keeper::CURRENT || !setup->measuresCurrent()) keepIn(contactOf(*setup, sight).pin);
  keepIn(setup->button);
  if (setup->measuresCurrent()) keepMeasured(setup->current.pin);
  keepMeasured(setup->airChannel);
  keepMeasured(setup->probeChannel);
}

void tellVersion() {
  line::write(firmata::VERSION);
  for (const uint8_t number : PROTOCOL) line::write(number);
}

void tellFirmware() {
  open(firmata::FIRMWARE);
  for (const uint8_t number : FIRMWARE_VERSION) line::write(number);
  for (const char* at = NAME;; ++at) {
    const uint8_t letter = pgm_read_byte(at);
    if (letter == 0) break;
    pairs(letter);
  }
  close();
}

void message(uint8_t command, uint8_t low, uint8_t first, uint8_t second) {
  switch (command) {
    case firmata::PIN_MODE:
      setMode(first, second);
      return;
    case firmata::PIN_VALUE:
      setLevel(first, second != 0);
      return;
    case firmata::DIGITAL:
      first = static_cast<uint8_t>(first | second << 7);
      low = static_cast<uint8_t>(low * 8);
      for (uint8_t left = 8; left > 0; --left, ++low, first = static_cast<uint8_t>(first >> 1))
        setLevel(low, (first & 1) != 0);
      return;
    case firmata::REPORT_DIGITAL:
      if (low >= PORTS) return;
      switched(reported, low, first != 0);
      if (first != 0) tellPort(low);
      return;
    case firmata::REPORT_ANALOG:
      if (low >= keeper::CHANNELS) return;
      if (channels == 0) readNext();
      clock::wake();
      switched(channels, low, first != 0);
      return;
    case firmata::VERSION:
      tellVersion();
      return;
    case firmata::RESET:
      reported = 0;
      channels = 0;
      for (uint8_t pin = keeper::PIN_FIRST; pin < pins::COUNT; ++pin) setMode(pin, pin < pins::ANALOG_FIRST ? INPUT : ANALOG);
      return;
    default:
      return;
  }
}

void sysex(uint8_t id, const uint8_t* bytes, uint8_t count) {
  switch (id) {
    case firmata::FIRMWARE:
      tellFirmware();
      return;
    case firmata::CAPABILITY_QUERY:
      tellCapabilities();
      return;
    case firmata::ANALOG_MAPPING_QUERY:
      tellMapping();
      return;
    case firmata::PIN_STATE_QUERY:
      if (count == 1) tellState(bytes[0]);
      return;
    case firmata::SAMPLING_INTERVAL:
      if (count == 2) setInterval(static_cast<uint16_t>(bytes[0] | bytes[1] << 7));
      return;
    default:
      return;
  }
}

void report() {
  uint8_t left = reported;
  for (uint8_t port = 0; left != 0; ++port, left = static_cast<uint8_t>(left >> 1))
    if ((left & 1) != 0 && levelsOf(port) != told[port]) tellPort(port);
  if (!reads() || !clock::reached(due)) return;
  due = static_cast<uint16_t>(due + interval);
  // After a long write to the EEPROM readings are not made up for.
  if (clock::reached(due)) readNext();
  left = channels;
  for (uint8_t channel = 0; left != 0; ++channel, left = static_cast<uint8_t>(left >> 1))
    if ((left & 1) != 0) tellChannel(channel);
}

uint16_t nextReading() { return due; }
bool reads() { return channels != 0; }

}  // namespace free_pins
