import { FAULTS, isFaultKind, type Fault } from '../sim/faults/fault.ts';
import { CENTRAL } from '../sim/plant/judgements.ts';
import { seededDice } from '../sim/dice.ts';
import { OUTLOOK_MILLIS, RUN_OUT_MILLIS, WARM_UP_MILLIS } from '../sim/run/rehearse.ts';
import { openShed } from '../sim/run/shed.ts';
import type { HourlyRow } from '../sim/weather/hourly-row.ts';
import { madeSky } from '../sim/weather/made-day.ts';
import { recordDay } from '../sim/weather/record-day.ts';
import { shiftedSky } from '../sim/weather/shift.ts';
import type { Sky } from '../sim/weather/sky.ts';
import type { Farm } from '../src/farm/farm.ts';
import type { Board } from '../src/ports/board.ts';
import type { Clock } from '../src/ports/clock.ts';
import { monotonicMillis, wallMillis, type Now } from '../src/time/instant.ts';
import type { LocalDay } from '../src/time/local-day.ts';

/** The one file in which the host meets the simulated world. */

export { rehearsed as rehearsal, type Outcome } from '../sim/run/rehearse.ts';
export type { Fault } from '../sim/faults/fault.ts';
export { faultCall, type FaultCall } from '../sim/run/fault-call.ts';
export { adviceOn, judgeRehearsal, type RehearsalVerdict } from '../sim/run/verdict.ts';
export { FAULTS, isFaultKind };

const DAY_MILLIS = 86_400_000;

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

export interface LiveShed {
  readonly board: Board;
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

/** A shed to run in: central parameters, sensors with noise, a clock that goes at `speed` times real time. */
export const liveShed = (asked: {
  readonly farm: Farm;
  readonly sky: Sky;
  readonly startMillis: number;
  readonly faults: readonly Fault[];
  readonly seed: number;
  readonly speed: number | 'max';
  /** Aborting ends a wait early, at the moment that the shed has come to. */
  readonly stop: AbortSignal;
}): LiveShed => {
  const { farm, sky, startMillis, faults, speed, stop } = asked;
  const dice = seededDice(asked.seed);
  const { plant, board } = openShed({ farm, sky, judgements: CENTRAL, faults, dice, startMillis });
  const now = (): Now => ({
    monotonic: monotonicMillis(plant.state.atMillis),
    wall: wallMillis(plant.state.atMillis),
  });
  return {
    board: {
      command: board.command,
      samples: () => {
        board.sense(now().monotonic);
        return board.samples();
      },
    },
    clock: {
      now,
      until: async (moment) => {
        if (await slept(moment - plant.state.atMillis, speed, stop)) board.advance(moment);
      },
    },
  };
};
