import type { Sample } from '../../src/ports/sample.ts';
import { monotonicMillis, wallMillis } from '../../src/time/instant.ts';
import {
  changedTo,
  entriesOf,
  hours,
  HOUR,
  inActTwo,
  isOn,
  once,
  samplesOf,
  sentOf,
  type Planted,
} from './planting.ts';
import type { Tampering } from './tampering.ts';
import { standingHost, within } from './script.ts';

/** Against I8 to I13: delay, time, bad words, chance and the hold. */
export const PLANTED_TIME: readonly Planted[] = [
  {
    invariant: 'I8',
    says: 'commands wait 400 ms for the journal',
    make: sentOf((one, moment) => [inActTwo(moment) ? { ...one, atMillis: one.atMillis + 400 } : one]),
  },
  {
    invariant: 'I8',
    says: 'one command in ten hours waits five seconds for a disk',
    make: (): Tampering => {
      let done = false;
      return {
        sent: (sent, moment) =>
          sent.map((one) => {
            if (done || !inActTwo(moment) || !isOn(one)) return one;
            done = true;
            return { ...one, atMillis: one.atMillis + 5000 };
          }),
      };
    },
  },
  {
    invariant: 'I9',
    says: 'spans are taken from the wall clock',
    needs: 'clock-back',
    make: (): Tampering => {
      let shift: number | null = null;
      return {
        now: (now, { atMillis }) => {
          if (now.wall === 'unknown') return now;
          shift ??= now.wall - now.monotonic;
          return {
            ...now,
            monotonic: monotonicMillis(Math.max(1, now.wall - shift)),
            wall: wallMillis(atMillis),
          };
        },
      };
    },
  },
  {
    invariant: 'I9',
    says: 'every flood is given a second time six minutes after it',
    make: () => ({
      event: (event, { atMillis, clearMillis }) =>
        atMillis > clearMillis + 10 * HOUR && Math.floor(atMillis / 60_000) % 41 < 4
          ? { kind: 'flood-now', who: 'a bug' }
          : event,
    }),
  },
  {
    invariant: 'I10',
    says: 'what stands in no list is acknowledged all the same',
    needs: 'odd-orders',
    make: entriesOf(
      () => (entry, moment) =>
        entry.kind === 'order' &&
        entry.order === 'release' &&
        standingHost(moment.script, 'odd-orders', moment.atMillis) !== null
          ? [
              entry,
              {
                kind: 'alarm-acknowledged',
                alarm: 'drying-out',
                who: 'a bad request',
                at: entry.at,
                wall: entry.wall,
              },
            ]
          : [entry],
    ),
  },
  {
    invariant: 'I10',
    says: 'a flood is begun for no number of minutes',
    make: entriesOf(
      once(
        (entry, moment) => entry.kind === 'flood-started' && hours(moment) > 4,
        (entry) => changedTo(entry, { minutes: Number.NaN }),
      ),
    ),
  },
  {
    invariant: 'I11',
    says: 'air that is not heard any more is taken for what it was',
    needs: 'air-silent',
    make: (): Tampering => {
      let last: Sample | null = null;
      return {
        event: (event, moment) => {
          if (event.kind !== 'samples') return event;
          const air = event.samples.find(({ channel }) => channel === 'air-temperature');
          last = air ?? last;
          const at = event.samples.at(-1)?.at;
          const silent = moment.script.shed.some(
            (fault) => fault.kind === 'air-silent' && within(fault, moment.atMillis),
          );
          if (!silent || air !== undefined || last?.channel !== 'air-temperature' || at === undefined)
            return event;
          return {
            ...event,
            samples: [...event.samples, { ...last, at, celsius: last.celsius + (at % 7) / 10 }],
          };
        },
      };
    },
  },
  {
    invariant: 'I11',
    says: 'an open thermometer counts as 12 °C',
    needs: 'air-open',
    make: samplesOf(
      () => (sample) =>
        sample.channel === 'air-temperature' && sample.celsius < -100
          ? [{ ...sample, celsius: 12 + (sample.at % 7) / 10 }]
          : [sample],
    ),
  },
  {
    invariant: 'I12',
    says: 'chance that is no argument gets into the journal',
    make: () => ({
      entries: (entries, moment) =>
        entries.map((entry) =>
          entry.kind === 'flood-started' && hours(moment) > 6
            ? { ...entry, reason: `${entry.reason} ${performanceNow()}` }
            : entry,
        ),
    }),
  },
  {
    invariant: 'I12',
    says: 'one word hangs on how often the program has run',
    make: (): Tampering => {
      runs += 1;
      const mine = runs;
      return {
        entries: (entries) =>
          entries.map((entry) =>
            entry.kind === 'started' ? { ...entry, farm: `${entry.farm} ${mine}` } : entry,
          ),
      };
    },
  },
  {
    invariant: 'I13',
    says: 'a hold is written and does not stop the pump',
    needs: 'hold',
    make: (): Tampering => {
      let held = false;
      return {
        event: (event) => {
          if (event.kind !== 'hold' || event.minutes < 1) return event;
          held = true;
          return { ...event, minutes: 0.05 };
        },
        sent: (sent) => (held ? sent : sent),
      };
    },
  },
  {
    invariant: 'I13',
    says: 'a hold lasts four hours instead of half of one',
    needs: 'hold',
    make: () => ({
      event: (event) => (event.kind === 'hold' && event.minutes > 1 ? { ...event, minutes: 240 } : event),
    }),
  },
];

let runs = 0;
/** Stands for a clock that somebody read inside. */
const performanceNow = (): number => {
  runs += 1;
  return runs;
};
