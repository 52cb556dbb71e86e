import type { Farm, Wiring } from '../../src/farm/farm.ts';
import type { Fitting } from './fitting.ts';

/** The relay of the pump. */
export interface PumpRelay {
  /** Pulls the relay or lets go of it so that the pump runs or stands, whichever contact is used. */
  readonly ask: (pump: 'on' | 'off') => void;
  /** Says again what was asked last: a byte spoilt on the way would stand otherwise. */
  readonly sayAgain: () => void;
  /** Lets go of the relay, whatever that does: what a dead board would do. */
  readonly release: () => void;
}

/**
 * Firmata has no checksum: one bit turned over makes "this pin is an input" of a level, and no later level
 * would reach the relay. So the mode of the pin goes with every word to it. The level rests before the pin
 * becomes an output, so that the relay is not pulled by the change.
 */
export const pumpRelay = (
  { library, io, board }: Fitting,
  { pin, energised }: Wiring['relay'],
  deadBoard: Farm['deadBoard'],
): PumpRelay => {
  io.digitalWrite(pin, energised === 'high' ? 0 : 1);
  io.pinMode(pin, io.MODES.OUTPUT);
  const relay = new library.Relay({ pin, type: energised === 'high' ? 'NO' : 'NC', board });
  let coil: 'pulled' | 'resting' = 'resting';
  const say = (): void => {
    io.pinMode(pin, io.MODES.OUTPUT);
    if (coil === 'pulled') relay.close();
    else relay.open();
  };
  say();
  return {
    ask: (pump) => {
      // On a normally closed contact the pump runs while the relay rests.
      coil = (pump === 'on') === (deadBoard !== 'pump-runs') ? 'pulled' : 'resting';
      say();
    },
    sayAgain: say,
    release: () => {
      coil = 'resting';
      say();
    },
  };
};
