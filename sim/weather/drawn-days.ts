import { DateTime } from 'luxon';
import {
  clearSkyShare,
  clearSkyWattsPerSquareMetre,
  RANGE_COEFFICIENT,
  solarFromRange,
} from '../../src/physics/radiation.ts';
import { saturationVapourKilopascals } from '../../src/physics/vapour.ts';
import type { LocalDay } from '../../src/time/local-day.ts';
import { itemAt } from '../../src/units/assertion.ts';
import { drawnExtremes, type CalendarDay, type Climate } from './drawn-extremes.ts';
import { vapourForMeanHumidity } from './mean-humidity.ts';
import { celsiusOver, profileSky, spanOfDays, type MadeSpan } from './profile-sky.ts';
import type { Sky } from './sky.ts';
import { turnAt, type DayExtremes } from './solar-turn.ts';

export interface DrawnDays extends MadeSpan {
  readonly climate: Climate;
  /** Gives independent numbers of mean 0 and standard deviation 1. */
  readonly normal: () => number;
}

const calendarDay = (epochMillis: number, timeZone: string): CalendarDay => {
  const { month, day, daysInMonth } = DateTime.fromMillis(epochMillis, { zone: timeZone });
  return { month: month - 1, dayOfMonth: day, daysInMonth: daysInMonth ?? 30 };
};

/**
 * Days that differ from one another as days do: extremes drawn for each, joined by the sine-exponential profile of
 * Goudriaan & van Laar (1994), sun by the range of temperature (FAO-56 eq. 50) and never above the clear sky, vapour
 * by the month's mean humidity or by the dew point at the day's lowest temperature (FAO-56 eq. 48), running straight
 * from the middle of one day to that of the next.
 * @throws BrokenAssertion when the span or the climate makes no sense
 */
export const drawnSky = ({ climate, normal, ...made }: DrawnDays): Sky => {
  const { place } = made;
  const span = spanOfDays(made);
  const { turns, localDays } = span;
  const last = itemAt(turns, turns.length - 1);
  // The turn after the last gives the last night its end.
  const dates = [...turns.map(({ warmest }) => warmest), last.nextSunrise].map((moment) =>
    calendarDay(moment, place.timeZone),
  );
  const extremes = drawnExtremes(climate, dates, normal);
  const extremesOf = (turn: number): DayExtremes => itemAt(extremes, turn);

  const vapourOf = (day: LocalDay): number => {
    const celsius = celsiusOver(span, day, extremesOf);
    const { month } = calendarDay(day.start, place.timeZone);
    const { humidityPercent } = itemAt(climate.monthly, month);
    return humidityPercent === undefined
      ? saturationVapourKilopascals(Math.min(...celsius))
      : vapourForMeanHumidity(celsius, humidityPercent);
  };
  const vapours = localDays.map(vapourOf);
  const middleOf = (localDay: number): number => {
    const { start, end } = itemAt(localDays, localDay);
    return (start + end) / 2;
  };
  const vapourAt = (epochMillis: number, localDay: number): number => {
    const before = epochMillis < middleOf(localDay) ? localDay - 1 : localDay;
    const share = (epochMillis - middleOf(before)) / (middleOf(before + 1) - middleOf(before));
    return itemAt(vapours, before) + (itemAt(vapours, before + 1) - itemAt(vapours, before)) * share;
  };

  const clearShare = clearSkyShare(place.elevationMetres);
  const sunShares = extremes.map(({ minCelsius, maxCelsius }) => {
    const ofExtraterrestrial = solarFromRange(1, maxCelsius - minCelsius, RANGE_COEFFICIENT[climate.site]);
    return Math.min(1, ofExtraterrestrial / clearShare);
  });
  return profileSky(span, {
    extremesOf,
    vapourAt,
    sunAt: (epochMillis) =>
      itemAt(sunShares, turnAt(turns, epochMillis)) * clearSkyWattsPerSquareMetre({ ...place, epochMillis }),
    windMetresPerSecond: place.windMetresPerSecond,
  });
};
