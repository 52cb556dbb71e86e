import type { Farm, Wiring } from '../../src/farm/farm.ts';
import type { Sample } from '../../src/ports/sample.ts';
import { monotonicMillis } from '../../src/time/instant.ts';
import type { Dice } from '../dice.ts';
import { spoiled, type Failing, type Signal, type Spoiled } from '../faults/failing.ts';
import type { Fault } from '../faults/fault.ts';
import type { Plant, Witness } from '../plant/plant.ts';
import type { Sky } from '../weather/sky.ts';
import { linearCounts, openThermistor, probeCounts, thermistorCounts } from './encode.ts';
import type { PinWorld } from './firmata/peer.ts';
import type { Level } from './firmata/pin-bank.ts';
import { createRelayContact, type RelayContact } from './relay-contact.ts';
import { createSensors } from './sensors.ts';

const COUNTS: Omit<Signal, 'cut'> = { kind: 'level', least: 0, most: 1023 };
/** A cut contact reads high through the pull-up. */
const CONTACT: Signal = { kind: 'contact', least: 0, most: 1, cut: 1 };
/** Counts of a clamp sensor round no current at all, and above the threshold of the wiring. */
const CURRENT_COUNTS = { none: 4, above: 100 } as const;
/** The world behind the pins is looked at this often, and the plant moved on. */
const LOOK_MILLIS = 1000;

export interface ShedPins {
  readonly world: PinWorld;
  /** Moves shed and pins on; call it at least as often as `nextDue` says. */
  readonly advance: (atMillis: number, witness?: Witness) => void;
  /** When a pin next changes by itself or the shed wants to be looked at. */
  readonly nextDue: () => number;
  readonly press: (button: 'down' | 'up') => void;
  /** What the pump is asked by the level at the relay. */
  readonly relayPulled: () => boolean;
  /** For whoever judges the world: no host sees the relay itself. */
  readonly relay: Pick<RelayContact, 'asked' | 'contact'>;
  readonly outputOf: (pin: number) => Level;
}

