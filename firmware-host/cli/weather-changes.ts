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

/**
 * `5` or `5:+6`: so many days about the middle of the rehearsed ones, half a day late where they cannot be just there.
 * @throws Refusal
 */
const spellFrom = (
  text: string,
  {
    kind,
    option,
    sign,
  }: { readonly kind: SpellAsked['kind']; readonly option: string; readonly sign: '+' | '-' },
  day: LocalDay,
  rehearsedDays: number,
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
  const before = Math.floor((days - rehearsedDays) / 2);
  return {
    kind,
    days,
    celsius: sign === '-' ? -size : size,
    fromMillis: start.minus({ days: before }).toMillis(),
    untilMillis: start.plus({ days: days - before }).toMillis(),
  };
};

/** @throws Refusal */
const spellOf = (options: WeatherChangeOptions, day: LocalDay, rehearsedDays: number): SpellAsked | null => {
  if (options.heatWave !== undefined) {
    const asked = { kind: 'heat wave', option: '--heat-wave', sign: '+' } as const;
    return spellFrom(options.heatWave, asked, day, rehearsedDays);
  }
  if (options.coldSpell !== undefined) {
    const asked = { kind: 'cold spell', option: '--cold-spell', sign: '-' } as const;
    return spellFrom(options.coldSpell, asked, day, rehearsedDays);
  }
  return null;
};

const refuseTooMuch = (together: number, kind: string): void => {
  if (Math.abs(together) <= HOTTER_MAX) return;
  throw new Refusal(
    `--hotter: found ${together} °C together with the ${kind}; allowed is up to ${HOTTER_MAX} °C, up or down.`,
    EXIT.usage,
  );
};

/** What is asked to be done to the weather about a day, or about days from that one on. @throws Refusal */
export const weatherChanges = (
  options: WeatherChangeOptions,
  day: LocalDay,
  rehearsedDays: number,
): WeatherChanges => {
  const hotterCelsius =
    options.hotter === undefined ? 0 : numberWithin(options.hotter, '--hotter', -HOTTER_MAX, HOTTER_MAX);
  const spell = spellOf(options, day, rehearsedDays);
  if (spell !== null) refuseTooMuch(hotterCelsius + spell.celsius, spell.kind);
  if (hotterCelsius === 0 && spell === null && options.cloudy === undefined) return UNCHANGED;
  const sunShareMost =
    options.cloudy === undefined ? null : numberWithin(options.cloudy, '--cloudy', SUN_SHARE_MIN, 1);
  return { hotterCelsius, spell, sunShareMost };
};

/** With a scenario's own heat wave over all of its days. @throws Refusal where another spell was asked for as well */
export const withHeatWave = (
  asked: WeatherChanges,
  days: number,
  celsius: number,
  span: { readonly start: number; readonly end: number },
): WeatherChanges => {
  if (asked.spell !== null) {
    throw new Refusal(
      `--scenario: found a ${asked.spell.kind} asked for as well; the scenario brings a heat wave of its own. Leave one of the two away.`,
      EXIT.usage,
    );
  }
  refuseTooMuch(asked.hotterCelsius + celsius, 'heat wave');
  const spell = { kind: 'heat wave', days, celsius, fromMillis: span.start, untilMillis: span.end } as const;
  return { ...asked, spell };
};
