import { assert } from '../../../src/units/assertion.ts';
import type { BoardPeer, BoardTally } from '../board-peer.ts';
import type { Bootloader } from './bootloader.ts';
import { createChip, type Chip, type ChipSetup } from './chip.ts';

export interface EmulatedBoardSetup extends Omit<ChipSetup, 'bootloader' | 'onSent'> {
  /** Whether opening the port resets the board, as most do; true unless said otherwise. */
  readonly resetsOnOpen?: boolean;
  /** The bootloader waits so long for an upload after power-on and after an external reset. */
  readonly bootMillis?: number;
  /** Old bootloaders wait after a watchdog reset too; 0 unless given. */
  readonly bootMillisAfterWatchdog?: number;
  readonly bootloaderLeaves?: Bootloader['leaves'];
}

export interface EmulatedBoardTally extends BoardTally {
  /** Sent while the port was closed, or more than the adapter could keep. */
  readonly lostToHostBytes: number;
}

/** A chip that carries out compiled firmware, with the USB serial adapter of its board. */
export interface EmulatedBoard extends BoardPeer {
  readonly chip: Chip;
  /** Power from elsewhere than the port. */
  readonly powerOn: (now: number) => void;
  readonly powerOff: (now: number) => void;
  readonly tally: () => EmulatedBoardTally;
}

/** From a reset until the firmware starts: the bootloader waits for an upload first. Common practice, no source. */
const BOOT_MILLIS = 1600;
/** Bytes that wait for the host to fetch them; the order of an operating system's serial buffer. */
const FOR_HOST_MAX = 4096;
/** How finely a board is looked at that has something to do at once. */
const STEP_MILLIS = 1;

/** The emulated board. It has no power until its port is opened, or `powerOn` is called. */
export const createEmulatedBoard = (setup: EmulatedBoardSetup): EmulatedBoard => {
  const { resetsOnOpen = true, bootMillis = BOOT_MILLIS, bootMillisAfterWatchdog = 0 } = setup;
  let port: 'open' | 'closed' = 'closed';
  let forHost: number[] = [];
  let lostToHostBytes = 0;
  let latest = -Infinity;
  const chip = createChip({
    ...setup,
    bootloader: {
      waitMillis: { 'power-on': bootMillis, external: bootMillis, watchdog: bootMillisAfterWatchdog },
      leaves: setup.bootloaderLeaves ?? 'all-as-found',
    },
    onSent: (byte) => {
      if (port === 'open' && forHost.length < FOR_HOST_MAX) forHost.push(byte);
      else lostToHostBytes += 1;
    },
  });

  const advance = (now: number): void => {
    assert(now >= latest, `time ran backwards from ${latest} to ${now} ms`);
    latest = now;
    chip.advanceTo(chip.cycleAt(now));
    chip.refreshInputs();
  };
  const at = (now: number, act: () => void): void => {
    advance(now);
    act();
  };
  const forget = (): void => {
    lostToHostBytes += forHost.length;
    forHost = [];
  };

  return {
    chip,
    powerOn: (now) => {
      at(now, chip.powerOn);
    },
    powerOff: (now) => {
      at(now, chip.powerOff);
    },
    open: (now) => {
      advance(now);
      forget();
      port = 'open';
      if (chip.state() === 'off') chip.powerOn();
      else if (resetsOnOpen) chip.reset('external');
    },
    close: (now) => {
      advance(now);
      forget();
      port = 'closed';
    },
    reset: (now) => {
      at(now, () => {
        chip.reset('external');
      });
    },
    receive: (bytes, now) => {
      advance(now);
      chip.send(bytes);
    },
    advance,
    take: () => {
      const taken = Uint8Array.from(forHost);
      forHost = [];
      return taken;
    },
    nextDue: (now) => {
      switch (chip.state()) {
        case 'off':
          return null;
        case 'running':
          return now + STEP_MILLIS;
        case 'held':
        case 'asleep': {
          if (!chip.lineIsQuiet()) return now + STEP_MILLIS;
          const next = chip.nextEventAt();
          return next === null ? null : Math.max(now, Math.ceil(chip.millisAt(next)));
        }
      }
    },
    tally: () => {
      const { unheardBytes, overrunBytes } = chip.tally();
      return { unheardBytes, overrunBytes, lostToHostBytes };
    },
  };
};
