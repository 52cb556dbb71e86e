import type { EmulatedBoard } from '../../sim/board/avr/emulated-board.ts';
import type { Dice } from '../../sim/dice.ts';
import { IDENTITY, type CycledShed } from './cycled-shed.ts';

const PORTS = ['one', 'two', 'three'] as const;
/** Every so many times the board loses its own supply too. */
const POWER_EVERY = 3;

/** Something that happened to the cable or the power of a board; `open` resets it. */
export interface Blow {
  readonly kind: 'plug' | 'unplug' | 'power-on' | 'power-off' | 'stall' | 'reset' | 'open';
  readonly at: number;
}

export interface KeptTrouble {
  readonly unplugs: () => number;
  readonly blows: readonly Blow[];
  /** Of the cycles: how many ended before the link was up, and how many while the pump ran. */
  readonly counts: () => Readonly<Record<'midHandshake' | 'midFlood' | 'stalls' | 'resets', number>>;
}

/** A cable that is pulled out of a board with a supply of its own and put back `most` times, at random moments. */
export const keptTrouble = (
  shed: CycledShed,
  emulated: EmulatedBoard,
  dice: Dice,
  most: number,
): KeptTrouble => {
  const { usb, time, link } = shed;
  const { timers } = time;
  const blows: Blow[] = [];
  const board = {
    ...shed.board,
    open: (now: number): void => {
      blow('open');
      shed.board.open(now);
    },
  };
  const counts = { midHandshake: 0, midFlood: 0, stalls: 0, resets: 0 };
  let unplugs = 0;
  let port: string = PORTS[0];

  const between = (least: number, greatest: number): number => least + (greatest - least) * dice();
  const later = (seconds: number, run: () => void): void => {
    timers.setTimeout(run, seconds * 1000);
  };
  const blow = (kind: Blow['kind']): void => {
    blows.push({ kind, at: timers.now() });
  };
  /** In its handshake, soon, in a flood, or whenever. */
  const endLater = (): void => {
    const kind = dice();
    if (kind < 0.35) later(between(0, 5), worse);
    else if (kind < 0.75) later(between(5, 120), worse);
    else if (kind < 0.93) inFlood();
    else later(between(120, 900), worse);
  };
  const inFlood = (): void => {
    if (shed.shed.plant.state.pumpOn) later(between(0, 300), worse);
    else later(5, inFlood);
  };
  const plugIn = (): void => {
    if (emulated.chip.state() === 'off') {
      emulated.powerOn(timers.now());
      blow('power-on');
    }
    port = PORTS[Math.floor(dice() * PORTS.length)] ?? PORTS[0];
    usb.plug(port, board, IDENTITY);
    blow('plug');
    if (unplugs < most) endLater();
  };
  const unplug = (): void => {
    unplugs += 1;
    if (link.link().kind === 'down') counts.midHandshake += 1;
    if (shed.shed.plant.state.pumpOn) counts.midFlood += 1;
    usb.unplug(port);
    blow('unplug');
    if (unplugs % POWER_EVERY === 0) {
      emulated.powerOff(timers.now());
      blow('power-off');
    }
    const kind = dice();
    later(kind < 0.6 ? between(0.05, 5) : kind < 0.9 ? between(5, 100) : between(100, 1000), plugIn);
  };
  const worse = (): void => {
    const kind = dice();
    if (kind < 0.1) {
      counts.stalls += 1;
      usb.stall(port);
      blow('stall');
      endLater();
    } else if (kind < 0.2) {
      counts.resets += 1;
      emulated.reset(timers.now());
      blow('reset');
      endLater();
    } else unplug();
  };

  plugIn();
  return { unplugs: () => unplugs, blows, counts: () => ({ ...counts }) };
};
