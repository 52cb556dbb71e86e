import type { Step } from '../../src/controller.ts';
import { believedAir } from '../../src/controller/air.ts';
import type { Farm, Wiring } from '../../src/farm/farm.ts';
import { humidityPercentAt } from '../../src/physics/vapour.ts';
import type { Reading } from '../../src/sense/reading.ts';
import {
  humidityPercent,
  returnLitresPerMinute,
  switched,
  tankLitres,
  waterCelsius,
  type SwitchChannel,
} from '../../src/sense/senses.ts';
import { moduleOf, strength } from '../../src/sense/strength.ts';
import type { Now } from '../../src/time/instant.ts';
import { farmLitresPerMinute } from '../../src/verify/sighting.ts';
import type { Truth } from './wired-run.ts';

/**
 * How far a good reading may be from the truth. Of the simulated sensors: noise of 0.2 °C with 3 min of lag, 2 %, 3 %
 * of the flow and 0.3 L/min, 2 L, each taken four times and a half for ten thousand looks; and of the way to
 * the host: a step of the converter, and for the flow a rate over the last pulses while it rises by 20 L/min.
 */
const BOUNDS = {
  air: 1.5,
  water: 1,
  humidity: 10,
  flow: 10,
  litres: 12,
  strength: 0.08,
} as const;
/** A contact is told after two polls that agree and a look. */
const CONTACT_SECONDS = 5;
/** Every reading is held against the truth this often; more would cost as much as the run itself. */
const EVERY_SECONDS = 4;
/** About the flow at which a return switch closes its noise decides, share of the full flow. */
const SWITCH_SHARE = { closes: 0.25, noise: 0.1 } as const;
/** A float hangs 20 L above the level at which the pump draws air. */
const FLOAT_ABOVE_DRY_LITRES = 20;

export type ReadingName = keyof typeof BOUNDS | SwitchChannel;

export interface Held {
  /** Seconds in which a good reading was not true. */
  readonly falseSeconds: Partial<Record<ReadingName, number>>;
  /** Why readings were not good. */
  readonly whys: Set<string>;
}

export interface Holding {
  readonly held: Held;
  readonly look: (step: Step, now: Now, truth: Truth) => void;
}

/** Holds every reading against the plant as the host looks. */
export const againstTruth = (farm: Farm, wiring: Wiring): Holding => {
  const held: Held = { falseSeconds: {}, whys: new Set() };
  const truthSince = new Map<ReadingName, { readonly so: boolean; readonly atMillis: number }>();
  const full = farmLitresPerMinute(farm);
  const dryLitres = farm.tank.dryLitres + FLOAT_ABOVE_DRY_LITRES;

  let lookedAt = -Infinity;
  const note = <Value>(
    name: ReadingName,
    reading: Reading<Value>,
    isTrue: (value: Value) => boolean,
  ): void => {
    if (reading.quality !== 'good') held.whys.add(`${name}: ${reading.why}`);
    else if (!isTrue(reading.value)) held.falseSeconds[name] = (held.falseSeconds[name] ?? 0) + EVERY_SECONDS;
  };
  const near =
    (name: keyof typeof BOUNDS, truth: number): ((value: number) => boolean) =>
    (value) =>
      Math.abs(value - truth) <= BOUNDS[name];
  /** Whether a contact has been in this state for long enough to be told. */
  const settled = (name: ReadingName, so: boolean, atMillis: number): boolean => {
    const since = truthSince.get(name);
    if (since?.so !== so) truthSince.set(name, { so, atMillis });
    return since === undefined || atMillis - truthSince.get(name)!.atMillis >= CONTACT_SECONDS * 1000;
  };

  const look = ({ state }: Step, now: Now, { plant, air, contact }: Truth): void => {
    const { senses } = state;
    const at = now.monotonic;
    if (at - lookedAt < EVERY_SECONDS * 1000) return;
    lookedAt = at;
    const { tank, returnLitresPerMinute: returns } = plant.state;
    note('air', believedAir({ farm, now, state, commands: [], entries: [] }), near('air', air.airCelsius));
    note('water', waterCelsius(senses, at), near('water', tank.celsius));
    const percent = humidityPercentAt(air.airCelsius, air.vapourKilopascals);
    note('humidity', humidityPercent(senses, at), near('humidity', percent));
    note('litres', tankLitres(senses, at), near('litres', tank.litres));
    if (wiring.probe !== undefined) {
      const module = moduleOf(wiring.probe);
      const calibration = {
        cellFactor: 1,
        zeroMicrosiemensPerCm: 0,
        at: 'unknown',
        points: [],
        module,
      } as const;
      const reading = strength(senses, wiring.probe, { ...calibration, earlier: [] }, at);
      const isTrue = near('strength', tank.salts / tank.litres);
      note('strength', reading, (value) => value.compensated && isTrue(value.millisiemensPerCmAt25));
    }
    const contacts: (readonly [SwitchChannel, boolean])[] = [
      ['pump-current', contact === 'closed'],
      ['relay-read-back', contact === 'closed'],
      ['tank-float', tank.litres < dryLitres],
      ['leak', false],
      ['overflow', false],
    ];
    if (farm.evidence.returnFlow === 'meter') {
      note('flow', returnLitresPerMinute(senses, at), near('flow', returns));
    } else {
      const share = returns / full;
      if (Math.abs(share - SWITCH_SHARE.closes) > SWITCH_SHARE.noise) {
        contacts.push(['return-switch', share > SWITCH_SHARE.closes]);
      }
    }
    for (const [name, so] of contacts) {
      const tellable = settled(name, so, at);
      note(name, switched(senses, name, at), (value) => !tellable || value === so);
    }
  };
  return { held, look };
};
