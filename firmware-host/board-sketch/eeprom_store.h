// The bytes that outlive a loss of power. A write takes 3.4 ms (ATmega328P data sheet, "EEPROM Data Memory").
#pragma once
#include <avr/eeprom.h>
#include <avr/wdt.h>
#include <stdint.h>

struct EepromStore {
  uint8_t read(uint16_t at) const { return eeprom_read_byte(cell(at)); }
  void write(uint16_t at, uint8_t value) { eeprom_write_byte(cell(at), value); }

 private:
  static uint8_t* cell(uint16_t at) { return reinterpret_cast<uint8_t*>(at); }
};
