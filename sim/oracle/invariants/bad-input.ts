import type { Breach, Check } from '../record.ts';

/** Whether a value read back from the journal has a number that is none: JSON writes those as null. */
const outside = (value: number | null, least: number, most: number): boolean =>
  value === null || !Number.isFinite(value) || value < least || value > most;

/** I10: what means nothing changes nothing, and no number that is none comes out at the other end. */
export const badInput: Check = ({ rows, farm }) => {
  const breaches: Breach[] = [];
  const floodMost = Math.max(farm.bounds.floodMinutes.longest, farm.pump.longestOnMinutes);
  const known = new Set<string>();
  for (const { entry, atMillis } of rows) {
    const say = (words: string): void => {
      breaches.push({ invariant: 'I10', atMillis, words });
    };
    if (entry.kind === 'alarm-raised') {
      known.add(entry.alarm);
      if (/NaN|Infinity|undefined|null/.test(entry.text)) say(`an alarm says "${entry.text}"`);
    }
    if (entry.kind === 'alarm-acknowledged' && !known.has(entry.alarm)) {
      say(`alarm "${entry.alarm}" was acknowledged and had never been raised`);
    }
    if (entry.kind === 'flood-started' && outside(entry.minutes, 0.1, floodMost)) {
      say(`a flood of ${entry.minutes} min was begun`);
    }
    if (entry.kind === 'pump-asked' && entry.pump === 'on') {
      const most = farm.pump.longestOnMinutes * 60;
      if (outside(entry.longestSeconds, 1, most))
        say(`the pump was asked on for ${entry.longestSeconds ?? 'no'} s`);
    }
    if (outside(entry.at, 0, Number.MAX_SAFE_INTEGER)) say(`${entry.kind} has no moment`);
  }
  return breaches;
};
