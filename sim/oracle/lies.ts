import type { Channel } from '../../src/ports/sample.ts';
import type { InjectorName } from '../faults/injectors.ts';
import type { RunRecord, Stretch } from './record.ts';
import { MINUTE } from './stretches.ts';

export const RETURN: readonly Channel[] = ['return-flow', 'return-switch'];
/** What tells whether the pump has power, and draws it. */
export const POWER: readonly Channel[] = ['pump-current', 'relay-read-back', 'mains'];
export const TANK: readonly Channel[] = ['tank-level', 'tank-float'];
export const FLOOR: readonly Channel[] = ['leak', 'overflow'];
export const AIR: readonly Channel[] = ['air-temperature'];
/** All that a flood is judged by. */
export const OF_A_FLOOD: readonly Channel[] = [...RETURN, ...POWER, 'tank-level'];

/** Which faults of the shed make a channel say what is not so. */
const LIARS: Partial<Readonly<Record<Channel, readonly InjectorName[]>>> = {
  'return-flow': ['flow-stuck-low', 'flow-stuck-high', 'flow-silent'],
  'return-switch': ['flow-stuck-low', 'flow-stuck-high', 'flow-silent'],
  'tank-float': ['float-stuck-low'],
  'air-temperature': ['air-silent', 'air-open', 'air-in-sun'],
};

/** Whether one of the channels may say what is not so, or nothing, in a stretch widened by so many minutes at its start. */
export const lying = (
  record: RunRecord,
  channels: readonly Channel[],
  { fromMillis, untilMillis }: Stretch,
  minutesBefore = 0,
): boolean => {
  const known = channels.flatMap((channel) => LIARS[channel] ?? []);
  return record.broken.some(
    ({ name, channel, ...fault }) =>
      fault.fromMillis <= untilMillis &&
      fromMillis - minutesBefore * MINUTE <= fault.untilMillis &&
      (known.includes(name) ||
        (channel !== undefined && channels.includes(channel)) ||
        // Old words that come again with no time of their own are words of now.
        (name === 'samples-repeated' && record.undated === true)),
  );
};
