import { manningDepthMetres } from '../physics/manning.ts';
import { heldLitresMax, standingLitres } from './channel-water.ts';
import type { Bench, Farm } from './farm.ts';
import { standingOn } from './standing.ts';
import { warnWhen, type FarmWarning } from './warning.ts';

/** Usual practice for sloping channels: 1–2 L/min each and 10–15 m at most; outside these a slip is likely. */
const CHANNEL_LITRES_PER_MINUTE = { least: 0.3, most: 3 };
const CHANNEL_METRES = { least: 1, most: 15 };
const DIAMETER_MILLIMETRES = { least: 40, most: 160 };
/** Below 1 % water stands behind every root mat. */
const SLOPE_PERCENT_LEAST = 1;
/** Manning's n of smooth plastic, s m^(−1/3). */
const SMOOTH_PLASTIC = 0.01;
/** A pump of this size turns 10 to 50 % of its electricity into lift; 85 % is better than any. */
const PUMP_SHARE = { least: 0.02, most: 0.85 };
const GRAVITY = 9.81;

const flowWarnings = (bench: Bench, place: number): readonly FarmWarning[] => {
  const path = ['benches', place, 'litresPerMinute'];
  const perChannel = bench.litresPerMinute / bench.channels;
  const diameterMetres = bench.innerDiameterMillimetres / 1000;
  const depth = manningDepthMetres({
    diameterMetres,
    slope: bench.slopePercent / 100,
    roughness: SMOOTH_PLASTIC,
    litresPerMinute: perChannel,
  });
  const share = depth === null ? null : Math.round((100 * depth) / diameterMetres);
  return [
    ...warnWhen(perChannel < CHANNEL_LITRES_PER_MINUTE.least, {
      path,
      says: `${bench.name}: ${perChannel.toFixed(2)} L/min in each channel is little; ${CHANNEL_LITRES_PER_MINUTE.least} to ${CHANNEL_LITRES_PER_MINUTE.most} is usual.`,
      advice:
        'The value is for all channels of the bench together. Measure one channel by bucket and stopwatch.',
    }),
    ...warnWhen(perChannel > CHANNEL_LITRES_PER_MINUTE.most, {
      path,
      says: `${bench.name}: ${perChannel.toFixed(1)} L/min in each channel is much; ${CHANNEL_LITRES_PER_MINUTE.least} to ${CHANNEL_LITRES_PER_MINUTE.most} is usual.`,
      advice: 'The value is in litres per minute, not per hour. Measure one channel by bucket and stopwatch.',
    }),
    ...warnWhen(share === null || share > 50, {
      path,
      says: `${bench.name}: the channels would run ${share === null ? 'over' : `${share} % full`} even without roots.`,
      advice: 'Check flow, inner diameter and slope; a root mat raises the water further.',
    }),
  ];
};

const shapeWarnings = (bench: Bench, place: number): readonly FarmWarning[] => [
  ...warnWhen(bench.slopePercent < SLOPE_PERCENT_LEAST, {
    path: ['benches', place, 'slopePercent'],
    says: `${bench.name}: a slope of ${bench.slopePercent} % is below ${SLOPE_PERCENT_LEAST} %; water will stand in pools.`,
    advice: `Measure the fall over one channel: ${(bench.lengthMetres * 10).toFixed(0)} mm over ${bench.lengthMetres} m is 1 %.`,
  }),
  ...warnWhen(bench.lengthMetres < CHANNEL_METRES.least || bench.lengthMetres > CHANNEL_METRES.most, {
    path: ['benches', place, 'lengthMetres'],
    says: `${bench.name}: a channel of ${bench.lengthMetres} m is unusual; up to ${CHANNEL_METRES.most} m keeps the far end in oxygen.`,
    advice: 'The length is of one channel, in metres.',
  }),
  ...warnWhen(
    bench.innerDiameterMillimetres < DIAMETER_MILLIMETRES.least ||
      bench.innerDiameterMillimetres > DIAMETER_MILLIMETRES.most,
    {
      path: ['benches', place, 'innerDiameterMillimetres'],
      says: `${bench.name}: an inner diameter of ${bench.innerDiameterMillimetres} mm is unusual; ${DIAMETER_MILLIMETRES.least} to ${DIAMETER_MILLIMETRES.most} mm is common.`,
      advice: 'Measure inside the pipe, across, in millimetres.',
    },
  ),
];

const sum = (values: readonly number[]): number => values.reduce((total, value) => total + value, 0);

const tankWarnings = ({ benches, tank }: Farm, today: string): readonly FarmWarning[] => {
  const standing = sum(benches.map(standingLitres));
  const held = sum(benches.map((bench) => heldLitresMax(standingOn(bench, today), today)));
  const left = tank.usualLitres - standing - held;
  const valve = tank.topUp === 'by-hand' ? 0 : tank.topUp.floatValveAtLitres;
  const needs = `about ${standing.toFixed(0)} L stand in the channels during a flood`;
  return [
    ...warnWhen(left < tank.dryLitres, {
      path: ['tank', 'usualLitres'],
      says: `Of ${tank.usualLitres} L, ${needs} and dry roots take up to ${held.toFixed(0)} L: the pump may draw air.`,
      advice: 'Fill the tank higher, take a larger one, or flood fewer benches at once.',
    }),
    ...warnWhen(valve + standing > tank.litres, {
      path: ['tank', 'topUp', 'floatValveAtLitres'],
      says: `The float valve fills to ${valve} L while ${needs}; when they run back ${tank.litres} L is passed.`,
      advice: `Set the valve to close below ${Math.max(0, tank.litres - standing).toFixed(0)} L.`,
    }),
  ];
};

/** Greatest hydraulic power of a pump with a square-law curve: at 58 % of its flow and 67 % of its head. */
const liftWattsMax = ({ headMetresMax, litresPerMinuteMax }: Farm['pump']): number =>
  GRAVITY * ((2 / 3) * headMetresMax) * (litresPerMinuteMax / Math.sqrt(3) / 60);

const pumpWarnings = ({ pump }: Farm): readonly FarmWarning[] => {
  const lift = liftWattsMax(pump);
  const share = lift / pump.watts;
  return warnWhen(share > PUMP_SHARE.most || share < PUMP_SHARE.least, {
    path: ['pump', 'watts'],
    says: `With this head and flow the pump lifts at most ${lift.toFixed(0)} W of water, ${(100 * share).toFixed(0)} % of its ${pump.watts} W.`,
    advice: 'Read the label again: head in metres, flow in litres per minute (not per hour), power in watts.',
  });
};

/** Slips of units and unlikely values in channels, tank and pump. */
export const waterWarnings = (farm: Farm, today: string): readonly FarmWarning[] => [
  ...pumpWarnings(farm),
  ...tankWarnings(farm, today),
  ...farm.benches.flatMap((bench, place) => [...flowWarnings(bench, place), ...shapeWarnings(bench, place)]),
];
