// Which setups a board accepts: docs/board-protocol.md, "Setup".
#include "bench.h"
#include "facts.h"

using namespace keeper;

static Setup fullSetup() {
  Setup setup = bareSetup();
  setup.returnKind = Fitted::Contact;
  setup.water = {2, 0};
  setup.currentKind = Fitted::Contact;
  setup.current = {3, 0};
  setup.floatLow = {5, 0};
  setup.readBack = {6, 0};
  setup.mains = {7, 1};
  setup.leak = {8, 0};
  setup.overflow = {9, 0};
  setup.buzzer = 10;
  setup.lamp = 11;
  setup.button = 12;
  setup.airChannel = 0;
  setup.airCountsRise = 1;
  setup.airThreshold = 512;
  return setup;
}

struct Change {
  const char* what;
  void (*change)(Setup&);
};

static const Change REFUSED[] = {
    {"schema 0", [](Setup& s) { s.schema = 0; }},
    {"schema 2", [](Setup& s) { s.schema = 2; }},
    {"schema 0xFF", [](Setup& s) { s.schema = 0xFF; }},
    {"dead board 3", [](Setup& s) { s.deadBoard = static_cast<DeadBoard>(3); }},
    {"dead board 0xFF", [](Setup& s) { s.deadBoard = static_cast<DeadBoard>(0xFF); }},
    {"no relay", [](Setup& s) { s.relay.pin = NO_PIN; }},
    {"relay level 2", [](Setup& s) { s.relay.level = 2; }},
    {"longest-on 59 s", [](Setup& s) { s.longestOn = 59; }},
    {"longest-on 5,401 s", [](Setup& s) { s.longestOn = 5401; }},
    {"longest-on 65,535 s", [](Setup& s) { s.longestOn = 65535; }},
    {"shortest-off 9 s", [](Setup& s) { s.shortestOff = 9; }},
    {"shortest-off 601 s", [](Setup& s) { s.shortestOff = 601; }},
    {"return of kind 3", [](Setup& s) { s.returnKind = static_cast<Fitted>(3); }},
    {"a return switch without a pin", [](Setup& s) { s.water.pin = NO_PIN; }},
    {"a pin for a return that is not fitted", [](Setup& s) { s.returnKind = Fitted::None; }},
    {"return level 2", [](Setup& s) { s.water.level = 2; }},
    {"a meter for which 0 pulses are water",
     [](Setup& s) {
       s.returnKind = Fitted::Measured;
       s.pulsesAreWater = 0;
     }},
    {"pump current of kind 3", [](Setup& s) { s.currentKind = static_cast<Fitted>(3); }},
    {"a current contact without a pin", [](Setup& s) { s.current.pin = NO_PIN; }},
    {"a pin for a current that is not fitted", [](Setup& s) { s.currentKind = Fitted::None; }},
    {"current level 2", [](Setup& s) { s.current.level = 2; }},
    {"measured current without a channel",
     [](Setup& s) {
       s.currentKind = Fitted::Measured;
       s.current.pin = NO_PIN;
     }},
    {"measured current on channel 8",
     [](Setup& s) {
       s.currentKind = Fitted::Measured;
       s.current.pin = 8;
     }},
    {"float level 2", [](Setup& s) { s.floatLow.level = 2; }},
    {"read-back level 2", [](Setup& s) { s.readBack.level = 2; }},
    {"mains level 2", [](Setup& s) { s.mains.level = 2; }},
    {"leak level 2", [](Setup& s) { s.leak.level = 2; }},
    {"overflow level 2", [](Setup& s) { s.overflow.level = 2; }},
    {"air on channel 8", [](Setup& s) { s.airChannel = 8; }},
    {"probe on channel 8", [](Setup& s) { s.probeChannel = 8; }},
    {"a probe without its drive pins", [](Setup& s) { s.probeChannel = 1; }},
    {"a sip of 0 s", [](Setup& s) { s.sip = 0; }},
    {"a sip of 61 s", [](Setup& s) { s.sip = 61; }},
    {"a sip of 255 s", [](Setup& s) { s.sip = 255; }},
};

