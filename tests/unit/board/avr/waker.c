// Wakes once a second by a compare match, for about 300 instructions, and sleeps again.
#include <avr/interrupt.h>
#include <avr/io.h>
#include <avr/sleep.h>

static volatile uint8_t seconds;
static volatile uint16_t sum;
ISR(TIMER1_COMPA_vect) {
  OCR1A += 15625;
  ++seconds;
}

int main(void) {
  DDRB = 1;
  OCR1A = 15625;
  TIMSK1 = _BV(OCIE1A);
  TCCR1B = _BV(CS12) | _BV(CS10);
  for (;;) {
    cli();
    if (seconds == 0) {
      sleep_enable();
      sei();
      sleep_cpu();
      sleep_disable();
    }
    sei();
    if (seconds > 0) {
      seconds = 0;
      PINB = 1;
      for (uint8_t i = 0; i < 16; ++i) sum = (uint16_t)(sum * 3 + i);
    }
  }
}
