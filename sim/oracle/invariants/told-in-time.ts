import type { Farm } from '../../../src/farm/farm.ts';
import type { Channel } from '../../../src/ports/sample.ts';
import type { InjectorName } from '../../faults/injectors.ts';
import { alarmSpans, type AlarmName } from '../alarm-log.ts';
import { FLOOR, lying, POWER, RETURN, TANK } from '../lies.ts';
import { isLost } from '../lost-records.ts';
import type { Check, RunRecord, Stretch } from '../record.ts';
import { disturbed, HOST_AWAY, MINUTE, stretchesOf } from '../stretches.ts';
import { floatIsLow } from '../tank-float.ts';

/** Nothing may have kept the host from seeing it for this long before. */
const QUIET_MINUTES = 15;
const UNSEEN: readonly InjectorName[] = [...HOST_AWAY, 'late-ticks', 'samples-lost'];

/** Something that is wrong in truth, that a whole sensor shows, and that has to be told. */
interface Danger {
  readonly what: string;
  readonly stands: (record: RunRecord) => readonly Stretch[];
  readonly isFitted: (evidence: Farm['evidence']) => boolean;
  /** Where one of these may lie the host cannot know, or must not believe it. */
  readonly by: readonly Channel[];
  /** Any of these tells of it … */
  readonly alarms: readonly AlarmName[];
  /** … when it has stood for so long. */
  readonly minutes: number;
}

const broken =
  (fault: InjectorName) =>
  (record: RunRecord): readonly Stretch[] =>
    record.broken.filter(({ name }) => name === fault);

const DANGERS: readonly Danger[] = [
  {
    what: 'the mains of the pump were gone',
    stands: broken('mains-lost'),
    isFitted: ({ mainsPresent }) => mainsPresent,
    by: [...POWER, ...RETURN],
    alarms: ['mains-lost'],
    minutes: 1,
  },
  {
    what: 'the tank was below its float',
    stands: (record) => stretchesOf(record, (step) => floatIsLow(record, step)),
    isFitted: ({ tankFloat }) => tankFloat,
    by: [...TANK, ...RETURN],
    alarms: ['tank-low', 'float-suspect'],
    minutes: 1,
  },
  {
    what: 'water ran out on the floor',
    stands: broken('leak'),
    isFitted: ({ leakSensor }) => leakSensor,
    by: FLOOR,
    alarms: ['water-on-floor'],
    minutes: 30,
  },
  {
    // The longest flood of the farms is over by then, and the contact shows it through the rest that follows.
    what: 'the relay of the pump was welded',
    stands: broken('relay-welded'),
    isFitted: ({ relayReadBack }) => relayReadBack,
    by: [...POWER, ...RETURN],
    alarms: ['pump-runs-on'],
    minutes: 60,
  },
];

/** I7: what is wrong in truth, and shows, is told in time. */
export const toldInTime: Check = (record) => {
  const spans = alarmSpans(record);
  return DANGERS.filter(({ isFitted }) => isFitted(record.farm.evidence)).flatMap(
    ({ what, stands, by, alarms, minutes }) =>
      stands(record)
        .filter((stretch) => stretch.untilMillis >= stretch.fromMillis + minutes * MINUTE)
        .map(({ fromMillis }) => ({ fromMillis, untilMillis: fromMillis + minutes * MINUTE }))
        .filter(
          (window) =>
            window.untilMillis <= record.endMillis &&
            !disturbed(record, UNSEEN, window, QUIET_MINUTES) &&
            !lying(record, by, window, QUIET_MINUTES) &&
            !isLost(record, window) &&
            !spans.some(
              ({ alarm, ...span }) =>
                alarms.includes(alarm) &&
                span.fromMillis <= window.untilMillis &&
                span.untilMillis >= window.fromMillis,
            ),
        )
        .map(({ untilMillis }) => ({
          invariant: 'I7' as const,
          atMillis: untilMillis,
          words: `${what} for ${minutes} min and nobody was told`,
        })),
  );
};
