import { DateTime } from 'luxon';
import { WEEK_DAYS } from '../farm/herald-schema.ts';
import type { Farm } from '../farm/farm.ts';
import type { WallMillis } from '../time/instant.ts';
import type { Addressee } from './message.ts';

type HeraldSection = NonNullable<Farm['herald']>;
export type Person = HeraldSection['people'][number];
export type Hours = HeraldSection['night'];

export interface Rota {
  readonly people: readonly Person[];
  readonly night: Hours;
  readonly timeZone: string;
}

const minuteOf = (clock: string): number => {
  const [hour, minute] = clock.split(':');
  return Number(hour) * 60 + Number(minute);
};

/** Hours may go over midnight; equal ends mean the whole day. */
const within = ({ from, to }: Hours, minute: number): 'in' | 'in-after-midnight' | 'out' => {
  const [start, end] = [minuteOf(from), minuteOf(to)];
  if (start < end) return minute >= start && minute < end ? 'in' : 'out';
  if (minute >= start) return 'in';
  return minute < end ? 'in-after-midnight' : 'out';
};

const isOnDuty = ({ days, hours }: Person, local: DateTime): boolean => {
  const minute = local.hour * 60 + local.minute;
  const place = hours === undefined ? 'in' : within(hours, minute);
  if (place === 'out') return false;
  // The small hours belong to the day on which the watch began.
  const day = WEEK_DAYS[(place === 'in-after-midnight' ? local.minus({ days: 1 }) : local).weekday - 1];
  return days === undefined || (day !== undefined && days.includes(day));
};

/**
 * Everybody, in the order in which they are called at this moment: who is on duty, then who is not. A clock that nobody
 * believes knows no duty.
 */
export const calledInOrder = (rota: Rota, wall: WallMillis | 'unknown'): readonly Person[] => {
  const local = wall === 'unknown' ? null : DateTime.fromMillis(wall, { zone: rota.timeZone });
  const onDuty = rota.people.filter((person) => local === null || isOnDuty(person, local));
  return [...onDuty, ...rota.people.filter((person) => !onDuty.includes(person))];
};

/** By an unknown clock it is night: a phone that rings by day does no harm. */
export const isNight = ({ night, timeZone }: Rota, wall: WallMillis | 'unknown'): boolean => {
  if (wall === 'unknown') return true;
  const { hour, minute } = DateTime.fromMillis(wall, { zone: timeZone });
  return within(night, hour * 60 + minute) !== 'out';
};

export const addressee = ({ name, phone, email }: Person): Addressee => ({
  name,
  phone: phone ?? null,
  email: email ?? null,
});

/**
 * Same number, also where the network leaves out the plus, which stands in the type of the number instead (3GPP TS 27.005, 3.1,
 * `<tooa>` 145), or the country code; ITU-T E.164 has at most 3 digits of it.
 */
export const sameNumber = (listed: string, seen: string): boolean => {
  const clean = seen.replace(/[\s()-]/g, '');
  if (clean.startsWith('+')) return clean === listed;
  if (clean.startsWith('00')) return `+${clean.slice(2)}` === listed;
  if (`+${clean}` === listed) return true;
  const national = clean.replace(/^0/, '');
  const code = listed.length - national.length - 1;
  return /^\d{7,}$/.test(national) && code >= 1 && code <= 3 && listed.endsWith(national);
};

/** Who is listed with the number of a text; nobody where it may be that of two. */
export const senderOf = ({ people }: Rota, from: string): Person | undefined => {
  const [first, ...others] = people.filter(({ phone }) => phone !== undefined && sameNumber(phone, from));
  return others.every(({ phone }) => phone === first?.phone) ? first : undefined;
};
