import type { Channel, Sample } from '../ports/sample.ts';
import { minutesBetween, secondsBetween, type MonotonicMillis } from '../time/instant.ts';
import { courseDoubt, courseWith, type Course, type CourseLimits } from './course.ts';
import type { Reading } from './reading.ts';

/** A switch or meter that has not spoken for this long is no longer believed: three missed 30 s samples. */
export const STALE_AFTER_SECONDS = 90;
/** Air and water change slowly; a thermometer may miss ten minutes before the hot-day plan takes over. */
const SLOW_STALE_AFTER_SECONDS = 600;
/** A contact that changes this often in a minute is loose or drowned. Judgement. */
const CHATTER = { changes: 8, minutes: 1, calmMinutes: 5 } as const;
/** Counts of the probe that are taken together. */
const PROBE_COUNTS_KEPT = 7;

/** Readings whose course is watched: what they may be, and what they do not do. */
type CourseChannel = 'air-temperature' | 'water-temperature' | 'humidity';
interface CourseOf extends CourseLimits {
  readonly name: string;
  /** Outside these it is open or shorted, not hot or cold, dry or wet. */
  readonly least: number;
  readonly most: number;
}
/** Jumps: common practice, no source. Stillness: air is never so still; a covered tank may be for a day. */
const COURSES: Readonly<Record<CourseChannel, CourseOf>> = {
  'air-temperature': {
    name: 'the air thermometer',
    least: -20,
    most: 60,
    perMinuteMax: 3,
    still: { within: 0.05, minutes: 180 },
  },
  'water-temperature': {
    name: 'the water thermometer',
    least: -5,
    most: 60,
    perMinuteMax: 3,
    still: { within: 0.05, minutes: 24 * 60 },
  },
  humidity: {
    name: 'the humidity sensor',
    least: 1,
    most: 100,
    perMinuteMax: 30,
    still: { within: 0.2, minutes: 180 },
  },
};

interface Chatter {
  readonly since: MonotonicMillis;
  readonly last: MonotonicMillis;
}

/** The last sample of each channel, and what of the samples before is needed to judge it. */
export interface Senses {
  readonly last: Partial<Readonly<Record<Channel, Sample>>>;
  readonly courses: Partial<Readonly<Record<CourseChannel, Course>>>;
  /** When each contact last changed, oldest first, no more than make a chatter. */
  readonly changes: Partial<Readonly<Record<SwitchChannel, readonly MonotonicMillis[]>>>;
  /** Since when each contact has chattered, and when it was last seen to. */
  readonly chattered: Partial<Readonly<Record<SwitchChannel, Chatter>>>;
  readonly probeCounts: readonly number[];
}

export const NO_SENSES: Senses = { last: {}, courses: {}, changes: {}, chattered: {}, probeCounts: [] };

export type SwitchChannel = Exclude<Channel, CourseChannel | 'return-flow' | 'tank-level' | 'probe'>;

type SwitchSample = Extract<Sample, { channel: SwitchChannel }>;

const courseValue = (sample: Sample): { readonly channel: CourseChannel; readonly value: number } | null => {
  if (sample.channel === 'air-temperature' || sample.channel === 'water-temperature') {
    return { channel: sample.channel, value: sample.celsius };
  }
  return sample.channel === 'humidity' ? { channel: sample.channel, value: sample.percent } : null;
};

const isSwitch = (sample: Sample): sample is SwitchSample =>
  courseValue(sample) === null && !['return-flow', 'tank-level', 'probe'].includes(sample.channel);

const switchValue = (sample: SwitchSample): boolean => {
  switch (sample.channel) {
    case 'return-switch':
      return sample.flowing;
    case 'pump-current':
      return sample.drawing;
    case 'relay-read-back':
      return sample.closed;
    case 'tank-float':
      return sample.low;
    case 'leak':
    case 'overflow':
      return sample.wet;
    case 'mains':
      return sample.there;
  }
};

interface Gathered {
  readonly last: Partial<Record<Channel, Sample>>;
  readonly courses: Partial<Record<CourseChannel, Course>>;
  readonly changes: Partial<Record<SwitchChannel, readonly MonotonicMillis[]>>;
  readonly chattered: Partial<Record<SwitchChannel, Chatter>>;
  probeCounts: readonly number[];
}

const gatherCourse = ({ courses }: Gathered, sample: Sample): void => {
  const found = courseValue(sample);
  if (found === null) return;
  const { channel, value } = found;
  const limits = COURSES[channel];
  const plausible = (shown: number): boolean => shown >= limits.least && shown <= limits.most;
  courses[channel] = courseWith(courses[channel], { value, at: sample.at }, limits, plausible);
};

/** One slower change, still loose, does not make it trusted again. */
const isCalm = ({ last }: Chatter, now: MonotonicMillis): boolean =>
  minutesBetween(last, now) >= CHATTER.calmMinutes;

