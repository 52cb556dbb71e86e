import type { Farm } from '../../src/farm/farm.ts';
import { wallMillis } from '../../src/time/instant.ts';
import { localDayOn } from '../../src/time/local-day.ts';
import { gaussian, seededDice, type Dice } from '../dice.ts';
import type { InjectorName } from '../faults/injectors.ts';
import { CENTRAL, drawnJudgements } from '../plant/judgements.ts';
import type { Climate } from '../weather/drawn-extremes.ts';
import { drawnSky } from '../weather/drawn-days.ts';
import { madeSky } from '../weather/made-day.ts';
import type { Sky } from '../weather/sky.ts';
import { campaignRun, type RunAsked } from './campaign-run.ts';
import { drawnBeside } from './drawn-beside.ts';
import { drawnFarm } from './drawn-farm.ts';
import { drawnScript, NOTHING_BROKEN } from './drawn-script.ts';
import type { CampaignRun } from './export.ts';
import type { BoardKind } from './met-board.ts';
import type { Tampering } from './tampering.ts';

const HOUR = 3_600_000;
const DAY = 24 * HOUR;
/** Faults begin after the first hours, and the last third of a run is without any. */
const CALM_HOURS = 3;
const CLEAR_SHARE = 2 / 3;
/** In so many of the seeds the board keeps the plants. */
const KEEPS_SHARE = 0.25;

export interface SeedAsked {
  readonly seed: number;
  readonly days: number;
  /** Injectors that must be among those of the seed. */
  readonly pair?: readonly InjectorName[];
  /** Nothing is broken, but sensors have their noise. */
  readonly faultFree?: true;
  /** As the seed draws it unless given. */
  readonly boardKind?: BoardKind;
  readonly tampering?: Tampering;
}

/**
 * Which board a seed has, by dice of its own: farm and faults are drawn as they always were, and under these numbers the
 * seeds that tests name have the board that they always had.
 */
export const drawnBoard = (seed: number): BoardKind =>
  seededDice(seed * 359 + 17)() < KEEPS_SHARE ? 'keeps' : 'stock';

/** What the benches of a seed are built like, by dice of its own for the same reason. */
const buildDice = (seed: number): Dice => seededDice(seed * 131 + 31);

const climateOf = (): Climate => ({
  monthly: [
    [8, 16, 79],
    [8, 17, 76],
    [10, 19, 72],
    [11, 21, 69],
    [14, 24, 65],
    [17, 28, 60],
    [19, 32, 55],
    [19, 32, 56],
    [18, 29, 62],
    [15, 25, 69],
    [11, 20, 76],
    [9, 17, 80],
  ].map(([minCelsius = 0, maxCelsius = 0, humidityPercent]) => ({ minCelsius, maxCelsius, humidityPercent })),
  spreadCelsius: 3,
  site: 'inland',
});

const skyOf = (farm: Farm, startMillis: number, days: number, seed: number): Sky => {
  const dice = seededDice(seed * 31 + 7);
  const made = { place: farm.place, start: wallMillis(startMillis - 6 * HOUR), days: Math.ceil(days) + 2 };
  return dice() < 0.4
    ? madeSky({ ...made, ...farm.hotDay })
    : drawnSky({ ...made, climate: climateOf(), normal: () => gaussian(dice) });
};

/** What a seed draws: all of it hangs on its number alone. */
export const drawnRun = ({ seed, days, pair, faultFree, boardKind, tampering }: SeedAsked): RunAsked => {
  const dice = seededDice(seed);
  const farm = drawnFarm(dice, buildDice(seed));
  const judgements = dice() < 0.2 ? CENTRAL : drawnJudgements(dice);
  const startMillis = localDayOn('2026-07-14', farm.place.timeZone).start;
  const endMillis = startMillis + days * DAY;
  const clearMillis = startMillis + Math.round(days * DAY * CLEAR_SHARE);
  const act = {
    from: startMillis + CALM_HOURS * HOUR,
    until: clearMillis,
    ...(pair === undefined ? {} : { pair }),
  };
  const script =
    faultFree === true
      ? NOTHING_BROKEN
      : { ...drawnScript(farm, dice, act), beside: drawnBeside(seededDice(seed * 53 + 11), act) };
  return {
    farm,
    sky: skyOf(farm, startMillis, days, seed),
    judgements,
    script,
    boardKind: boardKind ?? drawnBoard(seed),
    dice,
    // Nothing beside control may change what happens in the shed: it has dice of its own.
    besideDice: seededDice(seed * 59 + 13),
    startMillis,
    endMillis,
    clearMillis,
    ...(tampering === undefined ? {} : { tampering }),
  };
};

/** The run of a seed, the controller right before its shed. */
export const seedRun = (asked: SeedAsked): CampaignRun => campaignRun(drawnRun(asked));
