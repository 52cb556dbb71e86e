import type { Sample } from '../../src/ports/sample.ts';
import { exp } from '../../src/physics/portable-math.ts';
import { humidityPercentAt } from '../../src/physics/vapour.ts';
import type { MonotonicMillis } from '../../src/time/instant.ts';
import { gaussian, type Dice } from '../dice.ts';
import { standing, type Fault } from '../faults/fault.ts';
import type { Plant } from '../plant/plant.ts';
import type { Sky } from '../weather/sky.ts';

/** Which sensors hang on the board. */
export interface Fitted {
  readonly airTemperature: boolean;
  readonly humidity: boolean;
  readonly returnFlow: 'switch' | 'meter' | 'none';
  readonly pumpCurrent: boolean;
  readonly relayReadBack: boolean;
  readonly tankLevel: boolean;
  readonly tankFloat: boolean;
  readonly leakSensor: boolean;
  readonly overflowFloat: boolean;
  readonly waterTemperature?: boolean;
  readonly mainsPresent?: boolean;
}

/** Noise and lag of cheap sensors; engineering judgement, no source. */
const NOISE = {
  airCelsius: 0.2,
  airLagMinutes: 3,
  waterCelsius: 0.05,
  humidityPercent: 2,
  flowShare: 0.03,
  flowLitresPerMinute: 0.3,
  tankLitres: 2,
} as const;
/** A return switch closes above this share of the flow with every bench running. */
const SWITCH_SHARE = 0.25;
/** A film of water lets the leak sensor speak. */
const FLOOR_WET_LITRES = 1;
/** The float hangs this far above the level at which the pump draws air, L. */
const FLOAT_ABOVE_DRY_LITRES = 20;

export interface Sensors {
  /** Reads every fitted sensor now. */
  readonly sense: (at: MonotonicMillis, contact: 'closed' | 'open') => readonly Sample[];
}

/** Sensors in the simulated shed, with noise, lag and the faults of the script. */
export const createSensors = (
  plant: Plant,
  sky: Sky,
  shed: {
    readonly fitted: Fitted;
    readonly faults: readonly Fault[];
    readonly fullReturnLitresPerMinute: number;
    readonly dice: Dice;
  },
): Sensors => {
  const { fitted, faults, dice } = shed;
  let laggedCelsius: number | null = null;
  let laggedAt = plant.state.atMillis;

  const has = (kind: Fault['kind']): boolean => standing(faults, kind, plant.state.atMillis);

  const airCelsius = (): number => {
    const truth = sky.at(plant.state.atMillis).airCelsius + (has('air-in-sun') ? 15 : 0);
    const minutes = (plant.state.atMillis - laggedAt) / 60_000;
    laggedCelsius =
      laggedCelsius === null ? truth : truth + (laggedCelsius - truth) * exp(-minutes / NOISE.airLagMinutes);
    laggedAt = plant.state.atMillis;
    return has('air-open') ? -127 : laggedCelsius + NOISE.airCelsius * gaussian(dice);
  };

  const returnLitresPerMinute = (): number => {
    if (has('flow-stuck-low')) return 0;
    if (has('flow-stuck-high')) return shed.fullReturnLitresPerMinute;
    const truth = plant.state.returnLitresPerMinute;
    const noise = NOISE.flowLitresPerMinute + NOISE.flowShare * truth;
    return Math.max(0, truth + noise * gaussian(dice));
  };

  return {
    sense: (at, contact) => {
      const samples: Sample[] = [];
      const { tank } = plant.state;
      const air = sky.at(plant.state.atMillis);
      if (fitted.airTemperature && !has('air-silent')) {
        samples.push({ at, channel: 'air-temperature', celsius: airCelsius() });
      }
      if (fitted.humidity) {
        const percent = humidityPercentAt(air.airCelsius, air.vapourKilopascals);
        const read = percent + NOISE.humidityPercent * gaussian(dice);
        samples.push({ at, channel: 'humidity', percent: Math.min(100, Math.max(1, read)) });
      }
      if (fitted.returnFlow !== 'none' && !has('flow-silent')) {
        const litresPerMinute = returnLitresPerMinute();
        samples.push(
          fitted.returnFlow === 'meter'
            ? { at, channel: 'return-flow', litresPerMinute }
            : {
                at,
                channel: 'return-switch',
                flowing: litresPerMinute > SWITCH_SHARE * shed.fullReturnLitresPerMinute,
              },
        );
      }
      if (fitted.pumpCurrent) {
        const drawing = contact === 'closed' && !has('pump-unplugged') && !has('mains-lost');
        samples.push({ at, channel: 'pump-current', drawing });
      }
      if (fitted.relayReadBack) {
        samples.push({ at, channel: 'relay-read-back', closed: contact === 'closed' });
      }
      if (fitted.tankLevel) {
        const litres = Math.max(0, tank.litres + NOISE.tankLitres * gaussian(dice));
        samples.push({ at, channel: 'tank-level', litres });
      }
      if (fitted.tankFloat) {
        const low =
          has('float-stuck-low') || tank.litres < plant.build.tank.dryLitres + FLOAT_ABOVE_DRY_LITRES;
        samples.push({ at, channel: 'tank-float', low });
      }
      if (fitted.leakSensor) samples.push({ at, channel: 'leak', wet: tank.floorLitres > FLOOR_WET_LITRES });
      if (fitted.overflowFloat) {
        samples.push({ at, channel: 'overflow', wet: tank.litres >= plant.build.tank.brimLitres });
      }
      if (fitted.mainsPresent === true) samples.push({ at, channel: 'mains', there: !has('mains-lost') });
      if (fitted.waterTemperature === true) {
        const celsius = tank.celsius + NOISE.waterCelsius * gaussian(dice);
        samples.push({ at, channel: 'water-temperature', celsius });
      }
      return samples;
    },
  };
};
