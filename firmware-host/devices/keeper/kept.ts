import type { Kept } from '../../../src/ports/board.ts';
import { afterSeconds } from '../../../src/time/instant.ts';
import type { Heard } from './heard.ts';
import type { LogMemory } from './log-memory.ts';

/** What a host is told of the time in which the pump was not its own. */
export const keptOf = ({ status, at }: Heard, { runs, forgotten }: LogMemory): Kept => {
  const { pump, lastFlood, holdSecondsLeft } = status;
  return {
    runs,
    forgotten,
    running:
      pump.asked === 'on'
        ? {
            startedAt: afterSeconds(at, -(pump.secondsSince ?? 0)),
            until: afterSeconds(at, pump.secondsLeft),
          }
        : null,
    lastFlood:
      lastFlood === null
        ? null
        : { startedAt: afterSeconds(at, -lastFlood.startedSecondsAgo), seconds: lastFlood.ranSeconds },
    holdUntil: holdSecondsLeft > 0 ? afterSeconds(at, holdSecondsLeft) : null,
  };
};
