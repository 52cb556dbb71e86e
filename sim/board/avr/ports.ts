import type { Dice } from '../../dice.ts';
import type { PinWorld } from '../firmata/peer.ts';
import { createEdgeInterrupts } from './edge-interrupts.ts';
import type { Machine } from './machine.ts';
import { IO } from './registers.ts';

/** What a pin does to its wire. */
export type PinLevel = 0 | 1 | 'floating';

/** A port of the chip, as the Uno numbers its pins. */
interface PortPlace {
  readonly pinRegister: number;
  readonly direction: number;
  readonly output: number;
  readonly firstPin: number;
  readonly pinCount: number;
}
/** PB6 and PB7 carry the crystal, PC6 is the reset. In the order of the pin change interrupts. */
const PORTS: readonly PortPlace[] = [
  { pinRegister: IO.PINB, direction: IO.DDRB, output: IO.PORTB, firstPin: 8, pinCount: 6 },
  { pinRegister: IO.PINC, direction: IO.DDRC, output: IO.PORTC, firstPin: 14, pinCount: 6 },
  { pinRegister: IO.PIND, direction: IO.DDRD, output: IO.PORTD, firstPin: 0, pinCount: 8 },
];
const PULL_UPS_OFF = 0x10;

export interface Ports {
  /** Looks at the world; between two looks inputs stay as they were seen, but for those that nothing holds. */
  readonly refresh: () => void;
  /** Every driven pin lets go of its wire, as at a reset. */
  readonly letGo: () => void;
}

/**
 * Ports B, C and D (data sheet, "I/O-Ports"): direction, level, pull-up, reading back, toggling by a write to
 * PINx. An input that nothing holds reads 1 with its pull-up on, else a new value at each look. Left out: the
 * synchroniser, so an output reads back one cycle early.
 */
export const createPorts = (
  machine: Machine,
  world: PinWorld,
  dice: Dice,
  driven: (pin: number, level: PinLevel) => void,
): Ports => {
  const { get, put, onRead, onWrite } = machine;
  const edges = createEdgeInterrupts(machine);

  const ports = PORTS.map((place, index) => {
    const { pinRegister, direction, output, firstPin, pinCount } = place;
    const present = (1 << pinCount) - 1;
    let held = 0;
    let unheld = present;
    let noise = 0;
    let toldDirection = 0;
    let toldOutput = 0;

    const settle = (): void => {
      const outputs = get(direction);
      const pulled = (get(IO.MCUCR) & PULL_UPS_OFF) === 0 ? get(output) : 0;
      const inputs = (held & ~unheld) | (unheld & (pulled | noise));
      const before = get(pinRegister);
      const now = ((get(output) & outputs) | (inputs & ~outputs)) & present;
      if (before === now) return;
      put(pinRegister, now);
      edges.changed(index, before, now);
    };
    const tell = (): void => {
      const outputs = get(direction) & present;
      const levels = get(output) & outputs;
      const changed = (outputs ^ toldDirection) | (levels ^ toldOutput);
      toldDirection = outputs;
      toldOutput = levels;
      for (let bit = 0; changed >> bit !== 0; bit += 1) {
        if (((changed >> bit) & 1) === 0) continue;
        const level = ((outputs >> bit) & 1) === 0 ? 'floating' : ((levels >> bit) & 1) === 1 ? 1 : 0;
        driven(firstPin + bit, level);
      }
    };
    const keep = (register: number, value: number): void => {
      put(register, value);
      tell();
      settle();
    };
    onWrite(direction, (value) => {
      keep(direction, value);
    });
    onWrite(output, (value) => {
      keep(output, value);
    });
    onWrite(pinRegister, (value, mask) => {
      keep(output, get(output) ^ (value & mask));
    });
    onRead(pinRegister, () => {
      if ((unheld & ~get(direction) & ~get(output)) !== 0) {
        noise = Math.floor(dice() * 256);
        settle();
      }
      return get(pinRegister);
    });
    return {
      refresh: (): void => {
        held = 0;
        unheld = 0;
        const inputs = ~get(direction) & present;
        for (let bit = 0; bit < pinCount; bit += 1) {
          if (((inputs >> bit) & 1) === 0) continue;
          const level = world.readDigital(firstPin + bit);
          if (level === 'floating') unheld |= 1 << bit;
          else held |= level << bit;
        }
        if (unheld !== 0) noise = Math.floor(dice() * 256);
        settle();
      },
      letGo: (): void => {
        put(direction, 0);
        put(output, 0);
        tell();
      },
    };
  });
  return {
    refresh: () => {
      for (const port of ports) port.refresh();
    },
    letGo: () => {
      for (const port of ports) port.letGo();
    },
  };
};
