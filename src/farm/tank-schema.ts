import { z } from 'zod';

const topUp = z.union([
  z.literal('by-hand'),
  z.strictObject({
    floatValveAtLitres: z.number().min(1).describe('tank volume at which the valve closes'),
    litresPerMinute: z.number().min(0.1).max(200),
  }),
]);

const strength = z.number().min(0.1).max(5);

const strengthBand = z.strictObject({
  leastMillisiemensPerCm: strength.describe('weaker than this, at 25 °C, is told'),
  mostMillisiemensPerCm: strength.describe('stronger than this, at 25 °C, is told'),
});

/** The tank of the farm file, with what is in it and what is added to it. */
export const tankSchema = z.strictObject({
  litres: z.number().min(20).max(100_000).describe('to the brim'),
  usualLitres: z.number().min(10).max(100_000).describe('in the tank when the channels are drained'),
  dryLitres: z.number().min(0).max(50_000).describe('below this the pump draws air'),
  topUp: topUp.default('by-hand'),
  topUpMillisiemensPerCm: z.number().min(0).max(5).default(0.3).describe('strength of the water added'),
  strengthMillisiemensPerCm: strength.default(1.6).describe('usual strength at 25 °C'),
  strengthBand: strengthBand
    .optional()
    .describe('what the strength may be; 25 % below to 30 % above the usual one where it is left out'),
});
