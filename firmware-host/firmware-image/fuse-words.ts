/**
 * What the fuses of the board mean: ATmega328P data sheet, "Fuse Bits". A programmed bit reads 0. They cannot be
 * changed over USB, only told.
 */
export interface Fuses {
  readonly low: number;
  readonly high: number;
  readonly extended: number;
  readonly lock: number;
}

/** What was found, and whether it is as this project wants it. */
export interface FuseFinding {
  readonly name: 'brown-out' | 'clock' | 'erase' | 'bootloader';
  readonly says: string;
  readonly verdict: 'well' | 'warning';
}

const isProgrammed = (byte: number, bit: number): boolean => (byte & (1 << bit)) === 0;

/** "BODLEVEL Fuse Coding". */
const BROWN_OUT: Readonly<Record<number, string>> = { 7: 'off', 6: 'at 1.8 V', 5: 'at 2.7 V', 4: 'at 4.3 V' };
const BEST_BROWN_OUT = 4;

const brownOut = ({ extended }: Fuses): FuseFinding => {
  const level = extended & 7;
  const found = BROWN_OUT[level] ?? 'at a reserved level';
  if (level === BEST_BROWN_OUT)
    return { name: 'brown-out', says: `Brown-out reset ${found}.`, verdict: 'well' };
  return {
    name: 'brown-out',
    says: `Brown-out reset ${found}. At 16 MHz the chip wants 4.5 V: on a failing supply it may do anything before it resets. A programmer sets 4.3 V; else give the board a good supply.`,
    verdict: 'warning',
  };
};

const clock = ({ low }: Fuses): FuseFinding =>
  isProgrammed(low, 7)
    ? {
        name: 'clock',
        says: 'The clock is divided by eight (CKDIV8): every time of this board would be wrong. Take another board, or clear the fuse with a programmer.',
        verdict: 'warning',
      }
    : { name: 'clock', says: 'Clock not divided (CKDIV8 not set).', verdict: 'well' };

const erase = ({ high }: Fuses): FuseFinding => ({
  name: 'erase',
  says: isProgrammed(high, 3)
    ? 'The stored table outlives a chip erase by a programmer (EESAVE).'
    : 'A chip erase by a programmer also erases the stored table; flashing over USB does not (EESAVE not set).',
  verdict: 'well',
});

/** "Boot Size Configuration": words of the boot section by BOOTSZ1:0. */
const BOOT_WORDS: readonly number[] = [2048, 1024, 512, 256];

const bootloader = ({ high }: Fuses): FuseFinding => {
  if (!isProgrammed(high, 0))
    return {
      name: 'bootloader',
      says: 'No bootloader runs at a reset (BOOTRST not set): this board is flashed with a programmer.',
      verdict: 'well',
    };
  const bytes = 2 * (BOOT_WORDS[(high >> 1) & 3] ?? 0);
  const says = `A bootloader runs at each reset, in a section of ${bytes} bytes`;
  if (bytes >= 4096)
    return {
      name: 'bootloader',
      says: `${says}: it reaches down to the setup, which may then not be readable. Take another board.`,
      verdict: 'warning',
    };
  return {
    name: 'bootloader',
    says: `${says}${bytes === 512 ? ', as Optiboot has it' : '; that fits an old one as well as a new one'}.`,
    verdict: 'well',
  };
};

export const fuseFindings = (fuses: Fuses): readonly FuseFinding[] =>
  [brownOut, clock, erase, bootloader].map((finding) => finding(fuses));
