// Tells why it started and what RAM remembers; then does what it hears.
#include <avr/interrupt.h>
#include <avr/wdt.h>
#include "serial.h"

static uint8_t cause __attribute__((section(".noinit")));
static uint8_t handed __attribute__((section(".noinit")));
static uint8_t starts __attribute__((section(".noinit")));
static uint8_t cleared;

void early(void) __attribute__((naked, used, section(".init3")));
void early(void) {
  asm volatile("sts %0, r2" : : "i"(&handed));
  cause = MCUSR;
#ifndef LEAVES_WATCHDOG
  MCUSR = 0;
  wdt_disable();
#endif
}

ISR(WDT_vect) { say('i'); }

int main(void) {
  const uint8_t ports = DDRB | PORTB | DDRD | PORTD | PCMSK0 | TCCR1B | UCSR0B;
  ++starts;
  serial_begin();
  const uint8_t told[] = {'S', cause, handed, starts, cleared, ports, WDTCSR};
  for (uint8_t i = 0; i < sizeof told; ++i) say(told[i]);
  ++cleared;
  DDRB = _BV(0) | _BV(1);
  PORTB = _BV(0);
  DDRD = _BV(7);
  PORTD = _BV(7) | _BV(6);
  PCMSK0 = 1;
  TCCR1B = _BV(CS10);
  for (;;) switch (heard()) {
      case 'w':
        wdt_enable(WDTO_30MS);
        for (;;) {
        }
      case 'k':
        wdt_enable(WDTO_30MS);
        for (;;) wdt_reset();
      case 'b':
        cli();
        wdt_reset();
        WDTCSR = _BV(WDCE) | _BV(WDE);
        WDTCSR = _BV(WDIE) | _BV(WDE);
        sei();
        for (;;) {
        }
      case 'i':
        cli();
        wdt_reset();
        WDTCSR = _BV(WDCE) | _BV(WDE);
        WDTCSR = _BV(WDIE);
        sei();
        break;
      case 'u':
        // Without the sequence neither the prescaler nor WDE may be changed down.
        wdt_enable(WDTO_2S);
        WDTCSR = 0;
        say(WDTCSR);
        break;
      default:
        say('?');
    }
}
