import { DateTime } from 'luxon';
import { demoWiring } from '../sim/board/demo-wiring.ts';
import { createEmulatedBoard } from '../sim/board/avr/emulated-board.ts';
import type { PinWorld } from '../sim/board/firmata/peer.ts';
import { createUsb } from '../sim/board/firmata/usb.ts';
import { CLOGGING, FAULTS, isFaultKind, isOfOneBench, type Fault } from '../sim/faults/fault.ts';
import { unfittedFor } from '../sim/faults/unfitted.ts';
import { CENTRAL, JUDGEMENTS, OXYGEN_HARMS, type Judgement } from '../sim/plant/judgements.ts';
import { OXYGEN_LAW_CELSIUS } from '../sim/plant/oxygen.ts';
import { gaussian, seededDice } from '../sim/dice.ts';
import { OUTLOOK_MILLIS, RUN_OUT_MILLIS, WARM_UP_MILLIS, type Span } from '../sim/run/rehearse.ts';
import { openWiredShed } from '../sim/run/wired-shed.ts';
import { cloudySky } from '../sim/weather/cloudy.ts';
import { drawnSky } from '../sim/weather/drawn-days.ts';
import type { Climate } from '../sim/weather/drawn-extremes.ts';
import type { HourlyRow } from '../sim/weather/hourly-row.ts';
import { madeSky } from '../sim/weather/made-day.ts';
import { recordDay } from '../sim/weather/record-day.ts';
import { shiftedSky } from '../sim/weather/shift.ts';
import type { Sky } from '../sim/weather/sky.ts';
import { skyWithSpell } from '../sim/weather/spell.ts';
import type { Farm, Wiring } from '../src/farm/farm.ts';
import type { Clock } from '../src/ports/clock.ts';
import { wallMillis, type Now } from '../src/time/instant.ts';
import { createBoardLink, type BoardLink } from './devices/board-link.ts';
import { keeperOf } from './keeper-of.ts';
import { virtualTime } from './virtual-time.ts';

/** The one file in which the host meets the simulated world. */

export { rehearsedRun, runsOf, type Outcome, type RehearsalAsked, type Run } from '../sim/run/rehearse.ts';
export type { Clogging, Fault } from '../sim/faults/fault.ts';
export { faultCall, type FaultCall } from '../sim/run/fault-call.ts';
export { adviceOn, judgeRehearsal, type RehearsalVerdict } from '../sim/run/verdict.ts';
export { bandOf, quantile, type Band } from '../sim/run/band.ts';
export { hangsOn, type Hold } from '../sim/run/hangs-on.ts';
export type { Moment } from '../sim/run/trace.ts';
export {
  isScenarioName,
  SCENARIOS,
  scenarioOf,
  type Scenario,
  type ScenarioName,
} from '../sim/scenario/scenario.ts';
export { judgementsOf, openJudge, type Judge, type QuickVerdict } from '../sim/tune/judge.ts';
export type { PlanTrial, Stretch } from '../sim/tune/plan-run.ts';
export type { Sky } from '../sim/weather/sky.ts';
export { RUN_OUT_MILLIS, WARM_UP_MILLIS } from '../sim/run/rehearse.ts';
export { worstStart, type WorstStart } from '../sim/scenario/worst-start.ts';
export { BREATHING_LAW_CELSIUS } from '../src/physics/q10.ts';
export { REAERATION_LAW_CELSIUS } from '../src/physics/reaeration.ts';
export {
  CENTRAL,
  CLOGGING,
  FAULTS,
  isFaultKind,
  isOfOneBench,
  JUDGEMENTS,
  OXYGEN_HARMS,
  OXYGEN_LAW_CELSIUS,
  unfittedFor,
  type Judgement,
};

const DAY_MILLIS = 86_400_000;
/** As fine as the knots of a made sky. */
const LOOK_MILLIS = 300_000;
/** The port of the board in the simulated shed. */
const DEMO_PORT = 'demo';

/** A run of warmer or colder days, and what to call it. */
export interface SpellAsked {
  readonly kind: 'heat wave' | 'cold spell';
  readonly days: number;
  readonly celsius: number;
  readonly fromMillis: number;
  readonly untilMillis: number;
}

export type WeatherSource =
  | { readonly kind: 'hot-day' }
  | {
      readonly kind: 'record';
      readonly rows: readonly HourlyRow[];
      /** Of which site the rows are a typical year; null for a plain record. */
      readonly typicalYearOf: string | null;
    }
  | { readonly kind: 'drawn-days'; readonly climate: Climate; readonly seed: number };

/** What is done to the weather of a source before it is rehearsed on. */
export interface WeatherChanges {
  readonly hotterCelsius: number;
  readonly spell: SpellAsked | null;
  /** At most this share of the clear sun; null leaves the sky as it is. */
  readonly sunShareMost: number | null;
}

export const UNCHANGED: WeatherChanges = { hotterCelsius: 0, spell: null, sunShareMost: null };

export type SkyFound =
  | { readonly ok: true; readonly sky: Sky; readonly says: string }
  | { readonly ok: false; readonly reason: string };

/** The afternoons of a heat wave rise by more than its nights: a tenth more range. Common practice, no source. */
const HEAT_WAVE_RANGE = 1.1;

