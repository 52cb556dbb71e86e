import type { Entry } from '../../src/journal/entry.ts';
import { entriesOf, hours, type Planted } from './planting.ts';
import type { Tampering } from './tampering.ts';

const SILENT_UNTIL_HOURS = 4;
const LATE_MILLIS = 20_000;

/** Bugs of what stands beside control: the book, the herald, and what the host tells of both. */
export const PLANTED_BESIDE: readonly Planted[] = [
  {
    invariant: 'I5',
    says: 'a write is called durable that never came to the disk',
    make: (): Tampering => {
      let writes = 0;
      return {
        disk: ({ entries }, says) => {
          if (entries.length > 0) writes += 1;
          return writes === 40 && entries.length > 0 ? 'lies' : says;
        },
      };
    },
  },
  {
    invariant: 'I5',
    says: 'from the 150th write on nothing comes to the disk that calls it durable',
    make: (): Tampering => {
      let writes = 0;
      return { disk: ({ entries }, says) => (entries.length > 0 && (writes += 1) > 150 ? 'lies' : says) };
    },
  },
  {
    invariant: 'I5',
    says: 'what reached somebody is not written down',
    needs: 'pump-dead',
    make: entriesOf(() => (entry) => (entry.kind === 'delivery' ? [] : [entry])),
  },
  {
    invariant: 'I5',
    says: 'alarms that are raised while the disk fails are never written',
    needs: 'disk-failing',
    make: entriesOf(() => (entry: Entry) => (isUnrecorded(entry) ? [] : [entry])),
  },
  {
    invariant: 'I7',
    says: 'a call that is urgent waits 20 s for its first attempt',
    needs: 'pump-unplugged',
    make: () => ({ heraldLateMillis: LATE_MILLIS }),
  },
  {
    invariant: 'I7',
    says: 'no message is ever answered, though every channel is well',
    needs: 'pump-unplugged',
    make: () => ({ answer: ({ what }) => (what === 'check' ? undefined : 'never') }),
  },
  {
    invariant: 'I7',
    says: 'calls of high priority are forgotten',
    needs: 'pump-dead',
    make: () => ({ calls: (calls) => calls.filter(({ priority }) => priority !== 'high') }),
  },
  {
    invariant: 'I7',
    says: 'dead channels are told to nobody',
    needs: 'network-gone',
    make: () => ({ seen: (seen) => ({ ...seen, channels: [] }) }),
  },
  {
    invariant: 'I7',
    says: 'a channel that is dead is told when it has been well for hours',
    needs: 'channel-hung',
    make: (): Tampering => {
      let dead: Parameters<Seen>[0]['channels'] = [];
      return {
        seen: (seen, moment) => {
          if (seen.channels.length > 0) dead = seen.channels;
          return { ...seen, channels: hours(moment) > SILENT_UNTIL_HOURS ? [] : dead };
        },
      };
    },
  },
  {
    invariant: 'I7',
    says: 'a full disk is called well',
    needs: 'disk-full',
    make: () => ({ seen: (seen) => ({ ...seen, journal: { kind: 'well' } }) }),
  },
  {
    invariant: 'I7',
    says: 'a disk that fails is told of an hour late',
    needs: 'disk-failing',
    make: () => ({
      seen: (seen, { atMillis, script }) => {
        const failing = script.beside.find(({ kind }) => kind === 'disk-failing');
        const isLate = failing !== undefined && atMillis > failing.fromMillis + 3_600_000;
        return isLate ? seen : { ...seen, journal: { kind: 'well' } };
      },
    }),
  },
];

type Seen = NonNullable<Tampering['seen']>;

const isUnrecorded = (entry: Entry): boolean =>
  (entry.kind === 'alarm-raised' || entry.kind === 'alarm-returned') && entry.alarm === 'not-recording';
