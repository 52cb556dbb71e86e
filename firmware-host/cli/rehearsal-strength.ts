import { centralOf, type Rehearsal } from './rehearsal.ts';

/** A quarter above the usual is more than a dose that went astray a little. Common practice, no source. */
const STRONG_SHARE = 1.25;

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

/**
 * A crop is lost to salt as well as to thirst, and a verdict on its water alone must not pass for one on both. Empty
 * where the tank stays near its usual strength.
 */
export const tooStrongText = ({ farm, outcomes }: Rehearsal): readonly string[] => {
  const usual = farm.tank.strengthMillisiemensPerCm;
  const strongest = outcomes.map(({ strength }) => strength.strongest);
  const strong = strongest.filter((value) => value > STRONG_SHARE * usual).length;
  return strong === 0
    ? []
    : [
        `THE TANK GROWS TOO STRONG in ${strong} of ${outcomes.length} runs: up to ${Math.max(...strongest).toFixed(2)} mS/cm, ` +
          `usual is ${usual.toFixed(2)}. What that does to the crop is not judged here.`,
      ];
};