const signed = (celsius: number): string => `${celsius > 0 ? '+' : ''}${celsius} °C`;

const skyOf = (farm: Farm, source: WeatherSource, fromMillis: number, days: number): SkyFound => {
  const made = { place: farm.place, start: wallMillis(fromMillis), days };
  switch (source.kind) {
    case 'hot-day': {
      const { minCelsius, maxCelsius, humidityPercent } = farm.hotDay;
      const says = `a hot day, ${minCelsius} to ${maxCelsius} °C, ${humidityPercent} % humidity`;
      return { ok: true, sky: madeSky({ ...made, ...farm.hotDay }), says };
    }
    case 'record': {
      const found = recordDay({ ...made, rows: source.rows });
      if (!found.ok) return found;
      const whence =
        source.typicalYearOf === null
          ? `the record of ${found.fromYears.join(', ')}`
          : `a typical year of ${source.typicalYearOf}`;
      return { ok: true, sky: found.sky, says: `${whence}, clear sky where it has no sun` };
    }
    case 'drawn-days': {
      const dice = seededDice(source.seed);
      const sky = drawnSky({ ...made, climate: source.climate, normal: () => gaussian(dice) });
      return { ok: true, sky, says: `days drawn from the climate of the farm file (seed ${source.seed})` };
    }
  }
};

const changedSky = (farm: Farm, sky: Sky, { hotterCelsius, spell, sunShareMost }: WeatherChanges): Sky => {
  const dimmed = sunShareMost === null ? sky : cloudySky(sky, { place: farm.place, share: sunShareMost });
  const rangeShare = spell?.kind === 'heat wave' ? HEAT_WAVE_RANGE : 1;
  const waved = spell === null ? dimmed : skyWithSpell(dimmed, { ...spell, rangeShare });
  return hotterCelsius === 0 ? waved : shiftedSky(waved, { celsius: hotterCelsius });
};

const changesText = ({ hotterCelsius, spell, sunShareMost }: WeatherChanges): string =>
  [
    ...(sunShareMost === null ? [] : [`at most ${Math.round(sunShareMost * 100)} % of the clear sun`]),
    ...(spell === null
      ? []
      : [`a ${spell.kind} of ${spell.days} day${spell.days === 1 ? '' : 's'}, ${signed(spell.celsius)}`]),
    ...(hotterCelsius === 0
      ? []
      : [`${Math.abs(hotterCelsius)} °C ${hotterCelsius > 0 ? 'hotter' : 'cooler'}`]),
  ]
    .map((change) => `, ${change}`)
    .join('');

/** A record must reach a day beyond both ends of the weather that is asked for (`recordDay`). */
const neededText = ({ place }: Farm, fromMillis: number, days: number): string => {
  const told = (moment: DateTime): string => moment.toFormat('yyyy-MM-dd HH:mm');
  const start = DateTime.fromMillis(fromMillis, { zone: place.timeZone });
  return `needed is weather from ${told(start.minus({ days: 1 }))} to ${told(start.plus({ days: days + 1 }))} (local time), or of these days of another year`;
};

/** The weather from `fromMillis` on for a number of days, from the farm's hot day, a record or drawn days. */
export const skyOver = (
  farm: Farm,
  source: WeatherSource,
  fromMillis: number,
  days: number,
  changes: WeatherChanges,
): SkyFound => {
  const found = skyOf(farm, source, fromMillis, days);
  if (!found.ok) return { ok: false, reason: `${found.reason}; ${neededText(farm, fromMillis, days)}` };
  const clear = source.kind === 'hot-day' && changes.sunShareMost === null ? ', clear sky' : '';
  const says = `${found.says}${clear}${changesText(changes)}`;
  return { ok: true, sky: changedSky(farm, found.sky, changes), says };
};

/** Lowest and highest air temperature of a span, to the tenth. */
const rangeOver = (sky: Sky, { start, end }: Span): string => {
  const steps = Math.ceil((end - start) / LOOK_MILLIS);
  const celsius = Array.from({ length: steps }, (_, step) => sky.at(start + step * LOOK_MILLIS).airCelsius);
  return `${celsius.reduce((a, b) => Math.min(a, b)).toFixed(1)} to ${celsius.reduce((a, b) => Math.max(a, b)).toFixed(1)}`;
};

/** The weather that a rehearsal of a day or more needs, from the warm-up to the last outlook. */
export const skyForSpan = (
  farm: Farm,
  source: WeatherSource,
  span: Span,
  changes: WeatherChanges,
): SkyFound => {
  const from = span.start - WARM_UP_MILLIS;
  const until = span.end + RUN_OUT_MILLIS + OUTLOOK_MILLIS;
  const found = skyOver(farm, source, from, Math.ceil((until - from) / DAY_MILLIS), changes);
  if (!found.ok || (source.kind === 'hot-day' && changes === UNCHANGED)) return found;
  const days = Math.round((span.end - span.start) / DAY_MILLIS);
  return {
    ...found,
    says: `${found.says}; ${rangeOver(found.sky, span)} °C on the ${days > 1 ? `${days} days` : 'day'}`,
  };
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
