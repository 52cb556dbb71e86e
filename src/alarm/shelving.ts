import { afterMinutes, type MonotonicMillis } from '../time/instant.ts';
import { isActive, shelvedUntil, type Alarms, type Changed } from './alarm.ts';
import type { AlarmKind } from './card.ts';
import { isOnWater } from './stakes.ts';

/** No alarm is put off for longer: a night's sleep (faults.md, "Which reaction wins"). */
export const SHELF_MINUTES_MAX = 8 * 60;
/** Nor for longer than this share of the time left. */
export const SHELF_SHARE_OF_LEFT = 0.5;

export type Shelving =
  ({ readonly kind: 'shelved' } & Changed) | { readonly kind: 'refused'; readonly why: string };

const refused = (why: string): Shelving => ({ kind: 'refused', why });

/** For how long an alarm may be put off while so much time is left. */
export const shelfMinutesMax = (minutesLeft: number): number =>
  Math.min(SHELF_MINUTES_MAX, SHELF_SHARE_OF_LEFT * minutesLeft);

/** A person puts an alarm off. One on water is not put off, and none for longer than the benches allow. */
export const shelving = (
  alarms: Alarms,
  asked: { readonly alarm: AlarmKind; readonly minutes: number; readonly who: string },
  minutesLeft: () => number,
  now: MonotonicMillis,
): Shelving => {
  const { alarm: kind, minutes, who } = asked;
  if (isOnWater(kind)) return refused('it is about water, and such an alarm cannot be put off');
  const found = alarms.find(({ card }) => card.kind === kind);
  if (found === undefined || !isActive(found)) return refused('no such alarm stands');
  if (!(minutes > 0)) return refused('for how many minutes was not said');
  const most = shelfMinutesMax(minutesLeft());
  if (most < 1) return refused('too little time is left');
  const granted = Math.min(minutes, most);
  const shelf = { who, until: afterMinutes(now, granted) };
  return { kind: 'shelved', ...shelvedUntil(alarms, kind, shelf, now) };
};

/** A person ends before its time what was put off. */
export const shelfEnded = (alarms: Alarms, kind: AlarmKind, now: MonotonicMillis): Alarms =>
  alarms.map((alarm) =>
    alarm.card.kind === kind && alarm.shelf !== null
      ? { ...alarm, shelf: { ...alarm.shelf, until: now } }
      : alarm,
  );
