import { monotonicMillis, afterMinutes, minutesBetween } from '../../../src/time/instant.ts';
import type { Farm } from '../../../src/farm/farm.ts';
import { beganFlood, type Flood } from '../../../src/verify/flood.ts';
import { watched } from '../../../src/verify/watched.ts';
import type { Sighting } from '../../../src/verify/sighting.ts';
import type { Verdict } from '../../../src/verify/verdict.ts';

export const START = monotonicMillis(1_000_000);

/** A look at which no evidence is fitted. */
export const BLIND: Sighting = {
  water: 'unknown',
  returnShows: 'unknown',
  current: 'unknown',
  contact: 'unknown',
  mains: 'unknown',
  returnLitresPerMinute: null,
  tankLitres: null,
};

export const WATER: Sighting = { ...BLIND, water: 'seen', returnShows: 'seen', returnLitresPerMinute: 40 };
export const NO_WATER: Sighting = { ...BLIND, water: 'not-seen', returnShows: 'not-seen' };

export interface Told {
  readonly minutes?: number;
  readonly lagMinutes?: number;
  readonly tankLitres?: number;
  readonly dry?: true;
}

export interface Found {
  readonly verdict: Verdict;
  readonly flood: Flood;
  /** Minutes from the start of the flood to its verdict. */
  readonly after: number;
  /** Minutes, since the start, at which the pump was asked on or off. */
  readonly pump: readonly string[];
}

/** Watches one flood every 30 s, as the host does, until its verdict. `seen` gets minutes since the start. */
export const watchedThrough = (
  farm: Farm,
  seen: (minute: number, flood: Flood) => Sighting,
  { minutes = 20, lagMinutes = 8, tankLitres, dry }: Told = {},
): Found => {
  let flood = beganFlood(
    { id: 1, part: 'heat of the day', reason: 'flood now', minutes, lagMinutes },
    tankLitres == null ? null : { tankLitres, returnShows: 'unknown' },
    START,
  );
  const pump: string[] = [];
  let asked = 'on';
  const ask = (next: string, minute: number): void => {
    if (next !== asked) pump.push(`${next} at ${minute}`);
    asked = next;
  };
  for (let minute = 0.5; minute <= 120; minute += 0.5) {
    const now = afterMinutes(START, minute);
    const next = watched(farm, flood, seen(minute, flood), 40, dry !== true, now);
    if (next.kind === 'over') {
      return { verdict: next.verdict, flood: next.flood, after: minutesBetween(START, now), pump };
    }
    flood = next.flood;
    ask(next.kind === 'again' ? 'on' : next.pump, minute);
  }
  throw new Error('no verdict within two hours');
};
