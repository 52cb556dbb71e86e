import type { InjectorName } from '../../faults/injectors.ts';
import { alarmSpans, type AlarmName } from '../alarm-log.ts';
import { isLost } from '../lost-records.ts';
import { brokenAt, type Breach, type Broken, type Check, type RunRecord, type Stretch } from '../record.ts';
import { MINUTE } from '../stretches.ts';

/** The first attempt of an urgent call begins this soon after it. */
const FIRST_MILLIS = 5000;
/** While a way to people works, the longest a message may take: an attempt that hangs, and the longest wait for the next. */
const REACHED_MINUTES = 8;
/** A way that is looked at every half an hour is known to be dead after three looks in a row. */
const DEAD_MINUTES = 40;
/** A disk that takes nothing is found out with the next write: at most 11 s, and a slow one before it. */
const UNRECORDED_MINUTES = 2;
/** Both alarms return this long after all is well: the last look or attempt, and five minutes of quiet. */
const OVER_MINUTES = 20;

const GONE: readonly InjectorName[] = ['host-killed', 'host-frozen'];
/** Ways that can be looked at without a message. */
const LOOKED_AT = ['modem', 'mail'] as const;

const breaksWay = ({ name, way }: Broken, channel: string): boolean =>
  way === channel || (name === 'network-gone' && channel !== 'modem');

/** Since when, at a moment or after it, a way to people has worked without a break for so long. */
const worksFrom = ({ broken }: RunRecord, channel: string, atMillis: number, minutes: number): number => {
  let fromMillis = atMillis;
  const faults = broken
    .filter((fault) => breaksWay(fault, channel))
    .toSorted((one, other) => one.fromMillis - other.fromMillis);
  for (const fault of faults) {
    if (fault.fromMillis < fromMillis + minutes * MINUTE && fault.untilMillis > fromMillis)
      fromMillis = fault.untilMillis;
  }
  return fromMillis;
};

const isGone = (record: RunRecord, span: Stretch): boolean => brokenAt(record, GONE, span);

/** I7: who is to be called is called soon, and a dead way to people and a disk that does not write are alarms themselves. */
export const called: Check = (record) => {
  const { tries, broken, startMillis, endMillis } = record;
  const breaches: Breach[] = [];
  const say = (atMillis: number, words: string): void => {
    breaches.push({ invariant: 'I7', atMillis, words });
  };
  const spans = alarmSpans(record);

  const urgent = tries.filter(({ priority, kind }) => priority === 'high' && kind !== 'returned');
  const asked = new Map(urgent.map((one) => [`${one.calledMillis} ${one.alarm ?? ''}`, one]));
  for (const { calledMillis, alarm } of asked.values()) {
    const soon = { fromMillis: calledMillis, untilMillis: calledMillis + FIRST_MILLIS };
    const mine = urgent.filter((one) => one.calledMillis === calledMillis && one.alarm === alarm);
    const first = Math.min(...mine.map(({ fromMillis }) => fromMillis));
    if (first > soon.untilMillis && !isGone(record, soon))
      say(
        first,
        `the first attempt for "${alarm ?? ''}" came ${Math.round((first - calledMillis) / 1000)} s after its call`,
      );
  }
  const high = spans.filter(({ priority }) => priority === 'high');
  for (const { alarm, fromMillis, untilMillis } of high) {
    const works = Math.min(...LOOKED_AT.map((way) => worksFrom(record, way, fromMillis, REACHED_MINUTES)));
    const window = { fromMillis, untilMillis: works + REACHED_MINUTES * MINUTE };
    if (window.untilMillis > Math.min(untilMillis, endMillis) || isGone(record, window)) continue;
    // One alarm may speak for another: what counts is that somebody has heard of something that cannot wait.
    const heard = tries.some(
      ({ outcome, person, priority, endMillis: at }) =>
        outcome === 'reached' &&
        person !== null &&
        priority === 'high' &&
        at !== null &&
        at <= window.untilMillis &&
        at >= fromMillis - SPOKEN_FOR_MINUTES * MINUTE,
    );
    if (!heard) say(window.untilMillis, `nobody has heard of "${alarm}" though a way to people worked`);
  }

  const standsIn = (name: AlarmName, { fromMillis, untilMillis }: Stretch): boolean =>
    spans.some(
      (span) => span.alarm === name && span.fromMillis <= untilMillis && span.untilMillis >= fromMillis,
    );
  const told = (fault: Broken, name: AlarmName, minutes: number, what: string): void => {
    const window = { fromMillis: fault.fromMillis, untilMillis: fault.fromMillis + minutes * MINUTE };
    if (window.untilMillis > fault.untilMillis) return;
    if (isGone(record, window) || isLost(record, window)) return;
    if (!standsIn(name, window)) say(window.untilMillis, `${what} for ${minutes} min and nobody was told`);
  };
  for (const fault of broken) {
    if (LOOKED_AT.some((way) => breaksWay(fault, way)))
      told(fault, 'channel-dead', DEAD_MINUTES, 'a way to people was dead');
    if (fault.name === 'disk-failing' || fault.name === 'disk-full')
      told(fault, 'not-recording', UNRECORDED_MINUTES, 'the disk took nothing');
  }
  for (const { alarm, untilMillis } of spans) {
    const causes = CAUSES_OF[alarm];
    if (causes === undefined) continue;
    const over = { fromMillis: untilMillis - OVER_MINUTES * MINUTE, untilMillis };
    if (over.fromMillis < startMillis || isGone(record, over) || isLost(record, over)) continue;
    // A webhook cannot be looked at without a message: it stays called dead until the next one goes through it.
    const looked = broken.every(({ name, way }) => way !== 'webhook' && name !== 'network-gone');
    if (alarm === 'channel-dead' && !looked) continue;
    if (!brokenAt(record, causes, over))
      say(untilMillis, `"${alarm}" stood ${OVER_MINUTES} min after all was well`);
  }
  return breaches;
};

/** An alarm that explains another has been called before it. */
const SPOKEN_FOR_MINUTES = 240;

const CAUSES_OF: Partial<Readonly<Record<AlarmName, readonly InjectorName[]>>> = {
  'channel-dead': ['channel-refusing', 'channel-hung', 'network-gone'],
  'not-recording': ['disk-full', 'disk-failing'],
};
