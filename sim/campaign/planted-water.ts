import { seconds } from '../../src/units/quantity.ts';
import {
  changedTo,
  entriesOf,
  hours,
  inActTwo,
  isOn,
  once,
  samplesOf,
  sentOf,
  type Planted,
} from './planting.ts';
import type { Sent } from './tampering.ts';

/** Against I1 to I7: water, pump, journal and alarms. */
export const PLANTED_WATER: readonly Planted[] = [
  {
    invariant: 'I1',
    says: 'for ten hours no command to flood reaches the board',
    make: sentOf((sent, moment) => (isOn(sent) && inActTwo(moment) ? [] : [sent])),
  },
  {
    invariant: 'I1',
    says: 'an alarm of a missed flood is raised for nothing',
    make: entriesOf(
      once(
        (entry, moment) => entry.kind === 'verdict' && hours(moment) > 12,
        (entry) => [
          entry,
          {
            kind: 'alarm-raised',
            alarm: 'missed-flood',
            priority: 'high',
            text: 'no water',
            at: entry.at,
            wall: entry.wall,
          },
        ],
      ),
    ),
  },
  {
    invariant: 'I2',
    says: 'a flood loses its verdict',
    make: entriesOf(
      once(
        (entry, moment) => entry.kind === 'verdict' && hours(moment) > 5,
        () => [],
      ),
    ),
  },
  {
    invariant: 'I2',
    says: 'a missed flood is called confirmed',
    needs: 'pump-dead',
    make: entriesOf(
      () => (entry) =>
        entry.kind === 'verdict' && entry.verdict.kind === 'missed'
          ? changedTo(entry, { verdict: { kind: 'confirmed', says: 'water' } })
          : [entry],
    ),
  },
  {
    invariant: 'I2',
    says: 'a missed flood raises no alarm',
    needs: 'pump-unplugged',
    make: entriesOf(
      () => (entry) =>
        (entry.kind === 'alarm-raised' || entry.kind === 'alarm-returned') && entry.alarm === 'missed-flood'
          ? []
          : [entry],
    ),
  },
  {
    invariant: 'I2',
    says: 'a weak flood is called confirmed',
    needs: 'filter-clogged',
    make: entriesOf(
      () => (entry) =>
        entry.kind === 'verdict' && entry.verdict.kind === 'degraded'
          ? changedTo(entry, { verdict: { kind: 'confirmed', says: 'water' } })
          : [entry],
    ),
  },
  {
    invariant: 'I3',
    says: 'the board lets the pump run twice as long and off is lost once',
    make: () => ({
      limits: (limits) => ({ ...limits, longestOnMinutes: 2 * limits.longestOnMinutes }),
      sent: (sent, moment) =>
        inActTwo(moment)
          ? sent.flatMap(({ command, ...at }): readonly Sent[] =>
              command.kind === 'pump-on' ? [{ ...at, command: { ...command, longest: seconds(7200) } }] : [],
            )
          : sent,
    }),
  },
  {
    invariant: 'I3',
    says: 'the pump is stopped and started within five seconds',
    make: () => ({
      limits: (limits) => ({ ...limits, shortestOffSeconds: 1 }),
      sent: (sent, moment) =>
        inActTwo(moment)
          ? sent.flatMap((one): readonly Sent[] =>
              isOn(one)
                ? [
                    one,
                    { command: { kind: 'pump-off' }, atMillis: one.atMillis + 60_000 },
                    { ...one, atMillis: one.atMillis + 65_000 },
                  ]
                : [one],
            )
          : sent,
    }),
  },
  {
    invariant: 'I4',
    says: 'a command waits for the line and comes when nobody owns the pump',
    needs: 'link-lost',
    make: () => ({
      throughLostLink: true,
      sent: (sent, { link, script }) => {
        const lost = script.host.find(({ kind }) => kind === 'link-lost');
        if (link === 'down' || lost === undefined) return sent;
        return [
          ...sent,
          ...sent
            .filter(isOn)
            .map((one) => ({ ...one, atMillis: Math.max(one.atMillis, lost.fromMillis + 20_000) })),
        ];
      },
    }),
  },
  {
    invariant: 'I4',
    says: 'the journal has the pump asked on of a board that is lost',
    needs: 'link-lost',
    make: entriesOf(
      () =>
        (entry, { link }) =>
          link === 'down' && entry.kind === 'alarm-raised'
            ? [entry, { kind: 'pump-asked', pump: 'on', longestSeconds: 600, at: entry.at, wall: entry.wall }]
            : [entry],
    ),
  },
  {
    invariant: 'I5',
    says: 'a start of a flood is lost from the journal',
    make: entriesOf(
      once(
        (entry, moment) => entry.kind === 'flood-started' && hours(moment) > 3,
        () => [],
      ),
    ),
  },
  {
    invariant: 'I5',
    says: 'an entry is written twice',
    make: entriesOf(
      once(
        (entry, moment) => entry.kind === 'verdict' && hours(moment) > 3,
        (entry) => [entry, entry],
      ),
    ),
  },
  {
    invariant: 'I5',
    says: 'a command to the pump is invented',
    make: entriesOf(
      once(
        (entry, moment) => entry.kind === 'verdict' && hours(moment) > 3,
        (entry) => [
          entry,
          { kind: 'pump-asked', pump: 'on', longestSeconds: 30, at: entry.at, wall: entry.wall },
        ],
      ),
    ),
  },
  {
    invariant: 'I6',
    says: 'the return is not read any more after the last fault',
    make: samplesOf(
      () =>
        (sample, { clearMillis, atMillis }) =>
          (sample.channel === 'return-flow' || sample.channel === 'return-switch') && atMillis > clearMillis
            ? []
            : [sample],
    ),
  },
  {
    invariant: 'I6',
    says: 'the alarm of lost mains never returns',
    needs: 'pump-dead',
    make: entriesOf(
      () => (entry) => (entry.kind === 'alarm-returned' && entry.alarm === 'missed-flood' ? [] : [entry]),
    ),
  },
  {
    invariant: 'I7',
    says: 'the alarm of a missed flood returns at once',
    needs: 'pump-dead',
    make: entriesOf(
      () => (entry) =>
        entry.kind === 'alarm-raised' && entry.alarm === 'missed-flood'
          ? [entry, { kind: 'alarm-returned', alarm: 'missed-flood', at: entry.at, wall: entry.wall }]
          : [entry],
    ),
  },
  {
    invariant: 'I7',
    says: 'an alarm returns that never stood',
    make: entriesOf(
      once(
        (entry, moment) => entry.kind === 'verdict' && hours(moment) > 4,
        (entry) => [
          entry,
          { kind: 'alarm-returned', alarm: 'float-suspect', at: entry.at, wall: entry.wall },
        ],
      ),
    ),
  },
  {
    invariant: 'I7',
    says: 'a mains contact that has opened is heard as closed',
    needs: 'mains-lost',
    make: samplesOf(() => (sample) => (sample.channel === 'mains' ? [{ ...sample, there: true }] : [sample])),
  },
  {
    invariant: 'I7',
    says: 'water on the floor is not heard of',
    needs: 'leak',
    make: samplesOf(() => (sample) => (sample.channel === 'leak' ? [{ ...sample, wet: false }] : [sample])),
  },
  {
    invariant: 'I7',
    says: 'a float that has fallen is heard as one that floats',
    needs: 'top-up-stopped',
    make: samplesOf(
      () => (sample) => (sample.channel === 'tank-float' ? [{ ...sample, low: false }] : [sample]),
    ),
  },
];
