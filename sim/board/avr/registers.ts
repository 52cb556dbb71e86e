/** Cycles a second of the crystal beside the chip. */
export const CLOCK_HZ = 16_000_000;
export const FLASH_BYTES = 32_768;
export const FLASH_WORDS = FLASH_BYTES / 2;
export const EEPROM_BYTES = 1024;
export const SRAM_BYTES = 2048;
/** Where the SRAM begins, behind the working registers and the I/O space. */
export const SRAM_START = 0x100;
/** Working registers r0 to r31 lie at the bottom of the data space. */
export const WORKING_REGISTERS = 32;

/** Places in the data space (ATmega328P data sheet, "Register Summary"). */
export const IO = {
  PINB: 0x23,
  DDRB: 0x24,
  PORTB: 0x25,
  PINC: 0x26,
  DDRC: 0x27,
  PORTC: 0x28,
  PIND: 0x29,
  DDRD: 0x2a,
  PORTD: 0x2b,
  TIFR0: 0x35,
  TIFR1: 0x36,
  TIFR2: 0x37,
  PCIFR: 0x3b,
  EIFR: 0x3c,
  EIMSK: 0x3d,
  EECR: 0x3f,
  EEDR: 0x40,
  EEARL: 0x41,
  EEARH: 0x42,
  GTCCR: 0x43,
  TCCR0A: 0x44,
  TCCR0B: 0x45,
  TCNT0: 0x46,
  OCR0A: 0x47,
  OCR0B: 0x48,
  SPCR: 0x4c,
  ACSR: 0x50,
  SMCR: 0x53,
  MCUSR: 0x54,
  MCUCR: 0x55,
  SPMCSR: 0x57,
  SREG: 0x5f,
  WDTCSR: 0x60,
  CLKPR: 0x61,
  PRR: 0x64,
  PCICR: 0x68,
  EICRA: 0x69,
  PCMSK0: 0x6b,
  PCMSK1: 0x6c,
  PCMSK2: 0x6d,
  TIMSK0: 0x6e,
  TIMSK1: 0x6f,
  TIMSK2: 0x70,
  ADCL: 0x78,
  ADCH: 0x79,
  ADCSRA: 0x7a,
  ADCSRB: 0x7b,
  ADMUX: 0x7c,
  TCCR1A: 0x80,
  TCCR1B: 0x81,
  TCNT1L: 0x84,
  ICR1L: 0x86,
  OCR1AL: 0x88,
  OCR1BL: 0x8a,
  TCCR2A: 0xb0,
  TCCR2B: 0xb1,
  TCNT2: 0xb2,
  OCR2A: 0xb3,
  OCR2B: 0xb4,
  ASSR: 0xb6,
  TWCR: 0xbc,
  UCSR0A: 0xc0,
  UCSR0B: 0xc1,
  UCSR0C: 0xc2,
  UBRR0L: 0xc4,
  UBRR0H: 0xc5,
  UDR0: 0xc6,
} as const;

/** Numbers of the interrupts, reset being 0 (data sheet, "Interrupt Vectors in ATmega328P", which counts from 1). */
export const VECTOR = {
  INT0: 1,
  INT1: 2,
  PCINT0: 3,
  PCINT1: 4,
  PCINT2: 5,
  WDT: 6,
  TIMER2_COMPA: 7,
  TIMER2_COMPB: 8,
  TIMER2_OVF: 9,
  TIMER1_COMPA: 11,
  TIMER1_COMPB: 12,
  TIMER1_OVF: 13,
  TIMER0_COMPA: 14,
  TIMER0_COMPB: 15,
  TIMER0_OVF: 16,
  USART_RX: 18,
  USART_UDRE: 19,
  USART_TX: 20,
  ADC: 21,
  EE_READY: 22,
} as const;

/** Bits of MCUSR (data sheet, "MCU Status Register"). */
export const MCUSR_BIT = { 'power-on': 1, external: 2, 'brown-out': 4, watchdog: 8 } as const;
export type ResetCause = keyof typeof MCUSR_BIT;
