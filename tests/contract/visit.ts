import { expect, it } from 'vitest';
import { createBoardLink, type BoardLink, type LinkAsked } from '../../firmware-host/devices/board-link.ts';
import { setupBlock } from '../../src/farm/keeper-setup.ts';
import type { Channel, Sample } from '../../src/ports/sample.ts';
import { until, type Bench } from './bench.ts';
import { benchFarm, SERIAL_NUMBER, wiringWith, type BenchBoard, type BoardAsked } from './bench-board.ts';

const TICK_MILLIS = 1000;

/** A link whose host completes a control tick each second, as the run loop does. */
export interface LivingLink extends BoardLink {
  /** No further tick is completed, as in a host that hangs; the line stays open. */
  readonly stopTicking: () => void;
}

export const living = ({ timers }: Bench, link: BoardLink): LivingLink => {
  const ticks = timers.setInterval(() => {
    link.alive('unknown');
  }, TICK_MILLIS);
  const stopTicking = (): void => {
    timers.clearInterval(ticks);
  };
  return {
    ...link,
    stopTicking,
    close: () => {
      stopTicking();
      return link.close();
    },
  };
};

export const linkOn = (bench: Bench, change: Partial<LinkAsked> = {}): LivingLink => {
  const { wiring = wiringWith(), deadBoard = 'pump-stops' } = change;
  const link = createBoardLink({
    wiring,
    deadBoard,
    use: 'drive',
    keeper: { setup: setupBlock(benchFarm({ deadBoard }), wiring) },
    lines: bench.lines,
    port: 'auto',
    timers: bench.timers,
    ...change,
  });
  return living(bench, link);
};

/** A board that is plugged in and driven. */
export interface Visit<On extends Bench = Bench> {
  readonly bench: On;
  readonly board: ReturnType<On['newBoard']>;
  readonly link: LivingLink;
}

export const up = (bench: Bench, link: BoardLink, secondsMax = 5): Promise<void> =>
  until(bench, 'the link is up', () => link.link().kind === 'up', secondsMax);

export const down = ({ bench, link }: Pick<Visit, 'bench' | 'link'>, secondsMax: number): Promise<void> =>
  until(bench, 'the link is down', () => link.link().kind === 'down', secondsMax);

/** One fact about a board that is plugged in; each has a bench of its own, so that they may wait at the same time. */
export const factsOn =
  <On extends Bench>(openBench: () => Promise<On>) =>
  (
    title: string,
    holds: (visit: Visit<On>) => Promise<void>,
    linkChange: Partial<LinkAsked> = {},
    wires: (board: BenchBoard) => void = () => undefined,
  ): void => {
    it.concurrent(title, async () => {
      const bench = await openBench();
      try {
        const visit = await connected(bench, linkChange, wires);
        await holds(visit);
        await visit.link.close();
        expect(bench.staleBytes()).toBe(0);
      } finally {
        await bench.end();
      }
    });
  };

/** Plugs a board in that was made for what the link wants of it, and waits until its pump may run. */
export const connected = async <On extends Bench>(
  bench: On,
  linkChange: Partial<LinkAsked> = {},
  wires: (board: BenchBoard) => void = () => undefined,
): Promise<Visit<On>> => {
  const { wiring, deadBoard } = linkChange;
  const asked: BoardAsked = {
    ...(wiring === undefined ? {} : { wiring }),
    ...(deadBoard === undefined ? {} : { farm: benchFarm({ deadBoard }) }),
  };
  const board = bench.newBoard(asked) as ReturnType<On['newBoard']>;
  wires(board);
  await bench.plug(bench.ports[0], board.peer, SERIAL_NUMBER);
  const link = linkOn(bench, linkChange);
  await up(bench, link);
  await bench.pass(bench.kind.restsSeconds);
  return { bench, board, link };
};

type Of<Name extends Channel> = Extract<Sample, { channel: Name }>;

/** Waits for a sample of a channel that is so. */
export const told = <Name extends Channel>(
  { bench, link }: Pick<Visit, 'bench' | 'link'>,
  channel: Name,
  so: (sample: Of<Name>) => boolean,
  secondsMax = 5,
): Promise<void> =>
  until(
    bench,
    `a sample of ${channel} that is so`,
    () => link.samples().some((sample) => sample.channel === channel && so(sample as Of<Name>)),
    secondsMax,
  );

/** Waits until a pin stands at this level; a command is said within a second. */
export const pinAt = (visit: Visit, pin: number, level: 0 | 1, secondsMax = 2): Promise<void> =>
  until(visit.bench, `pin ${pin} at ${level}`, () => visit.board.levelOf(pin) === level, secondsMax);

/** Waits and sees the pin at this level all the time. */
export const pinStays = async (
  { bench, board }: Visit,
  pin: number,
  level: 0 | 1,
  forSeconds: number,
): Promise<void> => {
  const changes = board.driven.length;
  await bench.pass(forSeconds);
  const since = board.driven.slice(changes).filter(([driven]) => driven === pin);
  expect([since, board.levelOf(pin)]).toEqual([[], level]);
};
