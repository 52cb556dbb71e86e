import type { Dice } from '../../sim/dice.ts';
import { onDesk } from '../unit/board/desk.ts';
import { IDENTITY, type CycledShed } from './cycled-shed.ts';

const PORTS = ['one', 'two', 'three'] as const;

export interface Trouble {
  readonly unplugs: () => number;
  readonly counts: () => Readonly<
    Record<'midHandshake' | 'midFlood' | 'strangers' | 'stalls' | 'resets', number>
  >;
  /** When the line last stalled. */
  readonly stalledAt: () => readonly number[];
  /** Bytes that reached boards of somebody else and would change a pin of theirs. */
  readonly strangers: readonly (readonly number[])[];
  readonly pluggedSince: () => number | null;
  /** Timers of its own. */
  readonly waiting: () => number;
}

/** A cable that is pulled out and put back at random moments `most` times, and worse. */
export const cableTrouble = (shed: CycledShed, dice: Dice, most: number): Trouble => {
  const { usb, time, board, link } = shed;
  const { timers } = time;
  const counts = { midHandshake: 0, midFlood: 0, strangers: 0, stalls: 0, resets: 0 };
  const stalledAt: number[] = [];
  const strangers: number[][] = [];
  let unplugs = 0;
  let port: string = PORTS[0];
  let pluggedSince: number | null = null;

  const between = (least: number, greatest: number): number => least + (greatest - least) * dice();
  let waiting = 0;
  const later = (seconds: number, run: () => void): void => {
    waiting += 1;
    timers.setTimeout(() => {
      waiting -= 1;
      run();
    }, seconds * 1000);
  };
  /** Ends a life on the cable in its handshake, soon, in a flood, or whenever. */
  const endLater = (): void => {
    const kind = dice();
    if (kind < 0.3) later(between(0, 3), worse);
    else if (kind < 0.82) later(between(3, 150), worse);
    else if (kind < 0.97) inFlood();
    else later(between(150, 2400), worse);
  };
  const inFlood = (): void => {
    if (shed.shed.plant.state.pumpOn) later(between(0, 900), worse);
    else later(5, inFlood);
  };
  const anyPort = (): string => PORTS[Math.floor(dice() * PORTS.length)] ?? PORTS[0];

  const plugIn = (): void => {
    port = anyPort();
    usb.plug(port, board, IDENTITY);
    pluggedSince = timers.now();
    if (unplugs < most) endLater();
  };
  const stranger = (): void => {
    counts.strangers += 1;
    const heard: number[] = [];
    strangers.push(heard);
    const { peer } = onDesk({ firmwareName: 'Somebody else', bootMillis: 300 });
    const name = anyPort();
    const listening = {
      ...peer,
      receive: (bytes: Uint8Array, now: number): void => {
        for (const byte of bytes) heard.push(byte);
        peer.receive(bytes, now);
      },
    };
    usb.plug(name, listening, dice() < 0.5 ? 'B0000' : undefined);
    later(between(2, 15), () => {
      usb.pull(name);
      later(between(0.05, 2), plugIn);
    });
  };
  const unplug = (): void => {
    unplugs += 1;
    if (link.link().kind === 'down') counts.midHandshake += 1;
    if (shed.shed.plant.state.pumpOn) counts.midFlood += 1;
    pluggedSince = null;
    usb.pull(port);
    const gap = dice() < 0.7 ? between(0.05, 5) : between(5, 120);
    later(gap, dice() < 0.2 ? stranger : plugIn);
  };
  const worse = (): void => {
    const kind = dice();
    if (kind < 0.12) {
      counts.stalls += 1;
      stalledAt.push(timers.now());
      usb.stall(port);
      endLater();
    } else if (kind < 0.24) {
      counts.resets += 1;
      board.reset(timers.now());
      usb.look();
      endLater();
    } else unplug();
  };

  plugIn();
  return {
    unplugs: () => unplugs,
    counts: () => ({ ...counts }),
    stalledAt: () => stalledAt,
    strangers,
    pluggedSince: () => pluggedSince,
    waiting: () => waiting,
  };
};
