// The board: reads its contacts, lets the keeper decide each second, drives pump, buzzer and lamp, and talks with the host.
// All judgement is in core/; what it does in words is in docs/board-protocol.md.
#include <avr/interrupt.h>
#include <avr/power.h>
#include <avr/wdt.h>
#include <util/atomic.h>

#include "clock.h"
#include "converter.h"
#include "core/button.h"
#include "core/talk.h"
#include "eeprom_store.h"
#include "flash_setup.h"
#include "free_pins.h"
#include "line.h"
#include "pins.h"
#include "self_test.h"

namespace {

using keeper::Contact;
using keeper::NO_PIN;
using keeper::Seen;
namespace times = keeper::times;

keeper::Setup setup;
bool setUp = false;
// A reset does not clear it.
keeper::Keeper<EepromStore> theKeeper __attribute__((section(".noinit")));
keeper::Health health;
keeper::Talk<EepromStore> talk(theKeeper, health, flash_setup::byteAt);

keeper::Agreeing contacts[keeper::SIGHTS];
keeper::PulseWindow pulseWindow;
// One bit for each sight that the setup has.
uint8_t fitted = 0;
keeper::Button button;
uint16_t buttonDue = 0;

// Pulses of the meter, counted as they come; a reed contact bounces for a millisecond or two.
constexpr uint8_t BOUNCE_TICKS = 31;
volatile uint8_t pulses = 0;
uint8_t meterPin = NO_PIN;
bool meterWasHigh = true;
uint16_t meterFellAt = 0;

// The watchdog's own oscillator may be a tenth off, and drifts with warmth and supply (data sheet, "Typical Characteristics").
constexpr uint16_t WATCHDOG_TICKS_LEAST = 750;
constexpr uint16_t WATCHDOG_TICKS_MOST = 1300;
// Half a second between two bytes of one message: the rest will not come.
constexpr uint16_t STALLED_TICKS = clock::ticksOf(500);
uint16_t heardAt = 0;
constexpr uint8_t BYTES_A_TURN = 16;

keeper::Signals shown = {};

// The relay is told again each time, should its pin have been disturbed.
void drive() {
  if (!setUp) return;
  const bool pulled = theKeeper.pumpOn() != setup.runsAtRest();
  pins::drive(setup.relay.pin, pulled == (setup.relay.level != 0));
  const keeper::Signals signals = theKeeper.signals();
  if (setup.buzzer != NO_PIN && signals.buzzer != shown.buzzer) pins::drive(setup.buzzer, signals.buzzer);
  if (setup.lamp != NO_PIN && signals.lamp != shown.lamp) pins::drive(setup.lamp, signals.lamp);
  shown = signals;
}

struct Words {
  void message(uint8_t command, uint8_t low, uint8_t first, uint8_t second) {
    free_pins::message(command, low, first, second);
  }
  void sysex(uint8_t id, const uint8_t* bytes, uint8_t count) {
    if (id != keeper::SYSEX_ID) {
      free_pins::sysex(id, bytes, count);
      return;
    }
    health.lostBytes = line::lostBytes();
    health.stackRoom = self_test::stackRoom();
    uint8_t answer[keeper::FRAME_BYTES_MAX];
    const uint8_t length = talk.answered(bytes, count, answer);
    drive();
    if (length > 0) keeper::sendFrame(*this, answer, length);
  }
  void spoilt() { ++health.droppedFrames; }
  void write(uint8_t byte) { line::write(byte); }
};
Words words;
keeper::FirmataParser<Words> parser(words);

// What a wave in the tank could do must last longer.
constexpr uint8_t CALM = 1 << keeper::FLOAT_LOW | 1 << keeper::LEAK | 1 << keeper::OVERFLOW_ | 1 << keeper::MAINS;

Seen meter() {
  uint8_t counted = 0;
  ATOMIC_BLOCK(ATOMIC_RESTORESTATE) {
    counted = pulses;
    pulses = 0;
  }
  return pulseWindow.look(counted, setup.pulsesAreWater);
}

Seen looked(uint8_t sight) {
  const Contact contact = contactOf(setup, sight);
  if (sight == keeper::WATER && setup.hasMeter()) return meter();
  const bool measured = sight == keeper::CURRENT && setup.measuresCurrent();
  const bool so = measured ? converter::read(contact.pin) > setup.currentAbove : pins::so(contact);
  return contacts[sight].look(so, (CALM >> sight & 1) != 0 ? times::AGREE_CALM : times::AGREE_QUICK);
}

// Counts at either end are a cut wire or a short one.
Seen hot() {
  constexpr uint16_t END = 20;
  if (setup.airChannel == NO_PIN) return Seen::Unknown;
  const uint16_t counts = converter::read(setup.airChannel);
  if (counts < END || counts > 1023 - END) return Seen::Unknown;
  return (setup.airCountsRise != 0 ? counts >= setup.airThreshold : counts <= setup.airThreshold) ? Seen::Yes : Seen::No;
}

keeper::Evidence evidence() {
  keeper::Evidence evidence = {};
  if (!setUp) return evidence;
  uint8_t left = fitted;
  for (uint8_t sight = 0; left != 0; ++sight, left = static_cast<uint8_t>(left >> 1))
    if ((left & 1) != 0) evidence.seen[sight] = looked(sight);
  evidence.hot = hot();
  return evidence;
}

void serveButton() {
  if (!setUp || setup.button == NO_PIN) return;
  const bool down = !pins::high(setup.button);
  const bool waits = button.busy() && static_cast<int16_t>(clock::ticks() - buttonDue) < 0;
  if (waits || (!down && !button.busy())) return;
  buttonDue = static_cast<uint16_t>(clock::ticks() + clock::ticksOf(keeper::Button::LOOK_MILLIS));
  const keeper::Press press = button.look(down);
  if (press == keeper::Press::None) return;
  theKeeper.pressed(press == keeper::Press::Long);
  drive();
}

// The nearest of what falls due before the next second.
void wakeInTime() {
  const bool pressed = button.busy();
  if (!pressed && !free_pins::reads()) return;
  const uint16_t reading = free_pins::nextReading();
  const bool buttonFirst =
      pressed && (!free_pins::reads() || static_cast<int16_t>(buttonDue - reading) < 0);
  clock::wakeAt(buttonFirst ? buttonDue : reading);
}

void outfit() {
  for (uint8_t sight = 0; sight < keeper::SIGHTS; ++sight)
    if (contactOf(setup, sight).pin != NO_PIN) fitted = static_cast<uint8_t>(fitted | 1u << sight);
  // An alarm that has outlived the reset is shown already.
  if (setup.buzzer != NO_PIN) pins::drive(setup.buzzer, shown.buzzer);
  if (setup.lamp != NO_PIN) pins::drive(setup.lamp, shown.lamp);
}

bool somethingWaits() { return line::waits() || clock::secondsWait() || clock::wakes(); }

void begin() {
  clock_prescale_set(clock_div_1);
  // Before anything else: the relay stands as the farm wants it while the pump is off.
  keeper::Table flashTable;
  setUp = flash_setup::read(setup, flashTable);
  const uint8_t cause = self_test::resetCause();
  const bool powerCame = (cause & _BV(PORF)) != 0;
  theKeeper.begin(setUp ? &setup : nullptr, flashTable, cause, !powerCame);
  drive();

  if (!self_test::ramHolds()) health.failedTests |= keeper::TEST_RAM;
  if (!flash_setup::programWhole()) health.failedTests |= keeper::TEST_FLASH;
  if (!setUp && flash_setup::present()) health.failedTests |= keeper::TEST_SETUP;
  if (theKeeper.slotSpoilt()) health.failedTests |= keeper::TEST_EEPROM;
  self_test::readFuses(health.fuses);

  clock::begin();
  converter::begin();
  line::begin();
  free_pins::begin(setUp ? &setup : nullptr);
  if (setUp) outfit();
  if (setUp && setup.hasMeter()) meterPin = setup.water.pin;
  if (setUp && setup.button != NO_PIN) button.look(!pins::high(setup.button));
  PCICR = _BV(PCIE0) | _BV(PCIE1) | _BV(PCIE2);
  sei();
  const uint16_t ticks = clock::watchdogTicks();
  if (ticks < WATCHDOG_TICKS_LEAST || ticks > WATCHDOG_TICKS_MOST) health.failedTests |= keeper::TEST_CLOCK;
  if (!setUp || setup.noWatchdog == 0) wdt_enable(WDTO_2S);
  free_pins::tellVersion();
  free_pins::tellFirmware();
}

}  // namespace

