import type { Channel } from '../../../src/ports/sample.ts';
import type { InjectorName } from '../../faults/injectors.ts';
import { alarmSpans, type AlarmName } from '../alarm-log.ts';
import { FLOOR, lying, OF_A_FLOOD, POWER, RETURN, TANK } from '../lies.ts';
import { isHeld } from '../orders-given.ts';
import type { Breach, Check, RunRecord, Stretch } from '../record.ts';
import { disturbed, fullFlow, litresInto, MINUTE, NO_WATER, stepAt } from '../stretches.ts';
import { floatIsLow } from '../tank-float.ts';

/** A condition that has stood for so long, and still does so much later, stood at the moment in between. */
const BEFORE_MINUTES = 2;
const AFTER_MINUTES = 1;
/** A reading is stale after ten minutes; air that has gone is told later than that. */
const STALE_MINUTES = 11;
/** A way to people is looked at every half an hour. */
const LOOKED_AT_MINUTES = 40;
/** The floor of the shed is wet a litre after a leak begins, and for as long as the tank has water to lose. */
const WET_MINUTES = 30;
/** Less than this share of the shortest flood is no water. */
const WATER_SHARE_LEAST = 0.05;
/** What a sensor says is judged by this much before too. */
const JUDGED_MINUTES = 60;

const standsThrough = (
  { broken }: RunRecord,
  names: readonly InjectorName[],
  atMillis: number,
  beforeMinutes = BEFORE_MINUTES,
): boolean =>
  broken.some(
    ({ name, fromMillis, untilMillis }) =>
      names.includes(name) &&
      fromMillis <= atMillis - beforeMinutes * MINUTE &&
      untilMillis >= atMillis + AFTER_MINUTES * MINUTE,
  );

const noWaterIn = (record: RunRecord, span: Stretch): boolean =>
  litresInto(record, span) < WATER_SHARE_LEAST * record.farm.bounds.floodMinutes.shortest * fullFlow(record);

interface Condition {
  /** What still stands when the alarm returns, in truth; null where it does not. */
  readonly stands: (record: RunRecord, span: Stretch) => string | null;
  /** Sensors that the host goes by: where one of them may lie it cannot know. */
  readonly by: readonly Channel[];
}

const said = (so: boolean, words: string): string | null => (so ? words : null);

/** Of alarms that are not named here truth tells nothing, or another check does. */
const CONDITIONS: Partial<Readonly<Record<AlarmName, Condition>>> = {
  'missed-flood': {
    stands: (record, span) => said(noWaterIn(record, span), 'no water had come'),
    by: RETURN,
  },
  'weak-flow': {
    stands: (record, span) => said(noWaterIn(record, span), 'no water had come'),
    by: OF_A_FLOOD,
  },
  // It tells that no flood can be given, and is over when one can, or when somebody's hold is what keeps it back: whether water
  // came, and that a hold is long, other alarms tell.
  'drying-out': {
    stands: (record, { untilMillis }) =>
      said(
        standsThrough(record, ['link-lost'], untilMillis) && !isHeld(record, untilMillis),
        'the line was still dead',
      ),
    by: [],
  },
  'mains-lost': {
    stands: (record, { untilMillis }) =>
      said(standsThrough(record, ['mains-lost'], untilMillis), 'the mains were still gone'),
    by: [...POWER, ...RETURN],
  },
  'board-silent': {
    stands: (record, { untilMillis }) =>
      said(standsThrough(record, ['link-lost'], untilMillis), 'the line was still dead'),
    by: [],
  },
  'tank-low': {
    stands: (record, { untilMillis }) => {
      const step = stepAt(record, untilMillis) - 1;
      return said(floatIsLow(record, step) && floatIsLow(record, step + 1), 'the tank was still low');
    },
    by: TANK,
  },
  'pump-runs-on': {
    stands: (record, { untilMillis }) => {
      const runs = record.truth.runs.some(
        ({ fromMillis, untilMillis: offMillis }) =>
          fromMillis <= untilMillis - BEFORE_MINUTES * MINUTE &&
          offMillis >= untilMillis + AFTER_MINUTES * MINUTE,
      );
      const closed = runs && standsThrough(record, ['relay-welded'], untilMillis);
      // A contact tells of it in any case; current and water only where the pump can run.
      const shows =
        record.farm.evidence.relayReadBack ||
        !disturbed(record, NO_WATER, { fromMillis: untilMillis, untilMillis }, 30);
      return said(closed && shows, 'the pump still ran, its relay welded');
    },
    by: [...RETURN, ...POWER],
  },
  'no-good-temperature': {
    // What says garbage in place of nothing may say what is good.
    stands: (record, { untilMillis }) =>
      said(
        standsThrough(record, ['air-silent', 'air-open'], untilMillis, STALE_MINUTES) &&
          !record.broken.some(
            ({ channel, ...fault }) =>
              channel === 'air-temperature' &&
              fault.fromMillis <= untilMillis &&
              fault.untilMillis >= untilMillis - STALE_MINUTES * MINUTE,
          ),
        'no air was heard of yet',
      ),
    by: [],
  },
  'water-on-floor': {
    stands: (record, { untilMillis }) =>
      said(
        record.farm.evidence.leakSensor &&
          standsThrough(record, ['leak'], untilMillis, WET_MINUTES) &&
          (record.truth.tankLitres[stepAt(record, untilMillis - WET_MINUTES * MINUTE)] ?? 0) > 0 &&
          (record.truth.tankLitres[stepAt(record, untilMillis)] ?? 0) > 0,
        'the floor was still wet',
      ),
    by: FLOOR,
  },
  'not-recording': {
    stands: (record, { untilMillis }) =>
      said(standsThrough(record, ['disk-failing', 'disk-full'], untilMillis), 'the disk still took nothing'),
    by: [],
  },
  'channel-dead': {
    stands: (record, { untilMillis }) => {
      const dead = record.broken.some(
        ({ way, ...fault }) =>
          (way === 'modem' || way === 'mail') &&
          fault.fromMillis <= untilMillis - LOOKED_AT_MINUTES * MINUTE &&
          fault.untilMillis >= untilMillis + AFTER_MINUTES * MINUTE,
      );
      return said(dead, 'a way to people was still dead');
    },
    by: [],
  },
};

/** I7: no alarm returns while what it tells of stands. */
export const returns: Check = (record) =>
  alarmSpans(record).flatMap((span): readonly Breach[] => {
    const condition = CONDITIONS[span.alarm];
    if (!span.returned || condition === undefined) return [];
    const words = condition.stands(record, span);
    if (words === null || lying(record, condition.by, span, JUDGED_MINUTES)) return [];
    // Where every second word is lost, one that is missing denies nothing and another may seem to.
    if (condition.by.length > 0 && disturbed(record, ['samples-lost'], span, JUDGED_MINUTES)) return [];
    return [
      { invariant: 'I7', atMillis: span.untilMillis, words: `alarm "${span.alarm}" returned, and ${words}` },
    ];
  });
