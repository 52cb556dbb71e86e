// The setup that was put into the flash with the program. Layout: docs/board-protocol.md, "Setup".
#pragma once
#include "core/setup.h"
#include "core/table.h"

namespace flash_setup {

// A byte of the setup.
uint8_t byteAt(uint8_t offset);
// False when the board was never set up, or setup or table are spoilt; they are then not to be used.
bool read(keeper::Setup& setup, keeper::Table& table);
// Whether there is a setup at all, good or spoilt.
bool present();
// Whether the program in the flash is the one that was put there.
bool programWhole();

}  // namespace flash_setup
