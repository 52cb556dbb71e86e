import type { Farm } from '../../src/farm/farm.ts';
import type { Channel } from '../../src/ports/sample.ts';
import type { Dice } from '../dice.ts';
import { WAYS } from '../faults/failing.ts';
import type { Fault } from '../faults/fault.ts';
import {
  FAULT_KINDS,
  HOST_FAULT_KINDS,
  HOST_FAULTS,
  SENSOR_FAULT_KINDS,
  type HostFaultKind,
  type InjectorName,
} from '../faults/injectors.ts';
import { unfittedFor } from '../faults/unfitted.ts';
import { isBeside } from './drawn-beside.ts';
import type { HostFault, Script, SensorFault, Span } from './script.ts';

const MINUTE = 60_000;
const HOUR = 60 * MINUTE;
/** How many faults a seed draws; at least three of them overlap at one moment. */
const FAULTS = { least: 3, most: 6 } as const;

/** How long each fault of the host lasts, minutes; those that are not named last as long as any of the shed. */
const MINUTES: Partial<Readonly<Record<InjectorName, readonly [least: number, most: number]>>> = {
  // Over a morning at least: the grower tops up and doses then.
  'probe-drifting': [1500, 2400],
  'top-up-salty': [900, 1500],
  // So long that the largest tanks of the farms run low too.
  'top-up-stopped': [600, 2400],
  'link-lost': [1, 180],
  'link-flapping': [2, 20],
  'board-reset': [0.04, 0.04],
  'host-killed': [0.5, 90],
  'host-frozen': [0.5, 60],
  'late-ticks': [10, 240],
  hold: [30, 30],
  'odd-orders': [10, 120],
  'flood-now': [10, 60],
};
const USUAL_MINUTES = [20, 600] as const;

/** By how much, drawn for each. */
const amountOf = (kind: HostFaultKind, dice: Dice): number => {
  if (kind === 'clock-ahead') return 1 + 11 * dice();
  if (kind === 'clock-back') return -1 - 11 * dice();
  if (kind === 'clock-years') return (dice() < 0.5 ? -1 : 1) * 24 * 365 * (1 + Math.floor(4 * dice()));
  return kind === 'late-ticks' ? 1 + 20 * dice() : 0;
};

/** The channels that the farm has. */
export const channelsOf = ({ evidence, sensors }: Farm): readonly Channel[] => [
  ...(evidence.returnFlow === 'meter' ? (['return-flow'] as const) : []),
  ...(evidence.returnFlow === 'switch' ? (['return-switch'] as const) : []),
  ...(evidence.pumpCurrent ? (['pump-current'] as const) : []),
  ...(evidence.relayReadBack ? (['relay-read-back'] as const) : []),
  ...(evidence.tankLevel ? (['tank-level'] as const) : []),
  ...(evidence.tankFloat ? (['tank-float'] as const) : []),
  ...(evidence.leakSensor ? (['leak'] as const) : []),
  ...(evidence.overflowFloat ? (['overflow'] as const) : []),
  ...(evidence.mainsPresent ? (['mains'] as const) : []),
  ...(sensors.airTemperature ? (['air-temperature'] as const) : []),
  ...(sensors.humidity ? (['humidity'] as const) : []),
];

const isHost = (name: InjectorName): name is HostFaultKind => Object.hasOwn(HOST_FAULTS, name);

/** Those of shed, host, line and sensors that can do anything on this farm. */
export const fitting = (farm: Farm): readonly InjectorName[] => [
  ...FAULT_KINDS.filter((kind) => unfittedFor(farm, kind) === null),
  ...HOST_FAULT_KINDS,
  ...SENSOR_FAULT_KINDS,
];

const scriptOf = (
  farm: Farm,
  dice: Dice,
  named: readonly (Span & { readonly name: InjectorName })[],
): Script => {
  const channels = channelsOf(farm);
  const shed: Fault[] = [];
  const host: HostFault[] = [];
  const sensors: SensorFault[] = [];
  for (const { name, ...span } of named) {
    const kind = FAULT_KINDS.find((fault) => fault === name);
    const way = WAYS.find((one) => `sensor-${one}` === name);
    const channel = channels[Math.floor(dice() * channels.length)];
    if (kind !== undefined) shed.push({ kind, ...span });
    else if (isHost(name)) host.push({ kind: name, amount: amountOf(name, dice), ...span });
    else if (way !== undefined && channel !== undefined) sensors.push({ way, channel, ...span });
  }
  return { shed, host, sensors, beside: [] };
};

/**
 * The mix of a seed: three to six faults, of which three stand at one moment at least, all over before `until`.
 * Which they are all injectors share alike; `pair` names those that must be among them.
 */
export const drawnScript = (
  farm: Farm,
  dice: Dice,
  act: { readonly from: number; readonly until: number; readonly pair?: readonly InjectorName[] },
): Script => {
  const kinds = fitting(farm);
  const count = FAULTS.least + Math.floor(dice() * (FAULTS.most - FAULTS.least + 1));
  const together = act.from + (0.1 + 0.75 * dice()) * (act.until - act.from);
  const names: InjectorName[] = (act.pair ?? []).filter((name) => !isBeside(name));
  while (names.length < count) {
    const name = kinds[Math.floor(dice() * kinds.length)];
    if (name !== undefined && !names.includes(name)) names.push(name);
  }
  const named = names.map((name, place) => {
    const [least, most] = MINUTES[name] ?? USUAL_MINUTES;
    const millis = (least + (most - least) * dice() * dice()) * MINUTE;
    const meeting = place < FAULTS.least || dice() < 0.5;
    const at = meeting ? together : act.from + dice() * (act.until - act.from - HOUR);
    const fromMillis = Math.max(act.from, Math.round(at - dice() * millis));
    return {
      name,
      fromMillis,
      untilMillis: Math.min(act.until, Math.max(fromMillis + 2000, Math.round(fromMillis + millis))),
    };
  });
  return scriptOf(farm, dice, named);
};

export const NOTHING_BROKEN: Script = { shed: [], host: [], sensors: [], beside: [] };
