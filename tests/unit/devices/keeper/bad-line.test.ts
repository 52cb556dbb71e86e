import { describe, expect, it } from 'vitest';
import { seededDice } from '../../../../sim/dice.ts';
import type { PumpCommand } from '../../../../src/ports/board.ts';
import { seconds } from '../../../../src/units/quantity.ts';
import { asU16 } from './board-side.ts';
import { HEARTBEAT, HOLD, LET_GO, PUMP, TABLE, TABLE_PUT } from './keeper-stub.ts';
import { AT_ONCE, linkBench, type Carried, type LinkBench } from './link-bench.ts';

/** Types that carry an epoch of a claim. */
const ORDERS: readonly number[] = [HEARTBEAT, PUMP, HOLD, TABLE_PUT, LET_GO];
const SEEDS = 120;
const BAD_SECONDS = 180;
const HEALED_SECONDS = 3;
/** From a line that has just been lost: hand-shake, the 2 s that a loss lasts, and a keeper's turn. */
const UP_SECONDS = 15;

/** Loses, repeats and delays whole frames; now and then it carries nothing at all for some seconds. */
const badLine = (dice: () => number, now: () => number): Carried => {
  const losses = dice() * 0.3;
  const repeats = dice() * 0.2;
  const late = dice() * 0.2;
  let silentUntil = 0;
  return () => {
    if (dice() < 0.005) silentUntil = now() + dice() * 2500;
    if (now() < silentUntil || dice() < losses) return [];
    const millis = dice() < late ? 5 + dice() * 2500 : 1 + dice() * 20;
    return dice() < repeats ? [millis, millis + dice() * 4000] : [millis];
  };
};

const command = (wanted: 'on' | 'off'): PumpCommand =>
  wanted === 'on' ? { kind: 'pump-on', longest: seconds(1500) } : { kind: 'pump-off' };

/** What always holds, whatever the line does. */
const expectLawful = ({ written, ticked }: LinkBench): void => {
  const orders = written.filter(({ type }) => ORDERS.includes(type));
  expect(orders.filter(({ body, claimed }) => asU16(body, 0) !== claimed)).toEqual([]);
  const beats = written.filter(({ type }) => type === HEARTBEAT).map(({ at }) => at);
  expect(new Set(beats).size).toBe(beats.length);
  expect(beats.filter((at) => !ticked.includes(at))).toEqual([]);
};

const lived = (seed: number): LinkBench => {
  const dice = seededDice(seed);
  const bench = linkBench(
    { shortestOff: 0 },
    { table: () => Uint8Array.from([...TABLE.slice(0, -2), 0xb1, 4]) },
    'reopening',
  );
  bench.line.toBoard = badLine(dice, bench.now);
  bench.line.toHost = badLine(dice, bench.now);
  bench.pass(BAD_SECONDS, 'ticks', () => {
    if (dice() < 0.005) bench.stub.takeBack(3);
    if (dice() < 0.05) bench.link().command(command(dice() < 0.5 ? 'on' : 'off'));
  });
  return bench;
};

const SEED_LIST = Array.from({ length: SEEDS }, (_, seed) => seed);
const runs = SEED_LIST.map(lived);
const timesTold = (kind: string): number =>
  runs.reduce((sum, { told }) => sum + told.filter((one) => one.kind === kind).length, 0);

describe(`${SEEDS} lines that lose up to 30 %, repeat up to 20 % and delay frames for 3 min`, () => {
  it('bring no order with an epoch that was not claimed, and no heartbeat without a completed tick', () => {
    runs.forEach(expectLawful);
  });

  it('are lines on which much goes wrong: most come up, the pump and the line are lost often, and frames come twice', () => {
    const ups = runs.filter(({ told }) => told.some(({ kind }) => kind === 'up'));
    expect(ups.length).toBeGreaterThan(SEEDS / 2);
    expect(timesTold('lost')).toBeGreaterThan(SEEDS / 4);
    expect(timesTold('down')).toBeGreaterThan(SEEDS / 4);
    const seen = runs.flatMap(({ stub }) => stub.heard);
    const commands = seen
      .filter(({ type }) => type === PUMP)
      .map(({ seq, body }) => `${seq} ${body.join(' ')}`);
    expect(new Set(commands).size).toBeLessThan(commands.length);
  });

  it.each(SEED_LIST)(
    `seed %d: healed, the link is up, and the pump does what was asked last within ${HEALED_SECONDS} s`,
    (seed) => {
      const bench = lived(seed);
      bench.line.toBoard = AT_ONCE;
      bench.line.toHost = AT_ONCE;
      bench.pass(UP_SECONDS);
      expect(bench.isUp()).toBe(true);
      const { stub } = bench;
      for (const asked of ['on', 'off', 'on'] as const) {
        // Nothing of it gets through for a while; then the line heals.
        bench.line.toBoard = (frame) => (frame[2] === PUMP ? [] : [1]);
        bench.link().command(command(asked));
        bench.pass(5);
        bench.line.toBoard = AT_ONCE;
        bench.pass(HEALED_SECONDS);
        expect(stub.state.pump === null ? 'off' : 'on').toBe(asked);
      }
      expectLawful(bench);
    },
  );
});
