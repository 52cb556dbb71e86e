#include "line.h"

#include <avr/interrupt.h>
#include <avr/io.h>
#include "clock.h"

namespace {
// A write to the EEPROM keeps the main loop busy for as long as 1500 bytes take; a host sends far fewer in that time.
constexpr uint8_t CAME = 128;
constexpr uint8_t GOES = 64;
// 57 600 baud at 16 MHz with the doubled rate: 2.1 % off by the nearest whole number of the plain one, 0.8 % here.
constexpr uint16_t RATE = 34;

uint8_t came[CAME];
volatile uint8_t cameIn = 0;
volatile uint8_t cameOut = 0;
uint8_t goes[GOES];
volatile uint8_t goesIn = 0;
volatile uint8_t goesOut = 0;
volatile uint16_t lost = 0;

uint8_t nextCame(uint8_t at) { return static_cast<uint8_t>(at + 1) & (CAME - 1); }
uint8_t nextGoes(uint8_t at) { return static_cast<uint8_t>(at + 1) & (GOES - 1); }
bool hasRoom() { return nextGoes(goesIn) != goesOut; }
}  // namespace

ISR(USART_RX_vect) {
  const bool overrun = (UCSR0A & _BV(DOR0)) != 0;
  const uint8_t byte = UDR0;
  const uint8_t after = nextCame(cameIn);
  uint8_t gone = overrun ? 1 : 0;
  if (after == cameOut) {
    ++gone;
  } else {
    came[cameIn] = byte;
    cameIn = after;
  }
  lost = static_cast<uint16_t>(lost + gone);
}

ISR(USART_UDRE_vect) {
  UDR0 = goes[goesOut];
  goesOut = nextGoes(goesOut);
  if (goesOut == goesIn) UCSR0B = static_cast<uint8_t>(UCSR0B & ~_BV(UDRIE0));
}

namespace line {

void begin() {
  UCSR0A = _BV(U2X0);
  UBRR0 = RATE;
  UCSR0C = _BV(UCSZ01) | _BV(UCSZ00);
  UCSR0B = _BV(RXEN0) | _BV(TXEN0) | _BV(RXCIE0);
}

bool waits() { return cameIn != cameOut; }

uint8_t read() {
  const uint8_t byte = came[cameOut];
  cameOut = nextCame(cameOut);
  return byte;
}

void write(uint8_t byte) {
  while (!hasRoom()) clock::sleepUnless(hasRoom);
  goes[goesIn] = byte;
  cli();
  goesIn = nextGoes(goesIn);
  UCSR0B |= _BV(UDRIE0);
  sei();
}

uint16_t lostBytes() {
  cli();
  const uint16_t now = lost;
  sei();
  return now;
}

}  // namespace line
