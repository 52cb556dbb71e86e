import type { BoardPeer } from '../../sim/board/board-peer.ts';
import type { Usb } from '../../sim/board/firmata/usb.ts';
import { absentUntil, isPlugged, nextHostChange } from '../../sim/campaign/host-life.ts';
import type { Script } from '../../sim/campaign/script.ts';
import type { MonotonicMillis } from '../../src/time/instant.ts';
import { monotonicMillis } from '../../src/time/instant.ts';
import type { VirtualTime } from '../virtual-time.ts';

export const PORT = 'campaign';

/** The world of a run in which the script pulls the cable and resets the board. */
export interface BrokenLine {
  /** Lets time pass up to `untilMillis`, or to the next moment at which something begins or ends for host or line. */
  readonly advance: (untilMillis: number) => void;
}

/**
 * A board on a cable from which it has its power: without the cable, or while its host has no power, its relay rests.
 */
export const brokenLine = (
  script: Script,
  time: VirtualTime,
  usb: Usb<BoardPeer>,
  board: BoardPeer,
  serialNumber: string | undefined,
): BrokenLine => {
  const at = (): MonotonicMillis => time.timers.now();
  let isIn = false;
  const move = (): void => {
    const wanted = isPlugged(script, at()) && absentUntil(script, at())?.kind !== 'host-killed';
    if (wanted && !isIn) usb.plug(PORT, board, serialNumber);
    if (!wanted && isIn) {
      usb.unplug(PORT);
      board.reset(at());
    }
    isIn = wanted;
    if (script.host.some(({ kind, fromMillis }) => kind === 'board-reset' && fromMillis === at())) {
      board.reset(at());
      usb.look();
    }
  };
  move();
  return {
    advance: (untilMillis) => {
      time.advance(monotonicMillis(Math.min(untilMillis, nextHostChange(script, at()))));
      move();
    },
  };
};
