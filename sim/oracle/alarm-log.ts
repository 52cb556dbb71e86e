import type { Entry } from '../../src/journal/entry.ts';
import type { RunRecord } from './record.ts';

export type AlarmName = Extract<Entry, { kind: 'alarm-raised' }>['alarm'];

/** One alarm from its raising to its return, or until it was raised as a graver one, as the journal has it. */
export interface AlarmSpan {
  readonly alarm: AlarmName;
  readonly priority: Extract<Entry, { kind: 'alarm-raised' }>['priority'];
  readonly fromMillis: number;
  /** The moment of its return, in whatever life of the host; that of the end where none is written. */
  readonly untilMillis: number;
  readonly returned: boolean;
}

/** When each life of the host ended: where the next one begins. */
export const lifeEnds = ({ rows, endMillis }: RunRecord): ReadonlyMap<number, number> => {
  const ends = new Map<number, number>();
  for (const { life, atMillis, entry } of rows) {
    if (entry.kind === 'started') ends.set(life - 1, atMillis);
    ends.set(life, endMillis);
  }
  return ends;
};

export const alarmSpans = (record: RunRecord): readonly AlarmSpan[] => {
  const spans: AlarmSpan[] = [];
  const open = new Map<string, number>();
  for (const { entry, atMillis } of record.rows) {
    if (entry.kind === 'alarm-raised') {
      // Raised anew while it stood it has become graver: another span begins.
      const graver = open.get(entry.alarm);
      const before = graver === undefined ? undefined : spans[graver];
      if (before !== undefined && graver !== undefined) spans[graver] = { ...before, untilMillis: atMillis };
      open.set(entry.alarm, spans.length);
      spans.push({
        alarm: entry.alarm,
        priority: entry.priority,
        fromMillis: atMillis,
        untilMillis: record.endMillis,
        returned: false,
      });
    }
    if (entry.kind === 'alarm-returned') {
      const place = open.get(entry.alarm);
      const span = place === undefined ? undefined : spans[place];
      open.delete(entry.alarm);
      if (span !== undefined && place !== undefined)
        spans[place] = { ...span, untilMillis: atMillis, returned: true };
    }
  }
  return spans;
};
