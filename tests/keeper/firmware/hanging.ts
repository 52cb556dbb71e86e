import { withProgramCrc } from '../../../firmware-host/firmware-image/flash-image.ts';
import { VECTOR } from '../../../sim/board/avr/registers.ts';
import { program } from '../image.ts';

/** RJMP to itself: ATmega328P data sheet, "Instruction Set Summary". */
const FOR_EVER = [0xff, 0xcf] as const;
const VECTOR_BYTES = 4;

/** The committed firmware, but the interrupt never comes back: a board that hangs as soon as it is called. */
export const hangingIn = (interrupt: keyof typeof VECTOR): Uint8Array => {
  const image = program();
  image.set(FOR_EVER, VECTOR[interrupt] * VECTOR_BYTES);
  return withProgramCrc(image);
};
