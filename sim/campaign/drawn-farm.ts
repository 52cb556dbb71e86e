import type { Farm } from '../../src/farm/farm.ts';
import { parseFarm } from '../../src/farm/parse.ts';
import { BrokenAssertion } from '../../src/units/assertion.ts';
import type { Dice } from '../dice.ts';

/** Invented farms for the campaign: each seed grows something else, sees it otherwise and floods by another plan. */

const pick = <Item>(dice: Dice, items: readonly Item[]): Item => {
  const item = items[Math.floor(dice() * items.length)];
  if (item === undefined) throw new BrokenAssertion('nothing to pick from');
  return item;
};
const between = (dice: Dice, least: number, most: number): number => least + (most - least) * dice();
const chance = (dice: Dice, share: number): boolean => dice() < share;

const SOWN = ['2026-05-22', '2026-06-02', '2026-06-10', '2026-06-18', '2026-06-28'] as const;

/** What the benches of a farm may differ in. */
interface Build {
  readonly channels: number;
  readonly lengthMetres: number;
  readonly litresPerMinute: number;
}

const USUAL: Build = { channels: 12, lengthMetres: 6, litresPerMinute: 10 };

const unlike = (dice: Dice): Build => ({
  channels: pick(dice, [6, 12, 16]),
  lengthMetres: pick(dice, [3, 6, 12, 18]),
  litresPerMinute: pick(dice, [6, 10, 14]),
});

/** How many benches of the usual build hold as much. */
const sizeOf = ({ channels, lengthMetres }: Build): number =>
  (channels * lengthMetres) / (USUAL.channels * USUAL.lengthMetres);

const benchOf = (dice: Dice, place: number, build: Build): object => ({
  name: `Bench ${place + 1}`,
  ...build,
  innerDiameterMillimetres: 75,
  slopePercent: pick(dice, [2, 2.5]),
  liftMetres: pick(dice, [1.1, 1.3]),
  plants: Math.round(sizeOf(build) * between(dice, 180, 300)),
  crop: pick(dice, ['butterhead', 'basil', 'pak-choi']),
  sown: pick(dice, SOWN),
});

const NIGHT = { from: 'sunset+00:30', to: '06:00', floodMinutes: 20 } as const;
const PLANS = [
  (dice: Dice): readonly object[] => [
    { part: 'early morning', from: '06:00', to: '08:00', floods: 2, floodMinutes: 20 },
    {
      part: 'heat of the day',
      from: '08:00',
      to: '16:00',
      restMinutes: pick(dice, [20, 25, 30]),
      floodMinutes: 20,
    },
    { part: 'late afternoon', from: '16:00', to: NIGHT.from, floods: 4, floodMinutes: 20 },
    { part: 'night', ...NIGHT, floods: pick(dice, [3, 4]) },
  ],
  (dice: Dice): readonly object[] => [
    {
      part: 'day',
      from: '06:00',
      to: NIGHT.from,
      restMinutes: pick(dice, [20, 25]),
      floodMinutes: pick(dice, [15, 20]),
    },
    { part: 'night', ...NIGHT, restMinutes: pick(dice, [120, 150]) },
  ],
] as const;

/** What tells of the water. At least the return is watched: a farm that sees nothing can be told nothing. */
const evidenceOf = (dice: Dice): object => ({
  returnFlow: pick(dice, ['meter', 'meter', 'switch'] as const),
  pumpCurrent: chance(dice, 0.7),
  relayReadBack: chance(dice, 0.6),
  tankFloat: chance(dice, 0.8),
  tankLevel: chance(dice, 0.3),
  leakSensor: chance(dice, 0.4),
  overflowFloat: chance(dice, 0.4),
  mainsPresent: chance(dice, 0.4),
});

const HOT_DAYS = [
  { minCelsius: 21, maxCelsius: 36, humidityPercent: 45 },
  { minCelsius: 17, maxCelsius: 31, humidityPercent: 55 },
  { minCelsius: 14, maxCelsius: 26, humidityPercent: 65 },
  { minCelsius: 24, maxCelsius: 33, humidityPercent: 75 },
] as const;

/** What a usual bench drinks on a hot day, and what stands out in its channels: nobody fills a tank that does not last a day. */
const LITRES_A_BENCH = 300;
/** At most so much of a bench's share stands out in a flood: a valve that closed above that would fill the tank over its brim. */
const LITRES_OUT = 65;
/** So many usual benches a tank of the common size serves. */
const SERVED = 4;

const handFilled = (size: number): object => ({
  litres: 400 + LITRES_A_BENCH * size,
  usualLitres: 300 + LITRES_A_BENCH * size,
  topUp: 'by-hand',
});

const valveFilled = (size: number): object => {
  const times = Math.max(1, size / SERVED);
  return {
    litres: 600 * times,
    usualLitres: 540 * times,
    topUp: { floatValveAtLitres: 520 * times - LITRES_OUT * size, litresPerMinute: 8 * times },
  };
};

/** In so many of the farms the benches are long, short or slow, and the shortest flood is well below what the plan wants. */
const UNLIKE_SHARE = 0.3;

/** The file of an invented farm, as a grower might write it. */
const drawnFile = (dice: Dice, own: Dice): object => {
  const isUnlike = chance(own, UNLIKE_SHARE);
  const builds = Array.from({ length: 1 + Math.floor(dice() * 4) }, () => (isUnlike ? unlike(own) : USUAL));
  const benches = builds.map((build, place) => benchOf(dice, place, build));
  const size = builds.reduce((sum, build) => sum + sizeOf(build), 0);
  const valve = chance(dice, 0.6);
  return {
    farm: 'Campaign',
    invented: { today: '2026-07-14' },
    place: {
      latitudeDegrees: 37.1,
      longitudeDegrees: -8,
      elevationMetres: 180,
      timeZone: 'Europe/Lisbon',
      sunShare: between(dice, 0.6, 1),
    },
    pump: { headMetresMax: 9, litresPerMinuteMax: 90, watts: 250, shortestOffSeconds: pick(dice, [30, 60]) },
    tank: {
      ...(valve ? valveFilled(size) : handFilled(size)),
      dryLitres: 40,
    },
    benches,
    dayPlan: pick(dice, PLANS)(dice),
    temperatureRule: { referenceCelsius: pick(dice, [25, 30]), restPercentPerDegree: pick(dice, [-3, -4]) },
    bounds: {
      restMinutesByDay: { shortest: 10, longest: 75 },
      restMinutesByNight: { shortest: 20, longest: 210 },
      floodMinutes: { shortest: isUnlike ? pick(own, [5, 8, 10]) : 10, longest: 35 },
      startsPerHour: 4,
    },
    floors: { stress: 0.5, wilt: 0.2 },
    evidence: evidenceOf(dice),
    sensors: { airTemperature: true, humidity: chance(dice, 0.6) },
    hotDay: pick(dice, HOT_DAYS),
    deadBoard: 'pump-stops',
    outsideWatcher: 'nobody',
  };
};

/**
 * What makes a farm unlike the others is by dice of its own, lest it shift what is drawn after it.
 *
 * @throws BrokenAssertion when a farm was drawn that its own checks refuse
 */
export const drawnFarm = (dice: Dice, own: Dice): Farm => {
  const parsed = parseFarm(drawnFile(dice, own));
  if (!parsed.ok) throw new BrokenAssertion(`a drawn farm has problems: ${JSON.stringify(parsed.problems)}`);
  return parsed.farm;
};
