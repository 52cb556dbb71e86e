import { DateTime } from 'luxon';

/** What the text of a time cell means. */
export type Moment =
  | { readonly kind: 'instant'; readonly epochMillis: number }
  /** The clocks of the zone jump over this time in spring. */
  | { readonly kind: 'skipped' }
  | { readonly kind: 'not-a-time' };

const WRITTEN =
  /^(\d{4}-\d{2}-\d{2})[T ](\d{1,2}):(\d{2})(?::(\d{2})(?:\.\d{1,9})?)?\s?(Z|[+-]\d{2}(?::?\d{2})?)?$/i;

const localTime = (
  text: string,
  timeZone: string,
): { readonly moment: DateTime; readonly clock: string } | null => {
  const [, date, hour, minute, second = '00', offset = ''] = WRITTEN.exec(text) ?? [];
  if (date === undefined || hour === undefined || minute === undefined) return null;
  const clock = `${hour.padStart(2, '0')}:${minute}:${second}`;
  const moment = DateTime.fromISO(`${date}T${clock}${offset.toUpperCase()}`, { zone: timeZone });
  return moment.isValid ? { moment, clock: offset === '' ? clock : '' } : null;
};

/**
 * Reads `2010-07-14T13:00`, with a space for the T, with or without seconds and offset. Without an offset
 * the time is one of `timeZone`; one that comes twice in autumn is taken to be the first of the two.
 */
export const readMoment = (text: string, timeZone: string): Moment => {
  const read = localTime(text, timeZone);
  if (read === null) return { kind: 'not-a-time' };
  const { moment, clock } = read;
  const isMidnight = clock.startsWith('24:');
  if (clock !== '' && !isMidnight && moment.toFormat('HH:mm:ss') !== clock) return { kind: 'skipped' };
  return { kind: 'instant', epochMillis: moment.toMillis() };
};

/** Whether a time without offset comes twice on the clocks of the zone, when they are put back in autumn. */
export const comesTwice = (text: string, timeZone: string): boolean => {
  const read = localTime(text, timeZone);
  return read !== null && read.clock !== '' && read.moment.getPossibleOffsets().length > 1;
};

const MINUTES_PER_HOUR = 60;

/** The zone of the same standard time that never changes its clocks, `Etc/GMT+8`; null where there is none. */
export const standardTimeZone = (epochMillis: number, timeZone: string): string | null => {
  const { year } = DateTime.fromMillis(epochMillis, { zone: timeZone });
  const offsets = [1, 7].map((month) => DateTime.fromObject({ year, month }, { zone: timeZone }).offset);
  const hours = Math.min(...offsets) / MINUTES_PER_HOUR;
  if (!Number.isInteger(hours)) return null;
  // POSIX counts hours west of Greenwich, hence the turned sign.
  return hours === 0 ? 'Etc/UTC' : `Etc/GMT${hours > 0 ? '-' : '+'}${Math.abs(hours)}`;
};
