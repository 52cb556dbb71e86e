import type { Farm, Wiring } from '../../src/farm/farm.ts';
import type { PumpCommand, Signals } from '../../src/ports/board.ts';
import type { BoardDriver } from './board-driver.ts';
import { buttonPart } from './button-part.ts';
import type { Fitting } from './fitting.ts';
import { pumpRelay, type PumpRelay } from './pump-relay.ts';
import type { TimerId } from './timers.ts';

/** Whether the pump is driven, or its board only looked at. */
export type Use = 'drive' | 'look';

/** Takes commands for the relay, and holds the limit of a run, which stock firmware does not. */
const timedPump = ({ timers }: Fitting, relay: PumpRelay | null): ((command: PumpCommand) => void) => {
  let off: TimerId | undefined;
  return (command) => {
    timers.clearTimeout(off);
    if (command.kind === 'pump-off') {
      relay?.ask('off');
      return;
    }
    relay?.ask('on');
    off = timers.setTimeout(() => {
      relay?.ask('off');
    }, command.longest * 1000);
  };
};

/** A board with stock firmware: every output is driven from here, and all of them rest when the host is gone. */
export const stockDriver = (
  wiring: Wiring,
  deadBoard: Farm['deadBoard'],
  use: Use,
  fitting: Fitting,
): BoardDriver => {
  const { library, board } = fitting;
  const relay = use === 'drive' ? pumpRelay(fitting, wiring.relay, deadBoard) : null;
  const pump = timedPump(fitting, relay);
  const button = wiring.button === undefined ? null : buttonPart(fitting, wiring.button);
  const { buzzer, lamp } = use === 'drive' ? wiring : {};
  const buzzerPart = buzzer === undefined ? null : new library.Led({ pin: buzzer, board });
  const lampPart = lamp === undefined ? null : new library.Led({ pin: lamp, board });
  let shown: Signals = { buzzer: 'silent', lamp: 'dark' };
  return {
    command: (command) => {
      // It cannot hold by itself: while the host lives, the controller holds.
      if (command.kind === 'pump-on' || command.kind === 'pump-off') pump(command);
    },
    show: (signals) => {
      shown = signals;
    },
    alive: () => undefined,
    beat: () => {
      relay?.sayAgain();
      buzzerPart?.[shown.buzzer === 'sounding' ? 'on' : 'off']();
      lampPart?.[shown.lamp === 'lit' ? 'on' : 'off']();
      button?.poll();
    },
    letGo: () => relay?.release(),
  };
};
