// Sleeps; three timers, the converter, the line and pins wake it, and each interrupt shows on a pin.
#include <avr/interrupt.h>
#include <avr/sleep.h>
#include "serial.h"

ISR(TIMER0_COMPA_vect) { PINB = _BV(0); }
ISR(TIMER1_COMPA_vect) {
  OCR1A += 15625;
  PINB = _BV(1);
  ADCSRA |= _BV(ADSC);
}
ISR(TIMER1_COMPB_vect) {
  OCR1B += 977;
  PINB = _BV(2);
}
ISR(TIMER1_OVF_vect) { PINB = _BV(3); }
ISR(TIMER2_OVF_vect) { PINB = _BV(4); }
ISR(ADC_vect) {
  PINB = _BV(5);
  UDR0 = ADCH;
}
ISR(USART_TX_vect) { PIND = _BV(4); }
ISR(PCINT2_vect) { PIND = _BV(5); }

int main(void) {
  DDRB = 0x3F;
  DDRD = _BV(4) | _BV(5);
  serial_begin();
  UCSR0B |= _BV(TXCIE0);
  TCCR0A = _BV(WGM01);
  OCR0A = 233;
  TIMSK0 = _BV(OCIE0A);
  TCCR0B = _BV(CS02);
  OCR1A = 15625;
  OCR1B = 977;
  TIMSK1 = _BV(OCIE1A) | _BV(OCIE1B) | _BV(TOIE1);
  TCCR1B = _BV(CS12) | _BV(CS10);
  TIMSK2 = _BV(TOIE2);
  TCCR2B = _BV(CS22) | _BV(CS21) | _BV(CS20);
  ADMUX = _BV(REFS0) | _BV(ADLAR) | 3;
  ADCSRA = _BV(ADEN) | _BV(ADIE) | 7;
  PCMSK2 = _BV(2);
  PCICR = _BV(PCIE2);
  set_sleep_mode(SLEEP_MODE_IDLE);
  sei();
  for (;;) sleep_mode();
}