const gatherChange = ({ changes, chattered }: Gathered, sample: Sample, before: Sample | undefined): void => {
  if (!isSwitch(sample) || before === undefined || !isSwitch(before)) return;
  if (switchValue(sample) === switchValue(before)) return;
  const { channel, at } = sample;
  const recent = [...(changes[channel] ?? []), at].slice(-CHATTER.changes);
  changes[channel] = recent;
  const [first] = recent;
  if (recent.length < CHATTER.changes || first === undefined) return;
  if (minutesBetween(first, at) > CHATTER.minutes) return;
  const earlier = chattered[channel];
  chattered[channel] = {
    since: earlier === undefined || isCalm(earlier, at) ? first : earlier.since,
    last: at,
  };
};

/** Takes in what the board saw. A sample older than the one held, or from the future, is dropped. */
export const absorbed = (senses: Senses, samples: readonly Sample[], now: MonotonicMillis): Senses => {
  if (samples.length === 0) return senses;
  const gathered: Gathered = {
    last: { ...senses.last },
    courses: { ...senses.courses },
    changes: { ...senses.changes },
    chattered: { ...senses.chattered },
    probeCounts: senses.probeCounts,
  };
  for (const sample of samples) {
    const before = gathered.last[sample.channel];
    if (sample.at > now || (before !== undefined && before.at > sample.at)) continue;
    gathered.last[sample.channel] = sample;
    gatherCourse(gathered, sample);
    gatherChange(gathered, sample, before);
    if (sample.channel === 'probe') {
      gathered.probeCounts = [...gathered.probeCounts, sample.counts].slice(-PROBE_COUNTS_KEPT);
    }
  }
  return gathered;
};

const absent = <Value>(why: string): Reading<Value> => ({ quality: 'absent', why });

const aged = <Value>(value: Value, ageSeconds: number, staleAfter: number): Reading<Value> =>
  ageSeconds <= staleAfter
    ? { quality: 'good', value, ageSeconds }
    : { quality: 'stale', value, ageSeconds, why: `last reading is ${Math.round(ageSeconds)} s old` };

const courseReading = (senses: Senses, channel: CourseChannel, now: MonotonicMillis): Reading<number> => {
  const limits = COURSES[channel];
  const { name, least, most } = limits;
  const course = senses.courses[channel];
  if (course === undefined) return absent(`${name} has not spoken`);
  const { value, at } = course.last;
  if (!(value >= least && value <= most)) return absent(`${name} reads out of range: open or shorted`);
  const reading = aged(value, secondsBetween(at, now), SLOW_STALE_AFTER_SECONDS);
  if (reading.quality !== 'good') return reading;
  const doubt = courseDoubt(course, limits, now);
  return doubt === undefined ? reading : { ...reading, quality: 'suspect', why: `${name} ${doubt}` };
};

/** As the thermometer shows it; what the controller goes by is also held against the water. */
export const airCelsius = (senses: Senses, now: MonotonicMillis): Reading<number> =>
  courseReading(senses, 'air-temperature', now);

export const waterCelsius = (senses: Senses, now: MonotonicMillis): Reading<number> =>
  courseReading(senses, 'water-temperature', now);

export const humidityPercent = (senses: Senses, now: MonotonicMillis): Reading<number> =>
  courseReading(senses, 'humidity', now);

/** Since when a contact has changed too often to be believed; null when it has been calm for long enough. */
export const chattersSince = (
  { chattered }: Senses,
  channel: SwitchChannel,
  now: MonotonicMillis,
): MonotonicMillis | null => {
  const chatter = chattered[channel];
  return chatter === undefined || isCalm(chatter, now) ? null : chatter.since;
};

/** The state of one switch: true means flowing, drawing, closed, low, wet or, of the mains, there. */
export const switched = (senses: Senses, channel: SwitchChannel, now: MonotonicMillis): Reading<boolean> => {
  const sample = senses.last[channel];
  if (sample === undefined || !isSwitch(sample)) return absent('it has not spoken');
  const reading = aged(switchValue(sample), secondsBetween(sample.at, now), STALE_AFTER_SECONDS);
  if (reading.quality !== 'good' || chattersSince(senses, channel, now) === null) return reading;
  return { ...reading, quality: 'suspect', why: 'it chatters: a loose or wet contact' };
};

export const returnLitresPerMinute = (senses: Senses, now: MonotonicMillis): Reading<number> => {
  const sample = senses.last['return-flow'];
  if (sample?.channel !== 'return-flow') return absent('no flow meter has spoken');
  if (!(sample.litresPerMinute >= 0)) return absent('the flow meter reads nonsense');
  return aged(sample.litresPerMinute, secondsBetween(sample.at, now), STALE_AFTER_SECONDS);
};

export const tankLitres = (senses: Senses, now: MonotonicMillis): Reading<number> => {
  const sample = senses.last['tank-level'];
  if (sample?.channel !== 'tank-level') return absent('no level sensor has spoken');
  if (!(sample.litres >= 0)) return absent('the level sensor reads nonsense');
  return aged(sample.litres, secondsBetween(sample.at, now), STALE_AFTER_SECONDS);
};
