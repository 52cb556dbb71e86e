import type { Board, PumpCommand } from '../../src/ports/board.ts';
import type { Sample } from '../../src/ports/sample.ts';
import type { MonotonicMillis } from '../../src/time/instant.ts';
import { gaussian, type Dice } from '../dice.ts';
import { breakPlant } from '../faults/plant-faults.ts';
import { nextChange, standing, type Fault } from '../faults/fault.ts';
import type { Plant, Witness } from '../plant/plant.ts';
import type { Sky } from '../weather/sky.ts';
import { humidityPercentAt } from '../../src/physics/vapour.ts';

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
}

/** Noise and lag of cheap sensors; engineering judgement, no source. */
const NOISE = {
  airCelsius: 0.2,
  airLagMinutes: 3,
  humidityPercent: 2,
  flowShare: 0.03,
  flowLitresPerMinute: 0.3,
  tankLitres: 2,
} as const;
/** A return switch closes above this share of the flow with every bench running. */
const SWITCH_SHARE = 0.25;
/** The float hangs this far above the level at which the pump draws air, L. */
const FLOAT_ABOVE_DRY_LITRES = 20;
/** The board itself keeps the motor from chattering and never runs it past this. */
export interface BoardLimits {
  readonly shortestOffSeconds: number;
  readonly longestOnMinutes: number;
}

export interface ShedBoard extends Board {
  /** Lets time pass in the shed up to `untilMillis`; the board keeps its own limits meanwhile. */
  readonly advance: (untilMillis: number, witness?: Witness) => void;
  /** Reads every fitted sensor now. */
  readonly sense: (now: MonotonicMillis) => void;
}

/**
 * A board in front of the simulated plant: takes pump commands, holds longest-on and shortest-off by itself
 * and reads sensors with noise and lag.
 */
export const createShedBoard = (
  plant: Plant,
  sky: Sky,
  shed: {
    readonly fitted: Fitted;
    readonly limits: BoardLimits;
    readonly faults: readonly Fault[];
    readonly fullReturnLitresPerMinute: number;
    readonly dice: Dice;
  },
): ShedBoard => {
  const { fitted, limits, faults, dice } = shed;
  let samples: Sample[] = [];
  let asked: 'on' | 'off' = 'off';
  let startedAt = -Infinity;
  let offAt = Infinity;
  let stoppedAt = -Infinity;
  let laggedCelsius: number | null = null;
  let laggedAt = plant.state.atMillis;

  const has = (kind: Fault['kind']): boolean => standing(faults, kind, plant.state.atMillis);
  const contactClosed = (): boolean => has('relay-welded') || (asked === 'on' && !has('relay-open'));
  const drive = (): void => {
    breakPlant(plant, faults, plant.state.atMillis);
    plant.setPump(contactClosed());
  };
  const stop = (): void => {
    if (asked === 'on') stoppedAt = plant.state.atMillis;
    asked = 'off';
    offAt = Infinity;
  };

  const airCelsius = (): number => {
    const truth = sky.at(plant.state.atMillis).airCelsius + (has('air-in-sun') ? 15 : 0);
    const minutes = (plant.state.atMillis - laggedAt) / 60_000;
    laggedCelsius =
      laggedCelsius === null
        ? truth
        : truth + (laggedCelsius - truth) * Math.exp(-minutes / NOISE.airLagMinutes);
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

  const sense = (at: MonotonicMillis): void => {
    const { tank } = plant.state;
    const air = sky.at(plant.state.atMillis);
    const powered = contactClosed() && !has('pump-unplugged');
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
    if (fitted.pumpCurrent) samples.push({ at, channel: 'pump-current', drawing: powered });
    if (fitted.relayReadBack) samples.push({ at, channel: 'relay-read-back', closed: contactClosed() });
    if (fitted.tankLevel) {
      const litres = Math.max(0, tank.litres + NOISE.tankLitres * gaussian(dice));
      samples.push({ at, channel: 'tank-level', litres });
    }
    if (fitted.tankFloat) {
      const low = has('float-stuck-low') || tank.litres < plant.build.tank.dryLitres + FLOAT_ABOVE_DRY_LITRES;
      samples.push({ at, channel: 'tank-float', low });
    }
    if (fitted.leakSensor) samples.push({ at, channel: 'leak', wet: tank.leakedLitres > 1 });
    if (fitted.overflowFloat) {
      samples.push({ at, channel: 'overflow', wet: tank.litres >= plant.build.tank.brimLitres });
    }
  };

  return {
    command: (command: PumpCommand): void => {
      if (command.kind === 'pump-off') {
        stop();
      } else if (plant.state.atMillis - stoppedAt >= limits.shortestOffSeconds * 1000) {
        const now = plant.state.atMillis;
        // Asked again while it runs, the pump still gets no more than the longest-on of one run.
        if (asked === 'off') startedAt = now;
        asked = 'on';
        offAt = Math.min(now + command.longest * 1000, startedAt + limits.longestOnMinutes * 60_000);
      }
      drive();
    },
    samples: () => {
      const seen = samples;
      samples = [];
      return seen;
    },
    advance: (untilMillis, witness) => {
      while (plant.state.atMillis < untilMillis) {
        drive();
        const end = Math.min(untilMillis, offAt, nextChange(faults, plant.state.atMillis));
        plant.advance(end, witness);
        if (plant.state.atMillis >= offAt) stop();
      }
      drive();
    },
    sense,
  };
};