static const Change TAKEN[] = {
    {"as it is", [](Setup&) {}},
    {"dead board 1", [](Setup& s) { s.deadBoard = DeadBoard::PumpRuns; }},
    {"dead board 2", [](Setup& s) { s.deadBoard = DeadBoard::PlainTimer; }},
    {"longest-on 60 s", [](Setup& s) { s.longestOn = 60; }},
    {"longest-on 5,400 s", [](Setup& s) { s.longestOn = 5400; }},
    {"shortest-off 10 s", [](Setup& s) { s.shortestOff = 10; }},
    {"shortest-off 600 s", [](Setup& s) { s.shortestOff = 600; }},
    {"measured current on channel 7, as a pin number used by none",
     [](Setup& s) {
       s.currentKind = Fitted::Measured;
       s.current.pin = 7;
     }},
    {"a meter for which 1 pulse is water",
     [](Setup& s) {
       s.returnKind = Fitted::Measured;
       s.pulsesAreWater = 1;
     }},
    {"sip 1 s", [](Setup& s) { s.sip = 1; }},
    {"sip 60 s", [](Setup& s) { s.sip = 60; }},
    {"a probe with two free pins",
     [](Setup& s) {
       s.lamp = s.buzzer = NO_PIN;
       s.probeChannel = 7;
       s.probePins[0] = 10;
       s.probePins[1] = 11;
     }},
};

// Everything that names a digital pin.
static uint8_t* pinAt(Setup& setup, uint8_t which) {
  uint8_t* const pins[] = {&setup.relay.pin, &setup.water.pin,    &setup.current.pin, &setup.floatLow.pin,
                           &setup.readBack.pin, &setup.mains.pin, &setup.leak.pin,    &setup.overflow.pin,
                           &setup.buzzer,    &setup.lamp,         &setup.button};
  return pins[which];
}
constexpr uint8_t PINS = 11;

int main() {
  for (const Change& change : TAKEN) {
    char title[120];
    std::snprintf(title, sizeof(title), "a setup is taken: %s", change.what);
    FACT(title) {
      Setup setup = fullSetup();
      change.change(setup);
      CHECK(isGood(setup), "refused");
    }
  }
  for (const Change& change : REFUSED) {
    char title[120];
    std::snprintf(title, sizeof(title), "a setup is refused: %s", change.what);
    FACT(title) {
      Setup setup = fullSetup();
      change.change(setup);
      CHECK(!isGood(setup), "taken");
    }
  }
  FACT("a setup is refused with any of its 11 pins on 0, 1, 13 to 254") {
    for (uint8_t which = 0; which < PINS; ++which)
      for (unsigned pin = 0; pin < 0xFF; ++pin) {
        if (pin >= 2 && pin <= 12) continue;
        Setup setup = fullSetup();
        *pinAt(setup, which) = static_cast<uint8_t>(pin);
        CHECK(!isGood(setup), "pin %u in place %u taken", pin, which);
      }
  }
  FACT("a setup is refused with any two of its 11 pins the same") {
    for (uint8_t one = 0; one < PINS; ++one)
      for (uint8_t other = 0; other < PINS; ++other) {
        if (one == other) continue;
        Setup setup = fullSetup();
        *pinAt(setup, one) = *pinAt(setup, other);
        CHECK(!isGood(setup), "places %u and %u", one, other);
      }
  }
  FACT("a drive pin of the probe must not be that of a contact, nor the other drive pin") {
    Setup setup = fullSetup();
    setup.lamp = setup.buzzer = NO_PIN;
    setup.probeChannel = 1;
    setup.probePins[0] = 10;
    setup.probePins[1] = 5;
    CHECK(!isGood(setup), "the float's taken");
    setup.probePins[1] = 10;
    CHECK(!isGood(setup), "one pin twice taken");
  }
  FACT("a board that is not set up has no pump for 2 h, whatever is asked") {
    Bench bench(bareSetup(), plainTable());
    bench.setup = nullptr;
    bench.powerOn(5);
    for (int second = 0; second < 7200; ++second) {
      bench.claim();
      CHECK(bench.pump(1, 60).result == Result::NotSetUp, "a start is not refused");
      CHECK(bench.hold(60).result == Result::NotSetUp, "a hold is not refused");
      bench.press(second % 2 == 0);
      bench.second();
      CHECK(!bench.on, "the pump runs at %d s", second);
    }
  }
}
