// Bytes into the EEPROM, one for each that it hears, from address 5 on; and what the chip tells of itself.
#include <avr/boot.h>
#include <avr/eeprom.h>
#include <avr/interrupt.h>
#include <avr/pgmspace.h>
#include "serial.h"

static const uint8_t in_flash[] PROGMEM = {0x5A};

int main(void) {
  serial_begin();
  uint8_t* to = (uint8_t*)5;
  for (;;) {
    const uint8_t byte = heard();
    if (byte == 'F') {
      say(boot_lock_fuse_bits_get(GET_LOW_FUSE_BITS));
      say(boot_lock_fuse_bits_get(GET_HIGH_FUSE_BITS));
      say(boot_lock_fuse_bits_get(GET_EXTENDED_FUSE_BITS));
      say(boot_lock_fuse_bits_get(GET_LOCK_BITS));
      // The first bytes of the flash, and the window when it is over.
      say(pgm_read_byte(0));
      SPMCSR = _BV(BLBSET) | _BV(SPMEN);
      asm volatile("nop\n nop\n nop\n");
      say(pgm_read_byte(3));
      say(pgm_read_byte(in_flash));
      continue;
    }
    eeprom_write_byte(to, byte);
    say(EECR & _BV(EEPE));
    eeprom_busy_wait();
    say(eeprom_read_byte(to));
    ++to;
  }
}
