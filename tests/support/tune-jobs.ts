import type { SettingsJob } from '../../firmware-host/tune/tune-job.ts';
import type { PlanSetting } from '../../firmware-host/tune/setting.ts';
import { UNCHANGED } from '../../firmware-host/simulated-shed.ts';
import type { Farm } from '../../src/farm/farm.ts';
import { farmWith, type Change } from './farm.ts';

/** Places of the parts of the example's day plan. */
export const [EARLY, HEAT, LATE, NIGHT] = [0, 1, 2, 3] as const;

/** The first day of every search below; the example's plants are half-grown to full-grown on it. */
export const DATE = '2026-07-15';

/** One day of the example farm's night, central run alone unless told. */
export const jobWith = (change: Partial<SettingsJob>): SettingsJob => ({
  farm: farmWith(),
  source: { kind: 'hot-day' },
  changes: UNCHANGED,
  date: DATE,
  days: 1,
  draws: 0,
  seed: 1,
  tuned: [NIGHT],
  pumpShare: 1,
  lostMinuteOfDay: null,
  settings: [],
  ...change,
});

/** A plan of four parts in which only those given are changed. */
export const settingOf = (parts: Readonly<Record<number, PlanSetting['parts'][number]>>): PlanSetting => ({
  parts: [EARLY, HEAT, LATE, NIGHT].map((place) => parts[place] ?? null),
  restPercentPerDegree: null,
});

export const byNumber = (
  floods: number,
  floodMinutes: number,
): NonNullable<PlanSetting['parts'][number]> => ({
  floodMinutes,
  pace: { kind: 'number', floods },
});

export const byRest = (
  restMinutes: number,
  floodMinutes: number,
): NonNullable<PlanSetting['parts'][number]> => ({
  floodMinutes,
  pace: { kind: 'rest', restMinutes },
});

/** Whole numbers evenly from `least` to `most`, by these dice. */
export const wholeFrom = (dice: () => number, least: number, most: number): number =>
  least + Math.floor(dice() * (most - least + 1));

export const rangeFrom = (dice: () => number, least: number, most: number): number =>
  least + dice() * (most - least);

export const oneOf = <Item>(dice: () => number, items: readonly Item[]): Item =>
  items[wholeFrom(dice, 0, items.length - 1)]!;

const CROPS = ['butterhead', 'basil', 'pak-choi'] as const;

export interface ShedKind {
  /** Days since sowing. */
  readonly ageDays: readonly [least: number, most: number];
  readonly startedInPlace: boolean;
  readonly hotDay: {
    readonly minCelsius: number;
    readonly maxCelsius: number;
    readonly humidityPercent: number;
  };
  /** Each bench is replanted after this many days of the search, with plants of an age of the same range. */
  readonly replantedAfterDays?: number;
  readonly topUp: 'by-hand' | { readonly floatValveAtLitres: number; readonly litresPerMinute: number };
}

const dateBefore = (days: number): string =>
  new Date(Date.parse(`${DATE}T12:00:00Z`) - days * 86_400_000).toISOString().slice(0, 10);

/** One to three benches of any crop, ages, lengths, flows and slopes, in front of the example's plan. */
export const anyShedOf = (dice: () => number, kind: ShedKind, ...more: readonly Change[]): Farm => {
  const benches = Array.from({ length: wholeFrom(dice, 1, 3) }, (_, place) => {
    const channels = wholeFrom(dice, 6, 14);
    return {
      name: `Bench ${place + 1}`,
      channels,
      lengthMetres: 6,
      innerDiameterMillimetres: 75,
      slopePercent: 2,
      litresPerMinute: Math.round(channels * rangeFrom(dice, 0.6, 1.2)),
      liftMetres: rangeFrom(dice, 0.9, 1.4),
      plants: channels * wholeFrom(dice, 16, 28),
      crop: oneOf(dice, CROPS),
      sown: dateBefore(wholeFrom(dice, ...kind.ageDays)),
      startedInPlace: kind.startedInPlace,
      ...(kind.replantedAfterDays === undefined
        ? {}
        : {
            next: [
              {
                on: dateBefore(-kind.replantedAfterDays),
                plants: channels * wholeFrom(dice, 16, 28),
                crop: oneOf(dice, CROPS),
                sown: dateBefore(wholeFrom(dice, ...kind.ageDays)),
                startedInPlace: kind.startedInPlace,
              },
            ],
          }),
    };
  });
  return farmWith(
    [['benches'], benches],
    [['hotDay'], kind.hotDay],
    [['tank'], { litres: 900, usualLitres: 800, dryLitres: 60, topUp: kind.topUp }],
    ...more,
  );
};
