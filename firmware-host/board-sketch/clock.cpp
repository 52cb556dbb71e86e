#include "clock.h"

#include <avr/interrupt.h>
#include <avr/io.h>
#include <avr/sleep.h>
#include <avr/wdt.h>
#include <util/atomic.h>

namespace {
volatile uint8_t secondsPassed = 0;
volatile uint16_t barkedAt = 0;
volatile bool barked = false;
volatile bool woken = false;

uint16_t ticksNow() { return TCNT1; }

// With interrupts off.
void sleepOnce() {
  sleep_enable();
  // The instruction after this one is carried out before any interrupt is.
  sei();
  sleep_cpu();
  sleep_disable();
}
}  // namespace

ISR(TIMER1_COMPA_vect) {
  OCR1A = static_cast<uint16_t>(OCR1A + clock::TICKS_A_SECOND);
  ++secondsPassed;
}
ISR(TIMER1_COMPB_vect) { clock::wake(); }
ISR(WDT_vect) {
  barkedAt = TCNT1;
  barked = true;
}

namespace clock {

void begin() {
  TCCR1A = 0;
  OCR1A = TICKS_A_SECOND;
  TCCR1B = _BV(CS12) | _BV(CS10);
  TIMSK1 = _BV(OCIE1A);
  // Idle sleep: timers and serial line go on.
  SMCR = 0;
}

uint16_t ticks() {
  uint16_t now = 0;
  ATOMIC_BLOCK(ATOMIC_RESTORESTATE) { now = ticksNow(); }
  return now;
}

bool reached(uint16_t moment) { return static_cast<int16_t>(ticks() - moment) >= 0; }

bool takeSecond() {
  bool taken = false;
  ATOMIC_BLOCK(ATOMIC_RESTORESTATE) {
    if (secondsPassed > 0) {
      --secondsPassed;
      taken = true;
    }
  }
  return taken;
}

bool secondsWait() { return secondsPassed > 0; }

void wake() { woken = true; }
bool takeWake() {
  bool was = false;
  ATOMIC_BLOCK(ATOMIC_RESTORESTATE) {
    was = woken;
    woken = false;
  }
  return was;
}
bool wakes() { return woken; }

void wakeAt(uint16_t moment) {
  ATOMIC_BLOCK(ATOMIC_RESTORESTATE) {
    OCR1B = moment;
    TIFR1 = _BV(OCF1B);
    TIMSK1 |= _BV(OCIE1B);
    if (static_cast<int16_t>(ticksNow() - moment) >= 0) woken = true;
  }
}

void sleepUnless(bool (*pending)()) {
  cli();
  if (!pending()) sleepOnce();
  sei();
}

void sleepUntil(const volatile bool& happened) {
  while (!happened) {
    cli();
    if (!happened) sleepOnce();
    sei();
  }
}

uint16_t watchdogTicks() {
  barked = false;
  uint16_t begun = 0;
  ATOMIC_BLOCK(ATOMIC_RESTORESTATE) {
    wdt_reset();
    WDTCSR = _BV(WDCE) | _BV(WDE);
    WDTCSR = _BV(WDIE) | _BV(WDP1);
    begun = ticksNow();
  }
  // A second is far past the 64 ms.
  while (!barked && static_cast<uint16_t>(ticks() - begun) < TICKS_A_SECOND / 2)
    sleepUnless([] { return barked; });
  wdt_disable();
  return barked ? static_cast<uint16_t>(barkedAt - begun) : uint16_t{0};
}

}  // namespace clock