/** The pins of a board wired into the simulated shed. */
export const createShedPins = (
  farm: Farm,
  wiring: Wiring,
  plant: Plant,
  sky: Sky,
  shed: {
    readonly faults: readonly Fault[];
    readonly failing: readonly Failing[];
    readonly dice: Dice;
    /** Told of each sensor that shows something else than the truth. */
    readonly lied?: (failing: Failing) => void;
  },
): ShedPins => {
  const { faults, failing, dice } = shed;
  const relay = createRelayContact(plant, faults);
  const fullReturnLitresPerMinute = farm.benches.reduce((sum, bench) => sum + bench.litresPerMinute, 0);
  const sensors = createSensors(plant, sky, {
    fitted: { ...farm.evidence, ...farm.sensors, waterTemperature: wiring.waterThermistor !== undefined },
    faults,
    fullReturnLitresPerMinute,
    dice,
  });
  const digital = new Map<number, 0 | 1>();
  const analog = new Map<number, number>();
  const outputs = new Map<number, Level>();
  const bad = new Map<Failing, Spoiled>();
  let lookedAt = -Infinity;
  let pulsesPerMilli = 0;
  /** Half pulses since the start; the level of the pin is whether it is odd. */
  let halfPulses = 0;

  const through = (part: keyof Wiring, signal: Signal, truth: number): number => {
    const at = plant.state.atMillis;
    const fault = failing.find(
      ({ part: key, fromMillis, untilMillis }) => key === part && fromMillis <= at && at < untilMillis,
    );
    if (fault === undefined) return truth;
    const known = bad.get(fault) ?? spoiled(fault.way, signal, dice);
    bad.set(fault, known);
    const shown = known(truth, at);
    if (shown !== truth) shed.lied?.(fault);
    return shown;
  };
  const setAnalog = (part: keyof Wiring, pin: string, cut: number, counts: number): void => {
    analog.set(Number(pin.slice(1)), through(part, { ...COUNTS, cut }, counts));
  };
  const setContact = (
    part: keyof Wiring,
    { pin, reads }: { readonly pin: number; readonly reads: 'low' | 'high' },
    so: boolean,
  ): void => {
    const level = so === (reads === 'high') ? 1 : 0;
    digital.set(pin, through(part, CONTACT, level) === 1 ? 1 : 0);
  };

  const show = (sample: Sample): void => {
    const { returnFlow, pumpCurrent, relayReadBack, tankLevel, tankFloat, leakSensor, overflowFloat } =
      wiring;
    const { airThermistor, waterThermistor, humidity, mainsPresent } = wiring;
    switch (sample.channel) {
      case 'air-temperature':
        if (airThermistor !== undefined) {
          const cut = openThermistor(airThermistor);
          const counts = sample.celsius < -100 ? cut : thermistorCounts(sample.celsius, airThermistor);
          setAnalog('airThermistor', airThermistor.pin, cut, counts);
        }
        return;
      case 'water-temperature':
        if (waterThermistor !== undefined) {
          const counts = thermistorCounts(sample.celsius, waterThermistor);
          setAnalog('waterThermistor', waterThermistor.pin, openThermistor(waterThermistor), counts);
        }
        return;
      case 'humidity':
        if (humidity !== undefined) {
          const counts = linearCounts(sample.percent, humidity.percentAtZero, humidity.percentAtFullScale);
          setAnalog('humidity', humidity.pin, 0, counts);
        }
        return;
      case 'tank-level':
        if (tankLevel !== undefined) {
          const counts = linearCounts(sample.litres, tankLevel.litresAtZero, tankLevel.litresAtFullScale);
          setAnalog('tankLevel', tankLevel.pin, 0, counts);
        }
        return;
      case 'return-flow':
        if (returnFlow !== undefined && 'pulsesPerLitre' in returnFlow) {
          const signal: Signal = { kind: 'level', least: 0, most: 2 * fullReturnLitresPerMinute, cut: 0 };
          const litresPerMinute = through('returnFlow', signal, sample.litresPerMinute);
          pulsesPerMilli = (litresPerMinute * returnFlow.pulsesPerLitre) / 60_000;
        }
        return;
      case 'return-switch':
        if (returnFlow !== undefined && 'reads' in returnFlow) {
          setContact('returnFlow', returnFlow, sample.flowing);
        }
        return;
      case 'pump-current':
        if (pumpCurrent === undefined) return;
        if ('reads' in pumpCurrent) setContact('pumpCurrent', pumpCurrent, sample.drawing);
        else {
          const above = Math.min(COUNTS.most, pumpCurrent.drawsAboveCounts + CURRENT_COUNTS.above);
          setAnalog('pumpCurrent', pumpCurrent.pin, 0, sample.drawing ? above : CURRENT_COUNTS.none);
        }
        return;
      case 'relay-read-back':
        if (relayReadBack !== undefined) setContact('relayReadBack', relayReadBack, sample.closed);
        return;
      case 'tank-float':
        if (tankFloat !== undefined) setContact('tankFloat', tankFloat, sample.low);
        return;
      case 'leak':
        if (leakSensor !== undefined) setContact('leakSensor', leakSensor, sample.wet);
        return;
      case 'overflow':
        if (overflowFloat !== undefined) setContact('overflowFloat', overflowFloat, sample.wet);
        return;
      case 'mains':
        if (mainsPresent !== undefined) setContact('mainsPresent', mainsPresent, sample.there);
        return;
      case 'probe':
        return;
    }
  };

  /** A sensor that says nothing reads as a cut cable. */
  const silentParts = [
    (): void => {
      const { airThermistor } = wiring;
      if (airThermistor !== undefined)
        analog.set(Number(airThermistor.pin.slice(1)), openThermistor(airThermistor));
    },
    (): void => {
      const { returnFlow } = wiring;
      if (returnFlow !== undefined && 'reads' in returnFlow)
        digital.set(returnFlow.pin, CONTACT.cut === 1 ? 1 : 0);
    },
  ];

  const look = (): void => {
    pulsesPerMilli = 0;
    for (const part of silentParts) part();
    for (const sample of sensors.sense(monotonicMillis(plant.state.atMillis), relay.contact())) show(sample);
    if (wiring.probe !== undefined) {
      const { litres, salts, celsius } = plant.state.tank;
      const strength = litres > 0 ? salts / litres : 0;
      setAnalog('probe', wiring.probe.pin, 0, probeCounts(strength, celsius, wiring.probe));
    }
  };

  const relayPulled = (): boolean =>
    outputs.get(wiring.relay.pin) === (wiring.relay.energised === 'high' ? 1 : 0);
  const serveRelay = (): void => {
    // A pull resistor lets a relay rest whose pin floats. On a normally closed contact rest means run.
    const runs = relayPulled() === (farm.deadBoard !== 'pump-runs');
    relay.ask(runs ? 'closed' : 'open');
  };
  const meterPin =
    wiring.returnFlow !== undefined && 'pulsesPerLitre' in wiring.returnFlow ? wiring.returnFlow.pin : null;
  serveRelay();

  return {
    world: {
      readDigital: (pin) => digital.get(pin) ?? 'floating',
      readAnalog: (channel) => analog.get(channel) ?? 0,
      drive: (pin, level) => {
        outputs.set(pin, level);
        if (pin === wiring.relay.pin) serveRelay();
      },
    },
    advance: (atMillis, witness) => {
      const span = atMillis - plant.state.atMillis;
      if (span > 0) {
        halfPulses += 2 * pulsesPerMilli * span;
        relay.advance(atMillis, witness);
      }
      if (atMillis - lookedAt >= LOOK_MILLIS) {
        lookedAt = atMillis;
        look();
      }
      if (meterPin !== null) digital.set(meterPin, Math.floor(halfPulses) % 2 === 1 ? 0 : 1);
    },
    nextDue: () => {
      const next = lookedAt + LOOK_MILLIS;
      if (pulsesPerMilli <= 0) return next;
      const toEdge = (Math.floor(halfPulses) + 1 - halfPulses) / (2 * pulsesPerMilli);
      return Math.min(next, plant.state.atMillis + Math.ceil(toEdge));
    },
    press: (button) => {
      if (wiring.button !== undefined) digital.set(wiring.button, button === 'down' ? 0 : 1);
    },
    relayPulled,
    relay,
    outputOf: (pin) => outputs.get(pin) ?? 'floating',
  };
};
