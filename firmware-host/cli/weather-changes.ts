import { DateTime } from 'luxon';
import type { LocalDay } from '../../src/time/local-day.ts';
import { UNCHANGED, type SpellAsked, type WeatherChanges } from '../simulated-shed.ts';
import { EXIT } from './exit-code.ts';
import { Refusal } from './refusal.ts';
import { numberWithin } from './times.ts';

/** What may be done to the weather that is rehearsed on. */
export interface WeatherChangeOptions {
  readonly hotter?: string;
  readonly heatWave?: string;
  readonly coldSpell?: string;
  readonly cloudy?: string;
}

const DAYS_MAX = 30;
/**
 * Five degrees above the usual is what the heat wave duration index counts (Frich and others 2002, Climate Research
 * 19:193–212; from memory). For cold spells the same, common practice, no source.
 */
const CELSIUS_DEFAULT = 5;
const CELSIUS_MAX = 15;
/** Beyond this the air is no weather that anyone rehearses. */
const HOTTER_MAX = 20;
/** Below this it would be night at noon. */
const SUN_SHARE_MIN = 0.05;

const WRITTEN = /^(\d{1,2})(?::([+-]?)(\d{1,2}(?:\.\d+)?))?$/;

/** `5` or `5:+6`: so many days, of which the rehearsed one is the middle, of an even number the earlier of the two there. @throws Refusal */
const spellFrom = (
  text: string,
  {
    kind,
    option,
    sign,
  }: { readonly kind: SpellAsked['kind']; readonly option: string; readonly sign: '+' | '-' },
  day: LocalDay,
): SpellAsked => {
  const [, count, written = '', degrees = String(CELSIUS_DEFAULT)] = WRITTEN.exec(text) ?? [];
  const days = Number(count);
  const size = Number(degrees);
  const isSigned = written === '' || written === sign;
  if (!(days >= 1 && days <= DAYS_MAX && isSigned && size > 0 && size <= CELSIUS_MAX)) {
    throw new Refusal(
      `${option}: found "${text}"; allowed is a number of days from 1 to ${DAYS_MAX}, and after a colon up to ${CELSIUS_MAX} °C, such as 5 or 5:${sign}6.`,
      EXIT.usage,
    );
  }
  const start = DateTime.fromMillis(day.start, { zone: day.timeZone });
  const before = Math.floor((days - 1) / 2);
  return {
    kind,
    days,
    celsius: sign === '-' ? -size : size,
    fromMillis: start.minus({ days: before }).toMillis(),
    untilMillis: start.plus({ days: days - before }).toMillis(),
  };
};

/** @throws Refusal */
const spellOf = (options: WeatherChangeOptions, day: LocalDay): SpellAsked | null => {
  if (options.heatWave !== undefined) {
    return spellFrom(options.heatWave, { kind: 'heat wave', option: '--heat-wave', sign: '+' }, day);
  }
  if (options.coldSpell !== undefined) {
    return spellFrom(options.coldSpell, { kind: 'cold spell', option: '--cold-spell', sign: '-' }, day);
  }
  return null;
};

/** What is asked to be done to the weather about a day. @throws Refusal */
export const weatherChanges = (options: WeatherChangeOptions, day: LocalDay): WeatherChanges => {
  const hotterCelsius =
    options.hotter === undefined ? 0 : numberWithin(options.hotter, '--hotter', -HOTTER_MAX, HOTTER_MAX);
  const spell = spellOf(options, day);
  const together = hotterCelsius + (spell?.celsius ?? 0);
  if (Math.abs(together) > HOTTER_MAX) {
    throw new Refusal(
      `--hotter: found ${together} °C together with the ${spell?.kind ?? 'shift'}; allowed is up to ${HOTTER_MAX} °C, up or down.`,
      EXIT.usage,
    );
  }
  if (hotterCelsius === 0 && spell === null && options.cloudy === undefined) return UNCHANGED;
  const sunShareMost =
    options.cloudy === undefined ? null : numberWithin(options.cloudy, '--cloudy', SUN_SHARE_MIN, 1);
  return { hotterCelsius, spell, sunShareMost };
};

/** A scenario's own heat wave, over all of its days; one that was asked for as well stands instead. */
export const withHeatWave = (
  asked: WeatherChanges,
  days: number,
  celsius: number,
  fromMillis: number,
  untilMillis: number,
): WeatherChanges =>
  asked.spell === null
    ? { ...asked, spell: { kind: 'heat wave', days, celsius, fromMillis, untilMillis } }
    : asked;
