import type { StrengthBand } from '../farm/strength-band.ts';
import { minutesBetween, type MonotonicMillis } from '../time/instant.ts';

type Side = 'usual' | 'strong' | 'weak';

/**
 * Whether the solution is outside the band of its strength. Only good readings of the probe count: what is stale, suspect or
 * absent neither raises nor ends anything, and the count goes on where it stood.
 */
export interface StrengthWatch {
  readonly is: Side;
  /** The last good reading, mS/cm at 25 °C. */
  readonly read: { readonly millisiemensPerCm: number; readonly at: MonotonicMillis } | null;
  /** What it has read instead of `is` for so long, without a good reading that says something else. */
  readonly instead: { readonly side: Side; readonly minutes: number } | null;
  /** When it was last looked at and read well; null where it does not. */
  readonly lookedAt: MonotonicMillis | null;
}

export const STRENGTH_UNWATCHED: StrengthWatch = { is: 'usual', read: null, instead: null, lookedAt: null };

/** Salts or water that were poured in stay where they fell until a flood has carried them round. Judgement. */
const OUTSIDE_MINUTES = 30;
const INSIDE_MINUTES = 10;
/** Back inside is this share of the way from the edge to the usual strength, so that one at its edge does not come and go. */
const DEADBAND_SHARE = 0.2;
/** Between two looks that lie further apart, as while the machine slept, nobody looked. */
const LOOK_MINUTES_MAX = 10;

/** What a reading says, of a solution that was believed to be on one side. */
const sideOf = (is: Side, { least, usual, most }: StrengthBand, millisiemensPerCm: number): Side => {
  switch (is) {
    case 'strong':
      return millisiemensPerCm > most - DEADBAND_SHARE * (most - usual) ? 'strong' : 'usual';
    case 'weak':
      return millisiemensPerCm < least + DEADBAND_SHARE * (usual - least) ? 'weak' : 'usual';
    case 'usual':
      if (millisiemensPerCm > most) return 'strong';
      return millisiemensPerCm < least ? 'weak' : 'usual';
  }
};

/** The watch after one more look; `good` is a good reading in mS/cm at 25 °C, null where there is none. */
export const strengthLooked = (
  watch: StrengthWatch,
  band: StrengthBand,
  good: number | null,
  now: MonotonicMillis,
): StrengthWatch => {
  if (good === null || !Number.isFinite(good)) return { ...watch, lookedAt: null };
  const looked: StrengthWatch = { ...watch, read: { millisiemensPerCm: good, at: now }, lookedAt: now };
  const side = sideOf(watch.is, band, good);
  if (side === watch.is) return { ...looked, instead: null };
  const since = watch.lookedAt === null ? 0 : minutesBetween(watch.lookedAt, now);
  const more = since <= LOOK_MINUTES_MAX ? since : 0;
  const minutes = watch.instead?.side === side ? watch.instead.minutes + more : 0;
  const needed = side === 'usual' ? INSIDE_MINUTES : OUTSIDE_MINUTES;
  return minutes < needed
    ? { ...looked, instead: { side, minutes } }
    : { ...looked, is: side, instead: null };
};

/** The watch of an earlier host: its looks are over, what it found is not. */
export const strengthWatchKept = (
  watch: StrengthWatch,
  past: (moment: MonotonicMillis) => MonotonicMillis,
): StrengthWatch => ({
  ...watch,
  read: watch.read === null ? null : { ...watch.read, at: past(watch.read.at) },
  lookedAt: null,
});
