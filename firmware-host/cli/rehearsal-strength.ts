import { hasPlants } from '../../src/farm/standing.ts';
import { itemAt } from '../../src/units/assertion.ts';
import { bandOf } from '../simulated-shed.ts';
import { WARM_CELSIUS } from '../tune/limit.ts';
import { centralOf, type Rehearsal } from './rehearsal.ts';

/** A quarter above the usual is more than a dose that went astray a little. Common practice, no source. */
const STRONG_SHARE = 1.25;
/** And a quarter below likewise. */
const WEAK_SHARE = 0.75;

/** Of the tank in the central run. Start and end say little where it is dosed each morning: the range stands first. */
export const strengthText = (rehearsal: Rehearsal): string => {
  const { weakest, strongest, start, end } = centralOf(rehearsal).strength;
  const [least, most, from, to] = [weakest, strongest, start, end].map((value) => value.toFixed(2));
  const how =
    rehearsal.days > 1
      ? `${rehearsal.days} days, salts added each morning as the probe shows it`
      : 'day, with nothing added but water since noon before';
  return `Strength of the tank between ${least} and ${most} mS/cm, ${from} at the beginning and ${to} at the end of the ${how}.`;
};

const NOT_JUDGED = 'is not judged here.';

const tooStrongText = ({ farm, outcomes }: Rehearsal): readonly string[] => {
  const usual = farm.tank.strengthMillisiemensPerCm;
  const strongest = outcomes.map(({ strength }) => strength.strongest);
  const strong = strongest.filter((value) => value > STRONG_SHARE * usual).length;
  return strong === 0
    ? []
    : [
        `THE TANK GROWS TOO STRONG in ${strong} of ${outcomes.length} runs: up to ${Math.max(...strongest).toFixed(2)} mS/cm, ` +
          `usual is ${usual.toFixed(2)}. What that does to the crop ${NOT_JUDGED}`,
      ];
};

/** On a plain day nobody adds salts, and plants that drink much leave any tank weak by the evening: that is no finding. */
const tooWeakText = ({ farm, outcomes, days, faults }: Rehearsal): readonly string[] => {
  if (days === 1 && faults.length === 0) return [];
  const usual = farm.tank.strengthMillisiemensPerCm;
  const weakest = outcomes.map(({ strength }) => strength.weakest);
  const weak = weakest.filter((value) => value < WEAK_SHARE * usual).length;
  return weak === 0
    ? []
    : [
        `THE TANK GROWS TOO WEAK in ${weak} of ${outcomes.length} runs: down to ${Math.min(...weakest).toFixed(2)} mS/cm, ` +
          `usual is ${usual.toFixed(2)}${days > 1 ? '' : ', with nothing added but water'}. What that does to the crop ${NOT_JUDGED}`,
      ];
};

/** By the middle of the runs, of the warmest planted bench of each. */
const tooWarmText = ({ farm, outcomes }: Rehearsal): readonly string[] => {
  const warmest = outcomes.map(({ benches }) =>
    Math.max(
      ...benches.flatMap(({ warmest: { value } }, place) =>
        hasPlants(itemAt(farm.benches, place)) ? [value] : [],
      ),
    ),
  );
  const { middle } = bandOf(warmest);
  const warm = warmest.filter((value) => value > WARM_CELSIUS).length;
  return middle <= WARM_CELSIUS
    ? []
    : [
        `THE WATER IN THE CHANNELS GROWS TOO WARM in ${warm} of ${outcomes.length} runs: ${middle.toFixed(0)} °C in the middle one, ` +
          `up to ${WARM_CELSIUS} °C is common practice. What that does to the roots ${NOT_JUDGED}`,
      ];
};

/**
 * A crop is lost to salt and to heat as well as to thirst, and a verdict on its water alone must not pass for one on all.
 * Empty where the water stays near its usual strength and cool enough.
 */
export const besideWaterText = (rehearsal: Rehearsal): readonly string[] => [
  ...tooStrongText(rehearsal),
  ...tooWeakText(rehearsal),
  ...tooWarmText(rehearsal),
];
