import type { Farm } from '../../src/farm/farm.ts';
import { dayAfter, localClockInstant, type LocalDay } from '../../src/time/local-day.ts';
import { CLOGGING, FAULTS, isFaultKind, isOfOneBench, type Clogging, type Fault } from '../simulated-shed.ts';
import { EXIT } from './exit-code.ts';
import { Refusal } from './refusal.ts';
import { minuteOfDay } from './times.ts';

/** A branch that keeps all its flow does not clog, and no rehearsal is longer than this. */
const SHARE_MOST_PERCENT = 99;
const DAYS_MOST = 60;

export const faultList = (): string =>
  Object.entries(FAULTS)
    .map(([kind, says]) => `  ${kind.padEnd(16)} ${says}`)
    .join('\n');

const refused = (found: string, allowed: string): Refusal =>
  new Refusal(`--fault: found "${found}"; ${allowed}`, EXIT.usage);

/** The last of the words if it is a number with this unit; it is taken away from them. */
const takenNumber = (words: string[], unit: string, most: number): number | null => {
  const last = words.at(-1) ?? '';
  const digits = last.endsWith(unit) ? last.slice(0, -unit.length) : '';
  if (!/^\d+$/.test(digits)) return null;
  words.pop();
  const value = Number(digits);
  const least = unit === 'd' ? 1 : 0;
  if (value >= least && value <= most) return value;
  throw refused(last, `allowed is ${least}${unit} to ${most}${unit}.`);
};

const cloggingFrom = (words: string[]): Clogging | null => {
  const days = takenNumber(words, 'd', DAYS_MOST);
  const percent = takenNumber(words, '%', SHARE_MOST_PERCENT);
  return days === null && percent === null
    ? null
    : {
        endShare: percent === null ? CLOGGING.endShare : percent / 100,
        days: days ?? CLOGGING.days,
      };
};

/** `Bench 2`, `Bench 2:30%:7d` or less, after the kind. @throws Refusal */
const aboutBench = (
  kind: Fault['kind'],
  told: readonly string[],
  { benches }: Farm,
): Pick<Fault, 'bench' | 'clogging'> => {
  if (told.length === 0) return {};
  if (!isOfOneBench(kind)) {
    throw refused(`${kind}:${told.join(':')}`, `allowed is ${kind} and a time: it is about no bench.`);
  }
  const words = [...told];
  const clogging = kind === 'branch-clogging' ? cloggingFrom(words) : null;
  const course = clogging === null ? {} : { clogging };
  if (words.length === 0) return course;
  // A name may have a colon of its own.
  const name = words.join(':');
  const bench = benches.findIndex((each) => each.name === name);
  if (bench >= 0) return { bench, ...course };
  throw refused(name, `allowed is ${benches.map((each) => `"${each.name}"`).join(', ')}.`);
};

/**
 * `pump-dead@13:00` or `pump-dead@13:00-15:00` on that local day, `@22:00-02:00` until the next; of one bench `inlet-blocked:Bench 2@13:00`, and of one
 * that clogs `branch-clogging:Bench 2:30%:7d@13:00`, down to 30 % of its flow in a week. @throws Refusal
 */
export const faultFrom = (text: string, day: LocalDay, farm: Farm): Fault => {
  // A name may have an @ of its own; a time has none.
  const at = text.lastIndexOf('@');
  const [kind = '', ...about] = text.slice(0, Math.max(0, at)).split(':');
  const [from = '', until, ...more] = text.slice(at + 1).split('-');
  if (at < 0 || from === '' || kind.includes('@') || more.length > 0) {
    throw refused(text, 'allowed is a fault and a time, such as pump-dead@13:00.');
  }
  if (!isFaultKind(kind)) throw refused(kind, `allowed are\n${faultList()}`);
  const bench = aboutBench(kind, about, farm);
  const begins = minuteOfDay(from, '--fault');
  const ends = until === undefined ? null : minuteOfDay(until, '--fault');
  if (ends === begins) {
    throw refused(
      text,
      'the end must differ from the start; one before it is of the next day, and without an end it lasts.',
    );
  }
  const fromMillis = localClockInstant(day, begins);
  const untilMillis = ends === null ? Infinity : localClockInstant(ends < begins ? dayAfter(day) : day, ends);
  // Two times within an hour that the clocks skip are one moment.
  if (untilMillis <= fromMillis) throw refused(text, 'the end must lie after the start.');
  return { kind, fromMillis, untilMillis, ...bench };
};
