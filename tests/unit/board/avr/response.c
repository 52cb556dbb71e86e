// How fast an interrupt is answered, asleep or awake; and what is carried out between SEI and a pending one. Timer 1
// counts every 1024 cycles from the reset, so the cycle of each match is known.
#include <avr/interrupt.h>
#include <avr/io.h>
#include <avr/sleep.h>

ISR(TIMER1_COMPA_vect, ISR_NAKED) { asm volatile("sbi %0, 0\n reti" : : "I"(_SFR_IO_ADDR(PINB))); }
// Tells on a pin each what the main program had come to.
ISR(TIMER0_OVF_vect) {
  if (GPIOR0 & 1) PINB = _BV(1);
  if (GPIOR0 & 2) PINB = _BV(2);
  TIMSK0 = 0;
}

int main(void) {
  DDRB = 7;
  // Timer 0 has overflowed long before interrupts are enabled.
  TCCR0B = _BV(CS00);
  TIMSK0 = _BV(TOIE0);
  for (uint8_t i = 0; i < 200; ++i) asm volatile("nop");
  asm volatile("sei\n sbi %0, 0\n sbi %0, 1" : : "I"(_SFR_IO_ADDR(GPIOR0)));
  OCR1A = 20;
  TIMSK1 = _BV(OCIE1A);
  TCCR1B = _BV(CS12) | _BV(CS10);
#ifdef AWAKE
  for (;;) {
  }
#else
  for (;;) sleep_mode();
#endif
}
