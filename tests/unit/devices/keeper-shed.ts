import { expect } from 'vitest';
import {
  createBoardLink,
  type BoardLink,
  type LinkAsked,
} from '../../../firmware-host/devices/board-link.ts';
import { virtualTime } from '../../../firmware-host/virtual-time.ts';
import { createUsb, type Usb } from '../../../sim/board/firmata/usb.ts';
import { wiringSchema } from '../../../src/farm/wiring-schema.ts';
import type { Link } from '../../../src/ports/board.ts';
import type { Sample } from '../../../src/ports/sample.ts';
import { monotonicMillis } from '../../../src/time/instant.ts';
import type { Desk } from '../board/desk.ts';
import { keeperBoard, type KeeperBoard } from './keeper-board.ts';
import { stubSetup, type StubState } from './keeper/keeper-stub.ts';

export const RELAY = 7;
export const WIRING = wiringSchema.parse({
  relay: { pin: RELAY },
  buzzer: 5,
  lamp: 6,
  button: 8,
  tankFloat: { pin: 4 },
  mainsPresent: { pin: 9 },
  waterThermistor: { pin: 'A1' },
});

export interface Shed {
  readonly link: BoardLink;
  readonly usb: Usb;
  readonly now: () => number;
  readonly samples: Sample[];
  /** Lets seconds pass, with a completed tick in each unless said otherwise. */
  readonly pass: (seconds: number, ticks?: 'ticks' | 'no-ticks') => Promise<void>;
}

export const shed = (
  plugged: (now: () => number) => Desk,
  asked: Partial<LinkAsked> = {},
): Shed & { board: Desk } => {
  const time = virtualTime(1_000_000);
  const { timers } = time;
  const usb = createUsb(timers);
  const board = plugged(timers.now);
  usb.plug('usb', board.peer);
  const link = createBoardLink({
    wiring: WIRING,
    deadBoard: 'pump-stops',
    use: 'drive',
    keeper: { setup: Uint8Array.from(stubSetup()) },
    lines: usb,
    port: 'usb',
    timers,
    ...asked,
  });
  const samples: Sample[] = [];
  const pass: Shed['pass'] = async (spanSeconds, ticks = 'ticks') => {
    for (let second = 0; second < spanSeconds; second += 1) {
      for (let part = 0; part < 10; part += 1) {
        // The device library finishes some of its work outside of its timers.
        await new Promise(setImmediate);
        time.advance(monotonicMillis(timers.now() + 100));
      }
      samples.push(...link.samples());
      if (ticks === 'ticks') link.alive({ minute: 600, second: second % 60 });
    }
  };
  return { board, link, usb, now: timers.now, samples, pass };
};

export interface KeeperShed extends Shed {
  readonly board: KeeperBoard;
}
export const keeperShed = (change: Partial<StubState> = {}, asked: Partial<LinkAsked> = {}): KeeperShed => {
  let made: KeeperBoard | undefined;
  const made_ = shed((now) => (made = keeperBoard(now, change)), asked);
  return { ...made_, board: made! };
};
export const upShed = async (
  change: Partial<StubState> = {},
  asked: Partial<LinkAsked> = {},
): Promise<KeeperShed> => {
  const found = keeperShed(change, asked);
  await found.pass(6);
  expect(found.link.link().kind).toBe('up');
  return found;
};
export const typesHeard = ({ board }: KeeperShed, type: number): number =>
  board.stub.heard.filter((asked) => asked.type === type).length;
export const whyOf = (link: Link): string => (link.kind === 'down' ? link.why : 'up');
