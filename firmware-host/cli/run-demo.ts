import { afterMinutes, wallMillis } from '../../src/time/instant.ts';
import { localClockInstant, localDayOf, localDayOn } from '../../src/time/local-day.ts';
import { liveShed, shedWiring, skyOver, UNCHANGED } from '../simulated-shed.ts';
import type { Console } from './console.ts';
import { EXIT } from './exit-code.ts';
import { todayFor, type AcceptedFarm } from './farm-argument.ts';
import { faultFrom } from './fault-argument.ts';
import { keeperImage } from './keeper-image.ts';
import { Refusal } from './refusal.ts';
import type { Prepared, RunOptions } from './run-options.ts';
import { stopSignal } from './stop-signal.ts';
import { minuteOfDay, numberWithin, seedFrom, spanMinutes } from './times.ts';
import { weatherFor } from './weather-argument.ts';

const SPEED_DEFAULT = 60;
const SPEED_MAX = 100_000;
/** A simulated shed opens at this time of day: the first floods of the day come soon. */
const OPENS_DEFAULT = '05:30';
/** Weather is made for this many days when no end is asked for; then the run ends by itself. */
const DAYS_MAX = 60;

const speedFrom = (text: string | undefined): number | 'max' => {
  if (text === undefined) return SPEED_DEFAULT;
  return text === 'max' ? 'max' : numberWithin(text, '--speed', 0.1, SPEED_MAX);
};

/** What stands before the pins of the shed: made of software with stock firmware, or a chip with the keeper's own. */
export type DemoBoard = 'demo' | 'emulated';

/** Everything about a run in a simulated shed that a person may ask for, checked; the shed opens when called. */
export const demoBoard = async (
  accepted: AcceptedFarm,
  board: DemoBoard,
  options: RunOptions,
  console: Console,
): Promise<() => Prepared> => {
  const { farm } = accepted;
  const source = await weatherFor(accepted, options, console);
  const speed = speedFrom(options.speed);
  const minutes = options.for === undefined ? null : spanMinutes(options.for, '--for');
  if (minutes !== null && minutes > DAYS_MAX * 24 * 60) {
    throw new Refusal(`--for: found "${options.for ?? ''}"; allowed is up to ${DAYS_MAX}d.`, EXIT.usage);
  }
  const seed = seedFrom(options.seed);
  const zone = farm.place.timeZone;
  const day = localDayOn(todayFor(farm, localDayOf(wallMillis(Date.now()), zone).date), zone);
  const startMillis = localClockInstant(day, minuteOfDay(options.from ?? OPENS_DEFAULT, '--from'));
  const faults = (options.fault ?? []).map((text) => faultFrom(text, day, farm));
  const days = minutes === null ? DAYS_MAX : Math.ceil(minutes / 1440);
  const found = skyOver(farm, source, startMillis, days + 1, UNCHANGED);
  if (!found.ok) throw new Refusal(`the weather does not reach: ${found.reason}.`);

  const wiring = shedWiring(farm);
  const flash = board === 'emulated' ? await keeperImage(accepted, wiring, 'on') : null;

  return () => {
    const pace = speed === 'max' ? 'as fast as it goes' : `${speed}× real time`;
    console.talk(
      `${farm.farm} in a simulated shed${flash === null ? '' : ', on a board of which the chip is emulated'}, ${pace}. Ctrl-C ends it.`,
    );
    const stop = AbortSignal.any([stopSignal(), console.unread]);
    const shed = liveShed({ farm, wiring, flash, sky: found.sky, startMillis, faults, seed, speed, stop });
    return {
      ...shed,
      simulated: true,
      until: afterMinutes(shed.clock.now().monotonic, minutes ?? DAYS_MAX * 1440),
      stop,
    };
  };
};
