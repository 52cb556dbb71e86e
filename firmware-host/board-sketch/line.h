// The serial line to the host, 57 600 baud, through two rings. ATmega328P data sheet, "USART0".
#pragma once
#include <stdint.h>

namespace line {

void begin();
bool waits();
// The next byte that came; only when `waits`.
uint8_t read();
void write(uint8_t byte);
// Bytes that found the ring full, or the chip's own buffer.
uint16_t lostBytes();

}  // namespace line
