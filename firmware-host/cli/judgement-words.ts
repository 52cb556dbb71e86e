import type { Judgement } from '../simulated-shed.ts';

/** What a judgement is called, and how a grower could measure it: docs/model.md, "Field tests". */
export const JUDGEMENT_WORDS: Readonly<
  Record<Judgement, { readonly is: string; readonly test: string | null }>
> = {
  flowFactor: { is: 'the flow into the benches', test: 'bucket and stopwatch' },
  drainCoefficient: { is: 'how fast the channels drain', test: 'the drain test' },
  wettingLitres: { is: 'how much water wets the roots', test: 'the wetting test' },
  refillPerMinute: { is: 'how fast the roots take up water', test: 'the wetting test' },
  capacityFactor: { is: 'how much water the roots hold back', test: 'the wetting test' },
  stressTheta: { is: 'when thirst begins', test: null },
  radiationShare: { is: 'what the plants drink in the sun', test: 'the dry-down test' },
  deficitWatts: { is: 'what the plants drink in dry air', test: 'the dry-down test' },
  airExchangeLitresPerMinute: { is: 'how fast the air warms the channels', test: null },
  aerationLitresPerMinute: { is: 'how fast still water takes up oxygen', test: 'the oxygen test' },
  respirationMilligrams: { is: 'how much oxygen the roots use', test: 'the oxygen test' },
  respirationQ10: { is: 'how much more they use when it is warm', test: null },
  cupContact: { is: 'how well bare cups take up a film', test: null },
  cupSquareMetres: { is: 'how much of a bare cup lies wet in the open', test: null },
  leafFactor: { is: 'how much leaf the crop has at its age', test: 'the dry-down test' },
  rootDryShare: { is: 'how much of the roots is not water', test: null },
  rootSubmergedShare: { is: 'how much of the roots is under water', test: 'the oxygen test' },
  mixingPerMinute: { is: 'how fast a flood renews the water about the roots', test: null },
};