ISR(PCINT2_vect) {
  clock::wake();
  if (meterPin == NO_PIN) return;
  const bool high = pins::high(meterPin);
  const uint16_t now = TCNT1;
  if (meterWasHigh && !high && static_cast<uint16_t>(now - meterFellAt) > BOUNCE_TICKS) {
    meterFellAt = now;
    if (pulses < 0xFF) ++pulses;
  }
  meterWasHigh = high;
}
ISR(PCINT0_vect, ISR_ALIASOF(PCINT2_vect));
ISR(PCINT1_vect, ISR_ALIASOF(PCINT2_vect));

int main() {
  begin();
  for (;;) {
    wdt_reset();
    if (parser.inside() && static_cast<uint16_t>(clock::ticks() - heardAt) > STALLED_TICKS) parser.forget();
    // A few at a time: a line that never falls silent keeps neither the seconds nor a finger on the button waiting.
    for (uint8_t left = BYTES_A_TURN; left > 0 && line::waits(); --left) {
      parser.take(line::read());
      heardAt = clock::ticks();
    }
    while (clock::takeSecond()) {
      theKeeper.second(evidence());
      drive();
      clock::wake();
    }
    // Each byte on the line ends a sleep too; the pins are not looked at for that.
    if (clock::takeWake()) {
      serveButton();
      free_pins::report();
      wakeInTime();
    }
    clock::sleepUnless(somethingWaits);
  }
}
