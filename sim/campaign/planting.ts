import type { Event } from '../../src/controller.ts';
import type { Entry } from '../../src/journal/entry.ts';
import type { Sample } from '../../src/ports/sample.ts';
import type { InvariantName } from '../faults/fault-row.ts';
import type { InjectorName } from '../faults/injectors.ts';
import type { BoardKind } from './met-board.ts';
import type { Moment, Sent, Tampering } from './tampering.ts';
/** Bugs for the judge to find: at least two against each invariant. */
export interface Planted {
  readonly invariant: InvariantName;
  readonly says: string;
  /** An injector without which the bug could not show; it is put into the mix. */
  readonly needs?: InjectorName;
  /** A board without which it could not show. */
  readonly boardKind?: BoardKind;
  /** A bug may remember; each run gets its own. */
  readonly make: () => Tampering;
}

export const HOUR = 3_600_000;
export const hours = ({ atMillis, clearMillis }: Moment): number => (atMillis - clearMillis) / HOUR;
/** A stretch of the quiet last act in which a bug shows alone. */
export const inActTwo = (moment: Moment): boolean => hours(moment) > 10 && hours(moment) < 20;

export const entriesOf =
  (make: () => (entry: Entry, moment: Moment) => readonly Entry[]): (() => Tampering) =>
  () => {
    const changed = make();
    return { entries: (entries, moment) => entries.flatMap((entry) => changed(entry, moment)) };
  };
export const sentOf =
  (change: (sent: Sent, moment: Moment) => readonly Sent[]): (() => Tampering) =>
  () => ({
    sent: (sent, moment) => sent.flatMap((one) => change(one, moment)),
  });
export const samplesOf =
  (make: () => (sample: Sample, moment: Moment) => readonly Sample[]): (() => Tampering) =>
  () => {
    const changed = make();
    return {
      event: (event: Event, moment) =>
        event.kind === 'samples'
          ? { ...event, samples: event.samples.flatMap((sample) => changed(sample, moment)) }
          : event,
    };
  };
/** Does so the first time only that `so` holds. */
export const once =
  (so: (entry: Entry, moment: Moment) => boolean, becomes: (entry: Entry) => readonly Entry[]) => () => {
    let done = false;
    return (entry: Entry, moment: Moment): readonly Entry[] => {
      if (done || !so(entry, moment)) return [entry];
      done = true;
      return becomes(entry);
    };
  };
export const isOn = ({ command }: Sent): boolean => command.kind === 'pump-on';
export const changedTo = (entry: Entry, change: object): readonly Entry[] => [{ ...entry, ...change }];
