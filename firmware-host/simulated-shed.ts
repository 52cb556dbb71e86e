import { demoWiring } from '../sim/board/demo-wiring.ts';
import { createEmulatedBoard } from '../sim/board/avr/emulated-board.ts';
import type { PinWorld } from '../sim/board/firmata/peer.ts';
import { createUsb } from '../sim/board/firmata/usb.ts';
import { FAULTS, isFaultKind, type Fault } from '../sim/faults/fault.ts';
import { CENTRAL } from '../sim/plant/judgements.ts';
import { seededDice } from '../sim/dice.ts';
import { OUTLOOK_MILLIS, RUN_OUT_MILLIS, WARM_UP_MILLIS } from '../sim/run/rehearse.ts';
import { openWiredShed } from '../sim/run/wired-shed.ts';
import type { HourlyRow } from '../sim/weather/hourly-row.ts';
import { madeSky } from '../sim/weather/made-day.ts';
import { recordDay } from '../sim/weather/record-day.ts';
import { shiftedSky } from '../sim/weather/shift.ts';
import type { Sky } from '../sim/weather/sky.ts';
import type { Farm, Wiring } from '../src/farm/farm.ts';
import type { Clock } from '../src/ports/clock.ts';
import { wallMillis, type Now } from '../src/time/instant.ts';
import type { LocalDay } from '../src/time/local-day.ts';
import { createBoardLink, type BoardLink } from './devices/board-link.ts';
import { keeperOf } from './keeper-of.ts';
import { virtualTime } from './virtual-time.ts';

/** The one file in which the host meets the simulated world. */

export { rehearsed as rehearsal, type Outcome } from '../sim/run/rehearse.ts';
export type { Fault } from '../sim/faults/fault.ts';
export { faultCall, type FaultCall } from '../sim/run/fault-call.ts';
export { adviceOn, judgeRehearsal, type RehearsalVerdict } from '../sim/run/verdict.ts';
export { FAULTS, isFaultKind };

const DAY_MILLIS = 86_400_000;
/** The port of the board in the simulated shed. */
const DEMO_PORT = 'demo';

export type WeatherSource =
  { readonly kind: 'hot-day' } | { readonly kind: 'record'; readonly rows: readonly HourlyRow[] };

export type SkyFound =
  | { readonly ok: true; readonly sky: Sky; readonly says: string }
  | { readonly ok: false; readonly reason: string };

const shifted = (sky: Sky, hotterCelsius: number): Sky =>
  hotterCelsius === 0 ? sky : shiftedSky(sky, { celsius: hotterCelsius });

/** The weather from `fromMillis` on for a number of days, from the farm's hot day or from a record. */
export const skyOver = (
  farm: Farm,
  source: WeatherSource,
  fromMillis: number,
  days: number,
  hotterCelsius: number,
): SkyFound => {
  const start = wallMillis(fromMillis);
  const shift = hotterCelsius === 0 ? '' : `, ${hotterCelsius > 0 ? '+' : ''}${hotterCelsius} °C`;
  switch (source.kind) {
    case 'hot-day': {
      const { minCelsius, maxCelsius, humidityPercent } = farm.hotDay;
      const sky = madeSky({ place: farm.place, start, days, minCelsius, maxCelsius, humidityPercent });
      const says = `a hot day, ${minCelsius} to ${maxCelsius} °C, ${humidityPercent} % humidity, clear sky`;
      return { ok: true, sky: shifted(sky, hotterCelsius), says: `${says}${shift}` };
    }
    case 'record': {
      const found = recordDay({ rows: source.rows, place: farm.place, start, days });
      if (!found.ok) return found;
      const says = `the record of ${found.fromYears.join(', ')}, clear sky where it has no sun`;
      return { ok: true, sky: shifted(found.sky, hotterCelsius), says: `${says}${shift}` };
    }
  }
};

/** The weather that a rehearsal of one day needs, from the warm-up to the last outlook. */
export const skyForDay = (
  farm: Farm,
  source: WeatherSource,
  day: LocalDay,
  hotterCelsius: number,
): SkyFound => {
  const from = day.start - WARM_UP_MILLIS;
  const until = day.end + RUN_OUT_MILLIS + OUTLOOK_MILLIS;
  return skyOver(farm, source, from, Math.ceil((until - from) / DAY_MILLIS), hotterCelsius);
};

/** A host's view of a simulated shed: a board that is reached over bytes, and the clock of the shed. */
export interface LiveShed {
  readonly wiring: Wiring;
  readonly board: BoardLink;
  readonly clock: Clock;
}

/**
 * What is left of a wait at `speed` times real time is slept; at `max` nothing is, but signals get their turn.
 * False when `stop` came first.
 */
const slept = (simulatedMillis: number, speed: number | 'max', stop: AbortSignal): Promise<boolean> =>
  new Promise((wake) => {
    if (speed === 'max') {
      setImmediate(() => {
        wake(!stop.aborted);
      });
      return;
    }
    const stopped = (): void => {
      clearTimeout(timer);
      wake(false);
    };
    const timer = setTimeout(
      () => {
        stop.removeEventListener('abort', stopped);
        wake(true);
      },
      Math.max(0, simulatedMillis) / speed,
    );
    if (stop.aborted) stopped();
    else stop.addEventListener('abort', stopped, { once: true });
  });

/** The wiring of the farm file, or one for the shed where it has none. */
export const shedWiring = (farm: Farm): Wiring => farm.board ?? demoWiring(farm);

/**
 * A shed to run in: central parameters, sensors with noise, a board on a port of its own, of software or an emulated chip, and a clock
 * that goes at `speed` times real time. Everything between host and plant goes through the bytes of the line.
 */
export const liveShed = (asked: {
  readonly farm: Farm;
  readonly wiring: Wiring;
  /** What the chip of an emulated board carries out; null for a software board with stock firmware. */
  readonly flash: Uint8Array | null;
  readonly sky: Sky;
  readonly startMillis: number;
  readonly faults: readonly Fault[];
  readonly seed: number;
  readonly speed: number | 'max';
  /** Aborting ends a wait early, at the moment that the shed has come to. */
  readonly stop: AbortSignal;
}): LiveShed => {
  const { farm, wiring, flash, startMillis, speed, stop } = asked;
  const time = virtualTime(startMillis);
  const { timers } = time;
  const dice = seededDice(asked.seed);
  const shed = openWiredShed({
    ...asked,
    judgements: CENTRAL,
    failing: [],
    dice,
    ...(flash === null
      ? {}
      : { peer: (world: PinWorld) => createEmulatedBoard({ flash, world, startMillis, seed: asked.seed }) }),
  });
  const usb = createUsb(timers);
  usb.plug(DEMO_PORT, shed.peer, wiring.identity);
  shed.live(timers, usb.look);
  const board = createBoardLink({
    wiring,
    deadBoard: farm.deadBoard,
    use: 'drive',
    ...(flash === null ? {} : { keeper: keeperOf(farm, wiring, () => wallMillis(timers.now())) }),
    lines: usb,
    port: DEMO_PORT,
    timers,
  });
  const now = (): Now => ({ monotonic: timers.now(), wall: wallMillis(timers.now()) });
  return {
    wiring,
    board,
    clock: {
      now,
      until: async (moment) => {
        if (await slept(moment - timers.now(), speed, stop)) time.advance(moment);
      },
    },
  };
};
