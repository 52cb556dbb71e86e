import type { HostHealth } from '../../src/ports/host-health.ts';
import type { MonotonicMillis } from '../../src/time/instant.ts';
import type { BoardLink } from '../devices/board-link.ts';

export type BoardClockWatch = (
  board: Pick<BoardLink, 'keeperState'>,
  now: MonotonicMillis,
) => NonNullable<HostHealth['boardClock']> | null;

/**
 * What the host tells of the board's clock: nothing while it goes well, and since when it does not. A drift that was seen
 * stands until the clock has been seen to go well: after a reset of the board, or while it is away, nobody can tell.
 */
export const boardClockWatch = (): BoardClockWatch => {
  let told: ReturnType<BoardClockWatch> = null;
  return (board, now) => {
    const found = board.keeperState()?.drift ?? null;
    if (found === null) return told;
    told = found.level === 'well' ? null : { percentFast: found.percent, since: told?.since ?? now };
    return told;
  };
};
