import { bench, describe } from 'vitest';
import { keptBoard } from '../keeper/firmware/kept-board.ts';
import { openKeptShed } from '../keeper/kept-shed.ts';
import { quickFarm } from '../keeper/quick-farm.ts';
import { START } from '../support/plant.ts';

/**
 * The compiled firmware, faster than the world. The milliseconds are of one machine; the lines that it prints
 * set them against the time that passed in the shed. Aims: a day of the board alone within 2 s, an hour of the whole host
 * and the firmware under one clock within 10 s.
 */
const DAY_SECONDS = 86_400;
const HOUR_SECONDS = 3600;
const SELDOM = { iterations: 3, time: 0, warmupIterations: 1, warmupTime: 0 };

interface Passed {
  readonly simulatedSeconds: number;
  readonly realSeconds: number;
  readonly instructions: number;
}
/** The fastest of each. */
const best = new Map<string, Passed>();
const measured = async (
  name: string,
  simulatedSeconds: number,
  run: () => Promise<number> | number,
): Promise<void> => {
  const began = performance.now();
  const instructions = await run();
  const realSeconds = (performance.now() - began) / 1000;
  if (realSeconds < (best.get(name)?.realSeconds ?? Infinity)) {
    best.set(name, { simulatedSeconds, realSeconds, instructions });
  }
};

const tell = (name: string): void => {
  const { simulatedSeconds, realSeconds, instructions } = best.get(name)!;
  const times = Math.round(simulatedSeconds / realSeconds).toLocaleString('en');
  const aDay = ((instructions / simulatedSeconds) * DAY_SECONDS) / 1e6;
  process.stdout.write(`${name}: ${times} times real time, ${aDay.toFixed(0)} million instructions a day\n`);
};
const told = (name: string): typeof SELDOM & { readonly teardown: () => void } => ({
  ...SELDOM,
  teardown: () => {
    tell(name);
  },
});

describe('the compiled firmware against real time', () => {
  bench(
    'the board alone for 24 h',
    () =>
      measured('the board alone', DAY_SECONDS, () => {
        const board = keptBoard();
        board.pass(DAY_SECONDS);
        return board.chip.tally().instructions;
      }),
    told('the board alone'),
  );
  bench(
    'host, board and plant under one clock for 1 h',
    () =>
      measured('host, board and plant', HOUR_SECONDS, async () => {
        const shed = openKeptShed({
          farm: quickFarm(),
          startMillis: START,
          days: 1,
          seed: 1,
          resetsOnOpen: false,
        });
        const host = shed.startHost();
        await shed.pass(HOUR_SECONDS);
        host.kill();
        return shed.board.chip.tally().instructions;
      }),
    told('host, board and plant'),
  );
});
