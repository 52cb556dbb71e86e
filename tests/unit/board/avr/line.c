// Sends back what it hears, by interrupts; the control register is written before the status register. A byte 'z'
// makes it deaf for 3 ms; then it tells how many bytes were lost.
#include <avr/interrupt.h>
#include <avr/sleep.h>
#include <util/delay.h>
#include "serial.h"

static volatile uint8_t ring[64], in, out, lost, deaf;

ISR(USART_RX_vect) {
  if (UCSR0A & _BV(DOR0)) ++lost;
  const uint8_t byte = UDR0;
  if (byte == 'z') deaf = 1;
  ring[in++ % 64] = byte;
  UCSR0B |= _BV(UDRIE0);
}
ISR(USART_UDRE_vect) {
  UDR0 = ring[out++ % 64];
  if (out == in) UCSR0B &= ~_BV(UDRIE0);
}

int main(void) {
  UCSR0B = _BV(RXEN0) | _BV(TXEN0) | _BV(RXCIE0);
  UBRR0 = RATE;
  UCSR0C = _BV(UCSZ01) | _BV(UCSZ00);
  UCSR0A = _BV(U2X0);
  sei();
  for (;;) {
    sleep_mode();
    if (deaf) {
      deaf = 0;
      cli();
      _delay_ms(3);
      sei();
      _delay_ms(3);
      cli();
      ring[in++ % 64] = lost;
      UCSR0B |= _BV(UDRIE0);
      sei();
    }
  }
}
