import { assert } from '../../../src/units/assertion.ts';
import type { Machine } from './machine.ts';
import { IO } from './registers.ts';

/** Bits that would switch on, or off, what this chip does not emulate: better a loud stop than a silent difference. */
const REFUSED: readonly { readonly address: number; readonly bits: number; readonly what: string }[] = [
  { address: IO.SPCR, bits: 0x40, what: 'SPI' },
  { address: IO.TWCR, bits: 0x04, what: 'the two-wire interface' },
  { address: IO.ACSR, bits: 0x08, what: 'interrupts of the analog comparator' },
  { address: IO.ASSR, bits: 0x20, what: 'timer 2 on a clock of its own' },
  { address: IO.MCUCR, bits: 0x02, what: 'interrupt vectors in the boot section' },
  // All but SPI and two-wire, which may be shut down since they are not there.
  { address: IO.PRR, bits: 0x6b, what: 'shutting down timers, USART or converter' },
  { address: IO.CLKPR, bits: 0x0f, what: 'a divided clock' },
];

export const refuseNotEmulated = ({ onWrite, put }: Machine): void => {
  for (const { address, bits, what } of REFUSED)
    onWrite(address, (value) => {
      assert((value & bits) === 0, `not emulated: ${what}`);
      put(address, value);
    });
};
