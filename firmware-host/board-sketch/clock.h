// Seconds and ticks of 64 us from Timer1, and sleep until something happens. ATmega328P data sheet, "16-bit Timer/Counter1".
#pragma once
#include <stdint.h>

namespace clock {

constexpr uint16_t TICKS_A_SECOND = 15625;
// 15.625 a millisecond; up to 4 s fit.
constexpr uint16_t ticksOf(uint16_t millis) { return static_cast<uint16_t>(millis * 15 + millis * 5 / 8); }

void begin();
uint16_t ticks();
// Whether the ticks have come to `moment`, which lies at most two seconds off.
bool reached(uint16_t moment);
// Takes one second that has passed; false when none has.
bool takeSecond();
// Wakes the chip when the ticks come to `moment`.
void wakeAt(uint16_t moment);
// Sleeps until the next interrupt, unless `pending` became true meanwhile.
void sleepUnless(bool (*pending)());
void sleepUntil(const volatile bool& happened);
bool secondsWait();
// A pin has moved, or something is due: the main loop looks at the pins before it sleeps.
void wake();
bool wakes();
// Whether that has happened since last asked.
bool takeWake();

// The 64 ms of the watchdog's own oscillator in ticks; 0 when they never ended.
uint16_t watchdogTicks();

}  // namespace clock
