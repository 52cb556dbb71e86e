/**
 * The program on the board that takes a new one over the serial line. Old ones (ATmegaBOOT, on most boards of the Nano
 * kind made before 2018 and many after) leave the watchdog running after it has reset the board: it resets the board
 * again before any program starts, for ever, until power is cut. Source: github arduino/ArduinoCore-avr, thread 150,
 * and bootloaders/atmega/ATmegaBOOT_168.c without WATCHDOG_MODS. Optiboot goes on with the program after such a reset.
 */
export type Bootloader = 'old' | 'new';

/** Of a port, small letters. */
export interface UsbIds {
  readonly vendor: string;
  readonly product: string;
}

export interface Flashing {
  readonly bootloader: Bootloader;
  /** Bits a second at which it listens: github arduino/ArduinoCore-avr, boards.txt, upload.speed. */
  readonly baud: number;
  readonly watchdog: 'on' | 'off';
}

export const FLASHING: Readonly<Record<Bootloader, Flashing>> = {
  old: { bootloader: 'old', baud: 57_600, watchdog: 'off' },
  new: { bootloader: 'new', baud: 115_200, watchdog: 'on' },
};

/** Boards of the Uno kind have come with Optiboot from the first: boards.txt, `uno`. */
const UNO_IDS: readonly string[] = ['2341:0043', '2341:0001', '2341:0243', '2341:006a', '2a03:0043'];

/** How a board with these ids is flashed when nobody said; null when that cannot be known. */
export const flashingOfIds = (ids: UsbIds | null): Flashing | null =>
  ids !== null && UNO_IDS.includes(`${ids.vendor}:${ids.product}`) ? FLASHING.new : null;

/** What nobody can tell from outside, and how a person finds out. */
export const BOOTLOADER_QUESTION = [
  'Which bootloader does this board have, old or new? Its USB port does not tell, and it matters: on an old one a reset by the watchdog never ends until power is cut, and the plants get no water.',
  'Add --bootloader new to try: nothing is written when the board is an old one, since that does not answer at this speed. If it does not answer, add --bootloader old: it is flashed without its watchdog.',
].join('\n');

/** What is lost on an old bootloader, and the ways to have it back. */
export const WITHOUT_WATCHDOG = [
  'This board is flashed WITHOUT its watchdog, since its bootloader cannot live with one. If its program ever hangs, nothing ends that: a pump that runs may run on, one that rests may rest for ever. A computer on its line notices within seconds and tells; without one nobody does.',
  'To have the watchdog: take a board with the new bootloader (Optiboot; an Uno, or a Nano sold with it), or put Optiboot on this one with a programmer, and flash again with --bootloader new.',
].join('\n');

/** What the bootloader itself says: avrdude -v, "Firmware Version" or "FW Version". Null when it says nothing. */
export const bootloaderIn = (
  output: string,
): { readonly says: string; readonly bootloader: Bootloader } | null => {
  const [, major, minor] = /\b(?:Firmware|FW) Version\s*:\s*(\d+)\.(\d+)/.exec(output) ?? [];
  if (major === undefined || minor === undefined) return null;
  // ATmegaBOOT says 1.16 (ATmegaBOOT_168.c, SW_MAJOR). Optiboot says its own version, 3 or later (optiboot.c).
  return { says: `${major}.${minor}`, bootloader: Number(major) >= OPTIBOOT_FIRST ? 'new' : 'old' };
};

const OPTIBOOT_FIRST = 3;
