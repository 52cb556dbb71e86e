#include "self_test.h"

#include <avr/boot.h>
#include <avr/interrupt.h>
#include <avr/io.h>
#include <avr/wdt.h>

extern uint8_t __heap_start;

namespace {

constexpr uint8_t PAINT = 0xC5;
constexpr uint8_t CAUSES = _BV(PORF) | _BV(EXTRF) | _BV(BORF) | _BV(WDRF);

uint8_t causeFound __attribute__((section(".noinit")));
uint8_t causeHanded __attribute__((section(".noinit")));

}  // namespace

// Before the stack is used: after a watchdog reset the watchdog runs on, at its shortest (data sheet, "Watchdog System
// Reset Source"). Optiboot clears MCUSR and hands its value on in r2.
extern "C" void firstOfAll() __attribute__((naked, used, section(".init3")));
extern "C" void firstOfAll() {
  asm volatile("sts %0, r2" : : "i"(&causeHanded));
  causeFound = MCUSR;
  MCUSR = 0;
  wdt_disable();
  for (uint8_t* at = &__heap_start; at < reinterpret_cast<uint8_t*>(SP); ++at) *at = PAINT;
}

namespace self_test {

uint8_t resetCause() {
  const uint8_t found = causeFound & CAUSES;
  if (found != 0) return found;
  return (causeHanded & ~CAUSES) == 0 ? causeHanded : uint8_t{0};
}

void readFuses(uint8_t* four) {
  cli();
  // They lie as low fuse, lock bits, extended fuse, high fuse.
  for (uint8_t at = 0; at < 4; ++at) four[at] = boot_lock_fuse_bits_get((4 - at) & 3);
  sei();
}

bool ramHolds() {
  bool holds = true;
  const uint8_t before = SREG;
  cli();
  for (volatile uint8_t* at = reinterpret_cast<volatile uint8_t*>(RAMSTART);
       at <= reinterpret_cast<volatile uint8_t*>(RAMEND); ++at) {
    const uint8_t kept = *at;
    *at = 0x55;
    const bool first = *at == 0x55;
    *at = 0xAA;
    const bool second = *at == 0xAA;
    *at = kept;
    if (!first || !second) holds = false;
  }
  SREG = before;
  return holds;
}

uint16_t stackRoom() {
  const uint8_t* const base = &__heap_start;
  const uint8_t* at = base;
  while (*at == PAINT) ++at;
  return static_cast<uint16_t>(at - base);
}

}  // namespace self_test
