import { beforeAll, describe, expect, it } from 'vitest';
import { START } from '../../support/plant.ts';
import { openKeptShed } from '../kept-shed.ts';
import { QUICK, quickFarm } from '../quick-farm.ts';
import { BRISK, CYCLES_A_SECOND, keptBoard } from './kept-board.ts';
import { talkWith } from './talk.ts';

/**
 * A ceramic resonator: half a percent, 432 s a day (data sheets of resonators of these boards; the tolerance is from memory,
 * the 432 s are 86 400 s times 0.005).
 */
const SHARE = 0.005;
const DAY_SECONDS = 86_400;
const SLOW_AND_FAST = [
  ['slow', -SHARE],
  ['fast', SHARE],
] as const;

describe('a host with a board whose clock is half a percent off, over six hours', () => {
  const HOURS = 6;
  /** Starts and ends of floods in seconds of the world. */
  const floodsWith = async (clockError: number): Promise<readonly (readonly [number, number])[]> => {
    const shed = openKeptShed({
      farm: quickFarm(),
      startMillis: START,
      days: 1,
      seed: 6,
      resetsOnOpen: false,
      clockError,
    });
    const host = shed.startHost();
    await shed.pass(HOURS * 3600);
    expect(host.link.link().kind).toBe('up');
    expect(shed.board.chip.resets().watchdog).toBe(0);
    host.kill();
    return shed.ran.map(({ from, until }) => [(from - START) / 1000, ((until ?? Infinity) - START) / 1000]);
  };
  let exact: readonly (readonly [number, number])[];
  beforeAll(async () => {
    exact = await floodsWith(0);
  }, 300_000);

  it('floods at least 26 times with a clock that is right', () => {
    const cycleMinutes = QUICK.restMinutes + QUICK.floodMinutes;
    expect(exact.length).toBeGreaterThanOrEqual(Math.floor((HOURS * 60) / cycleMinutes) - 1);
  });
  it.each(SLOW_AND_FAST)(
    '%s: no flood begins or ends more than a minute earlier or later than with a clock that is right',
    async (_, clockError) => {
      const floods = await floodsWith(clockError);
      const apart = floods.map(([from, until], place) => {
        const [begun = NaN, ended = NaN] = exact[place] ?? [];
        return Math.max(Math.abs(from - begun), until === ended ? 0 : Math.abs(until - ended));
      });
      expect(floods.length).toBe(exact.length);
      expect(Math.max(...apart)).toBeLessThan(60);
    },
    300_000,
  );
});

describe('a board alone for a day of the world, half a percent off', () => {
  const FROM_MINUTE = 600;
  const REST = 600;
  const TABLE = {
    ...BRISK,
    parts: [{ fromMinute: 0, restSeconds: REST, coolRestSeconds: REST, floodSeconds: 60 }],
  } as const;
  /** Rests of the pump in seconds of the world, and the seconds that its time of day is ahead. */
  const aloneWith = (clockError: number): { readonly rests: readonly number[]; readonly ahead: number } => {
    const board = keptBoard({ table: TABLE, clockError });
    const worldSeconds = (seconds: number): number => board.chip.millisAt(seconds * CYCLES_A_SECOND) / 1000;
    board.pass(2);
    const talk = talkWith(board);
    const epoch = talk.claim();
    talk.beat(epoch, FROM_MINUTE);
    const setAt = board.chip.nowMillis() / 1000;
    talk.ask({ kind: 'let-go', epoch });
    board.chip.advanceTo(board.chip.cycleAt((setAt + DAY_SECONDS - 900) * 1000));
    // The status tells whole minutes: the moment at which one begins tells the second.
    const minute = (): number => talk.status().minuteOfDay!;
    const before = minute();
    while (minute() === before) board.pass(0.25);
    const passed = board.chip.nowMillis() / 1000 - setAt;
    const told = ((before + 1 - FROM_MINUTE + 1440) % 1440) * 60;
    const ended = board.ran.filter(({ until }) => until < Infinity);
    return {
      rests: ended.slice(1).map(({ from }, place) => worldSeconds(from) - worldSeconds(ended[place]!.until)),
      ahead: ((told - passed) * DAY_SECONDS) / passed,
    };
  };

  it.each(SLOW_AND_FAST)('%s: its time of day is 432 s off after 24 h, within 5 s', (_, clockError) => {
    const { ahead } = aloneWith(clockError);
    expect(Math.abs(ahead - DAY_SECONDS * clockError)).toBeLessThan(5);
  });
  it.each(SLOW_AND_FAST)(
    '%s: each rest of 600 s is 3 s off, half a percent, within 0.05 s',
    (_, clockError) => {
      const { rests } = aloneWith(clockError);
      expect(rests.length).toBeGreaterThan(120);
      for (const rest of rests) expect(Math.abs(rest - REST / (1 + clockError))).toBeLessThan(0.05);
    },
  );
});
