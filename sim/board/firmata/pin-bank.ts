import { itemAt } from '../../../src/units/assertion.ts';
import { PIN_MODE, type PinMode } from './bytes.ts';
import type { PinTable } from './uno-pins.ts';

/** What a pin does to the wire: drives it low or high, leaves it alone, or switches it `pwm` parts of 256. */
export type Level = 0 | 1 | 'floating' | { readonly pwm: number };

/**
 * What setting a pin to output does to its level. Stock firmware before the end of 2016 drives it low;
 * since October 2016 it `keeps-latch`: a pin that was driven high stays high, also over
 * a system reset, and one that had its pull-up on goes high at once.
 */
export type OutputHabit = 'starts-low' | 'keeps-latch';

export type ModeOutcome = 'set' | 'not-on-this-pin' | 'no-such-mode';

interface Pin {
  mode: PinMode;
  /** What the host wrote last, as the pin-state response tells it. */
  state: number;
  /** The port register's bit: level of an output, pull-up of an input. */
  latch: 0 | 1;
  level: Level;
}

export interface PinBank {
  readonly setMode: (pin: number, mode: number) => ModeOutcome;
  readonly writePin: (pin: number, level: 0 | 1) => void;
  readonly writePort: (port: number, bits: number) => void;
  readonly writePwm: (pin: number, value: number) => void;
  /** Levels of the pins of a port that are inputs; the bits of all others are 0. */
  readonly readPort: (port: number) => number;
  readonly stateOf: (pin: number) => { readonly mode: PinMode; readonly state: number } | null;
  /** Reset of the chip: every pin a floating input. */
  readonly float: () => void;
  /** Where stock firmware puts its pins at start and at a system reset. */
  readonly toDefaults: () => void;
}

const PINS_PER_PORT = 8;
const KNOWN_MODES: readonly number[] = Object.values(PIN_MODE);
/** The compare register of an 8-bit timer; higher bits of a PWM value are lost. */
const PWM_VALUES = 256;

const pwmLevel = (value: number): Level => {
  const duty = value % PWM_VALUES;
  if (duty === 0) return 0;
  return duty === PWM_VALUES - 1 ? 1 : { pwm: duty };
};

const sameLevel = (one: Level, other: Level): boolean =>
  typeof one === 'object' && typeof other === 'object' ? one.pwm === other.pwm : one === other;

export const createPinBank = (
  table: PinTable,
  world: {
    readonly readDigital: (pin: number) => 0 | 1 | 'floating';
    readonly drive: (pin: number, level: Level) => void;
  },
  habit: OutputHabit,
): PinBank => {
  const pins: readonly Pin[] = table.map(() => ({
    mode: PIN_MODE.input,
    state: 0,
    latch: 0,
    level: 'floating',
  }));
  const can = (pin: number, mode: number): boolean =>
    table[pin]?.abilities.some((ability) => ability.mode === mode) ?? false;
  const put = (pin: number, level: Level): void => {
    const held = itemAt(pins, pin);
    if (sameLevel(held.level, level)) return;
    held.level = level;
    world.drive(pin, level);
  };
  const latch = (pin: number, level: 0 | 1): void => {
    itemAt(pins, pin).latch = level;
    put(pin, level);
  };

  const setMode = (pin: number, mode: number): ModeOutcome => {
    const held = pins[pin];
    if (!KNOWN_MODES.includes(mode)) return 'no-such-mode';
    if (!held || !can(pin, mode)) return 'not-on-this-pin';
    held.mode = mode as PinMode;
    held.state = 0;
    switch (held.mode) {
      case PIN_MODE.input:
      case PIN_MODE.analog:
        held.latch = 0;
        put(pin, 'floating');
        break;
      case PIN_MODE.pullUp:
        held.latch = 1;
        held.state = 1;
        put(pin, 'floating');
        break;
      case PIN_MODE.output:
        latch(pin, habit === 'starts-low' ? 0 : held.latch);
        break;
      case PIN_MODE.pwm:
        latch(pin, 0);
        break;
    }
    return 'set';
  };

  const writeBit = (pin: number, level: 0 | 1): void => {
    const held = pins[pin];
    if (!held || !can(pin, held.mode)) return;
    if (held.mode === PIN_MODE.output) latch(pin, level);
    // A port write of 1 to an input turns its pull-up on, kept by stock firmware for old hosts; 0 leaves it.
    else if (held.mode === PIN_MODE.input) held.latch = level === 1 ? 1 : held.latch;
    else return;
    held.state = level;
  };

  const reading = (pin: number): 0 | 1 => {
    const held = pins[pin];
    if (held?.mode !== PIN_MODE.input && held?.mode !== PIN_MODE.pullUp) return 0;
    if (!can(pin, held.mode)) return 0;
    const seen = world.readDigital(pin);
    return seen === 'floating' ? held.latch : seen;
  };

  return {
    setMode,
    writePin: (pin, level) => {
      const held = pins[pin];
      if (held?.mode !== PIN_MODE.output) return;
      latch(pin, level);
      held.state = level;
    },
    writePort: (port, bits) => {
      for (let bit = 0; bit < PINS_PER_PORT; bit += 1) {
        writeBit(PINS_PER_PORT * port + bit, ((bits >> bit) & 1) === 1 ? 1 : 0);
      }
    },
    writePwm: (pin, value) => {
      const held = pins[pin];
      if (held?.mode !== PIN_MODE.pwm) return;
      held.state = value;
      put(pin, pwmLevel(value));
    },
    readPort: (port) => {
      let bits = 0;
      for (let bit = 0; bit < PINS_PER_PORT; bit += 1) bits |= reading(PINS_PER_PORT * port + bit) << bit;
      return bits;
    },
    stateOf: (pin) => {
      const held = pins[pin];
      return held ? { mode: held.mode, state: held.state } : null;
    },
    float: () => {
      pins.forEach((held, pin) => {
        held.mode = PIN_MODE.input;
        held.state = 0;
        held.latch = 0;
        put(pin, 'floating');
      });
    },
    toDefaults: () => {
      table.forEach(({ analogChannel }, pin) => {
        setMode(pin, analogChannel === null ? PIN_MODE.output : PIN_MODE.analog);
      });
    },
  };
};
