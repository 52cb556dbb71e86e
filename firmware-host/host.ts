import type { Farm, Wiring } from '../src/farm/farm.ts';
import type { Entry } from '../src/journal/entry.ts';
import type { Clock } from '../src/ports/clock.ts';
import type { Journal } from '../src/ports/journal.ts';
import type { MonotonicMillis } from '../src/time/instant.ts';
import type { BoardLink } from './devices/board-link.ts';
import { STOCK_WARNING } from './devices/identity.ts';
import { run } from './run-loop.ts';
import { statusOf, type LastFlood } from './status-view.ts';
import { readCalibration } from './storage/calibration-file.ts';
import { createStatusKeeper } from './storage/status-file.ts';

export interface HostAsked {
  readonly farm: Farm;
  readonly wiring: Wiring;
  readonly board: BoardLink;
  readonly clock: Clock;
  readonly simulated: boolean;
  readonly folder: string;
  readonly journal: Journal<Entry>;
  readonly until: MonotonicMillis | 'stopped';
  readonly stop: AbortSignal;
  readonly talk: (text: string) => void;
}

/** What becomes of the pump when the host lets go of its board. */
const LEFT: Readonly<Record<Farm['deadBoard'], string>> = {
  'pump-stops':
    'The relay is let go: the pump stands, and nobody floods the benches until the host runs again.',
  'pump-runs': 'The relay is let go: by its normally closed contact the pump now runs without end.',
  'plain-timer': 'The relay is let go: only the plain timer floods the benches now.',
};

/** The whole host on one board: runs the loop, keeps the status file, tells who the board is, and lets go at the end. */
export const host = async (asked: HostAsked): Promise<void> => {
  const { farm, wiring, board, simulated, folder, journal, talk } = asked;
  const stored = await readCalibration(folder);
  if (stored.kind === 'unreadable') {
    talk(`The probe's calibration cannot be read and is not used: ${stored.why}`);
  }
  const calibration = stored.kind === 'found' ? stored.calibration : null;
  const keeper = createStatusKeeper(folder, (why) => {
    talk(`The status cannot be written, and the run goes on without it: ${why}`);
  });
  let last: LastFlood | null = null;
  let toldOf: string | null = null;

  const boardWords = (): string => {
    const found = board.identity();
    if (found === null) {
      const link = board.link();
      return link.kind === 'down' ? link.why : 'up';
    }
    const { firmwareName, firmwareVersion, protocolVersion } = found.board;
    return `${firmwareName} ${firmwareVersion} on ${found.line}, Firmata ${protocolVersion}`;
  };
  const tellBoard = (): void => {
    const found = board.identity();
    if (simulated || found === null || toldOf === found.line) return;
    toldOf = found.line;
    talk(`Board: ${boardWords()}.`);
    talk(STOCK_WARNING);
  };

  try {
    await run({
      ...asked,
      journal: {
        append: (entries) => {
          for (const entry of entries) {
            if (entry.kind === 'verdict') last = { verdict: entry.verdict, at: entry.at };
          }
          journal.append(entries);
        },
      },
      told: (step, now) => {
        tellBoard();
        keeper.keep(() =>
          statusOf({
            farm,
            wiring,
            calibration,
            simulated,
            board: { says: boardWords(), warning: simulated ? null : STOCK_WARNING },
            step,
            last,
            now,
          }),
        );
      },
    });
  } finally {
    await board.close();
    await keeper.settled();
  }
  if (!simulated) talk(LEFT[farm.deadBoard]);
};
