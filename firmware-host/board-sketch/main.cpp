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
constexpr keeper::Talk<EepromStore> talk(theKeeper, health, flash_setup::byteAt);

keeper::Agreeing contacts[keeper::SIGHTS];
keeper::PulseWindow pulseWindow;
// One bit for each sight that the setup has.
uint8_t fitted = 0;
keeper::Button button;
uint16_t buttonDue = 0;

// Pulses of the meter, counted as they come; a reed contact bounces for a millisecond or two.
constexpr uint8_t BOUNCE_TICKS = 31;
volatile uint8_t pulses = 0;
pins::Input meterInput = {};
// Nought while it gives a pulse.
uint8_t meterLevel = 0xFF;
uint16_t meterFellAt = 0;

// The watchdog's own oscillator may be a tenth off, and drifts with warmth and supply (data sheet, "Typical Characteristics").
constexpr uint16_t WATCHDOG_TICKS_LEAST = 750;
constexpr uint16_t WATCHDOG_TICKS_MOST = 1300;
// Half a second between two bytes of one message: the rest will not come.
constexpr uint16_t STALLED_TICKS = clock::ticksOf(500);
constexpr uint8_t BYTES_A_TURN = 16;

void show(uint8_t pin, bool on) {
  if (pin != NO_PIN) pins::drive(pin, on);
}

// All are told again each time, should a pin have been disturbed.
void drive() {
  if (!setUp) return;
  const bool pulled = theKeeper.pumpOn() != setup.runsAtRest();
  pins::drive(setup.relay.pin, pulled == (setup.relay.level != 0));
  const keeper::Signals signals = theKeeper.signals();
  show(setup.buzzer, signals.buzzer);
  show(setup.lamp, signals.lamp);
}

struct Words {
  void message(uint8_t command, uint8_t low, uint8_t first, uint8_t second) {
    free_pins::message(command, low, first, second);
  }
  void sysex(uint8_t id, uint8_t* bytes, uint8_t count) {
    if (id != keeper::SYSEX_ID) {
      free_pins::sysex(id, bytes, count);
      return;
    }
    health.lostBytes = line::lostBytes();
    health.stackRoom = self_test::stackRoom();
    // The answer takes the place of the question.
    const uint8_t length = talk.answered(bytes, count, bytes);
    drive();
    if (length > 0) keeper::sendFrame(*this, bytes, length);
  }
  CALLED void spoilt() { ++health.droppedFrames; }
  void write(uint8_t byte) { line::write(byte); }
};

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

Seen looked(uint8_t sight, bool calm) {
  const Contact contact = contactOf(setup, sight);
  if (sight == keeper::WATER && setup.hasMeter()) return meter();
  const bool measured = sight == keeper::CURRENT && setup.measuresCurrent();
  const bool so = measured ? converter::read(contact.pin) > setup.currentAbove : pins::so(contact);
  return contacts[sight].look(so, calm ? times::AGREE_CALM : times::AGREE_QUICK);
}

// Counts at either end are a cut wire or a short one.
Seen hot() {
  constexpr uint16_t END = 20;
  if (setup.airChannel == NO_PIN) return Seen::Unknown;
  const uint16_t counts = converter::read(setup.airChannel);
  if (counts < END || counts > 1023 - END) return Seen::Unknown;
  return (setup.airCountsRise != 0 ? counts >= setup.airThreshold : counts <= setup.airThreshold) ? Seen::Yes : Seen::No;
}

void look(keeper::Evidence& evidence) {
  if (!setUp) return;
  uint8_t bit = 1;
  for (uint8_t sight = 0; sight < keeper::SIGHTS; ++sight, bit = static_cast<uint8_t>(bit << 1))
    if ((fitted & bit) != 0) evidence.seen[sight] = looked(sight, (CALM & bit) != 0);
  evidence.hot = hot();
}

void serveButton() {
  if (!setUp || setup.button == NO_PIN) return;
  const bool down = !pins::high(setup.button);
  const bool waits = button.busy() && !clock::reached(buttonDue);
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

  uint8_t failed = 0;
  if (!self_test::ramHolds()) failed |= keeper::TEST_RAM;
  if (!flash_setup::programWhole()) failed |= keeper::TEST_FLASH;
  if (!setUp && flash_setup::present()) failed |= keeper::TEST_SETUP;
  if (theKeeper.slotSpoilt()) failed |= keeper::TEST_EEPROM;
  self_test::readFuses(health.fuses);

  clock::begin();
  converter::begin();
  line::begin();
  free_pins::begin(setUp ? &setup : nullptr);
  if (setUp) {
    fitted = fittedSights(setup);
    if (setup.hasMeter()) meterInput = pins::inputOf(setup.water.pin);
    if (setup.button != NO_PIN) button.look(!pins::high(setup.button));
  }
  PCICR = _BV(PCIE0) | _BV(PCIE1) | _BV(PCIE2);
  sei();
  const uint16_t ticks = clock::watchdogTicks();
  if (ticks < WATCHDOG_TICKS_LEAST || ticks > WATCHDOG_TICKS_MOST) failed |= keeper::TEST_CLOCK;
  health.failedTests = failed;
  if (!setUp || setup.noWatchdog == 0) wdt_enable(WDTO_2S);
  free_pins::tellVersion();
  free_pins::tellFirmware();
}

}  // namespace

ISR(PCINT2_vect) {
  clock::wake();
  if (meterInput.mask == 0) return;
  const uint8_t before = meterLevel;
  const uint8_t level = meterInput.level();
  meterLevel = level;
  if (level != 0 || before == 0) return;
  const uint16_t now = TCNT1;
  if (static_cast<uint16_t>(now - meterFellAt) <= BOUNCE_TICKS) return;
  meterFellAt = now;
  const uint8_t counted = pulses;
  if (counted < 0xFF) pulses = static_cast<uint8_t>(counted + 1);
}
ISR(PCINT0_vect, ISR_ALIASOF(PCINT2_vect));
ISR(PCINT1_vect, ISR_ALIASOF(PCINT2_vect));

int main() {
  begin();
  uint16_t heardAt = 0;
  Words words;
  keeper::FirmataParser<Words> parser(words);
  for (;;) {
    wdt_reset();
    if (parser.inside() && static_cast<uint16_t>(clock::ticks() - heardAt) > STALLED_TICKS) parser.forget();
    // A few at a time: a line that never falls silent keeps neither the seconds nor a finger on the button waiting.
    for (uint8_t left = BYTES_A_TURN; left > 0 && line::waits(); --left) {
      parser.take(line::read());
      heardAt = clock::ticks();
    }
    while (clock::takeSecond()) {
      keeper::Evidence evidence = {};
      look(evidence);
      theKeeper.second(evidence);
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
