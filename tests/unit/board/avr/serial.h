// Sending by polling, at 57 143 baud.
#pragma once
#include <avr/io.h>

static inline void serial_begin(void) {
  UCSR0A = _BV(U2X0);
  UBRR0 = 34;
  UCSR0B = _BV(RXEN0) | _BV(TXEN0);
}
static inline void say(uint8_t byte) {
  while (!(UCSR0A & _BV(UDRE0))) {
  }
  UDR0 = byte;
}
static inline uint8_t heard(void) {
  while (!(UCSR0A & _BV(RXC0))) {
  }
  return UDR0;
}
