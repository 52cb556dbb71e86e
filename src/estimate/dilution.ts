import type { Farm } from '../farm/farm.ts';

/** What brings a solution back to its usual strength. */
export type StrengthRemedy =
  /** Plain water on top of what is there, where the tank has room for it. */
  | { readonly kind: 'add-water'; readonly litres: number }
  /** So much out, and as much plain water in. */
  | { readonly kind: 'swap-water'; readonly litres: number }
  /** The water that tops up the tank is no weaker than the solution should be. */
  | { readonly kind: 'no-water' }
  | { readonly kind: 'add-stock' }
  /** It is back already, and only has to stay so. */
  | { readonly kind: 'wait' };

/** What is in the tank when the channels are drained, and in tank and channels together. */
export interface LoopWater {
  readonly tankLitres: number;
  readonly loopLitres: number;
}

/**
 * Salts are kept: V litres of strength S with x litres of strength w are (V·S + x·w) / (V + x), which is the usual strength u
 * at x = V·(S − u) / (u − w). Where x has no room, R litres are taken out and as many put in: ((V − R)·S + R·w) / V is u at
 * R = V·(S − u) / (S − w). Conductivities at 25 °C add like this in weak solutions only nearly (the mobility of ions falls with
 * strength), which is why it is done in steps. Never grams: what was weighed nobody here knows.
 */
export const strengthRemedy = (
  { tank }: Pick<Farm, 'tank'>,
  { tankLitres, loopLitres }: LoopWater,
  millisiemensPerCm: number,
): StrengthRemedy => {
  const { strengthMillisiemensPerCm: usual, topUpMillisiemensPerCm: water } = tank;
  const beyond = millisiemensPerCm - usual;
  if (water >= usual) return { kind: 'no-water' };
  const added = (loopLitres * beyond) / (usual - water);
  if (tankLitres + added <= tank.litres) return { kind: 'add-water', litres: added };
  return { kind: 'swap-water', litres: (loopLitres * beyond) / (millisiemensPerCm - water) };
};
