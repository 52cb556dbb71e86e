/** One step of the local clocks: at `at` the zone goes from `before` to `after` minutes ahead of UTC. */
export interface ClockChange {
  readonly timeZone: string;
  readonly at: number;
  readonly before: number;
  readonly after: number;
}

const MINUTE = 60_000;

const offsetReader = (timeZone: string): ((instant: number) => number) => {
  const format = new Intl.DateTimeFormat('en-US', { timeZone, timeZoneName: 'longOffset' });
  return (instant) => {
    const name = format.formatToParts(instant).find((part) => part.type === 'timeZoneName')?.value ?? '';
    const [, sign, hours, minutes] = /([+-])(\d\d):(\d\d)$/.exec(name) ?? [];
    return (sign === '-' ? -1 : 1) * (Number(hours ?? 0) * 60 + Number(minutes ?? 0));
  };
};

const changesOf = (timeZone: string, year: number): readonly ClockChange[] => {
  const offsetAt = offsetReader(timeZone);
  const changes: ClockChange[] = [];
  // Looked at every half month: a zone that changed there and back within one would be overlooked.
  const looks = Array.from({ length: 25 }, (_, half) => Date.UTC(year, half >> 1, half % 2 === 0 ? 1 : 16));
  for (const [place, look] of looks.slice(1).entries()) {
    const [before, after] = [offsetAt(looks[place]!), offsetAt(look)];
    if (before === after) continue;
    let [early, late] = [looks[place]!, look];
    while (late - early > MINUTE) {
      const middle = Math.floor((early + late) / 2 / MINUTE) * MINUTE;
      if (offsetAt(middle) === after) late = middle;
      else early = middle;
    }
    changes.push({ timeZone, at: late, before, after });
  }
  return changes;
};

/**
 * The clock changes of a year in every zone that `Intl` knows, read from `Intl` alone. Zones that change at
 * the same instants between the same offsets are one zone; the first by name stands for all.
 */
export const clockChanges = (year: number): readonly ClockChange[] => {
  const distinct = new Map<string, readonly ClockChange[]>();
  for (const timeZone of Intl.supportedValuesOf('timeZone')) {
    const changes = changesOf(timeZone, year);
    const key = changes.map(({ at, before, after }) => `${at} ${before} ${after}`).join();
    if (!distinct.has(key)) distinct.set(key, changes);
  }
  return [...distinct.values()].flat();
};
