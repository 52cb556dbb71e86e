import type { Kept } from '../../../src/ports/board.ts';
import { afterSeconds } from '../../../src/time/instant.ts';
import type { Heard } from './heard.ts';
import type { LogMemory } from './log-memory.ts';
import type { KeeperStatus } from './status.ts';

/** Whether the board allows nothing but sips: docs/board-protocol.md, "Tank low", "Leak and overflow". */
const allowsSips = ({ flags, seen }: KeeperStatus): boolean => {
  const hasEvidence = seen.waterBack !== null || seen.pumpCurrent !== null;
  // With nothing fitted that could tell, a hand test may let floods run.
  const tankForbids = flags.tankLow && (hasEvidence || flags.handTestAsked);
  return tankForbids || (seen.leak === true && seen.overflow === true);
};

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
            sip: allowsSips(status),
          }
        : null,
    lastFlood:
      lastFlood === null
        ? null
        : { startedAt: afterSeconds(at, -lastFlood.startedSecondsAgo), seconds: lastFlood.ranSeconds },
    holdUntil: holdSecondsLeft > 0 ? afterSeconds(at, holdSecondsLeft) : null,
  };
};
