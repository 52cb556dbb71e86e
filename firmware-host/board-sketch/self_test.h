// What the chip can say of itself: cause of the reset, fuses, memory, room on the stack.
#pragma once
#include <stdint.h>

namespace self_test {

// MCUSR as it was at the reset, or as the bootloader handed it on; 0 when nobody knows.
uint8_t resetCause();
// Fuses low, high, extended, and lock bits.
void readFuses(uint8_t* four);
// Writes patterns to every byte of RAM and puts back what was there. Interrupts are off meanwhile.
bool ramHolds();
// Bytes above the static memory that the stack has never touched.
uint16_t stackRoom();

}  // namespace self_test
