import type { Farm } from '../farm/farm.ts';
import type { Link } from '../ports/board.ts';
import type { Reading } from '../sense/reading.ts';
import { switched, type Senses } from '../sense/senses.ts';
import type { MonotonicMillis } from '../time/instant.ts';
import type { Orders } from './orders.ts';
import { allowsWhole, type TankRule } from './tank-rule.ts';

/** Whether a flood may run, worst reason first. Overflow and dry tank are opposite cases and share no rule. */
export type Interlock =
  | { readonly kind: 'open' }
  | { readonly kind: 'shortened'; readonly reason: string }
  /** `since` is null for the last sip, which waits for a bench to come near its wilt floor. */
  | { readonly kind: 'sips'; readonly reason: string; readonly since: MonotonicMillis | null }
  | { readonly kind: 'shut'; readonly reason: string; readonly by: Shutter };

/** Who keeps the pump from running: a person's hold, a board that does not answer, or water where none should be. */
export type Shutter = 'person' | 'board' | 'water';

export interface FloorSigns {
  readonly leak: Reading<boolean>;
  readonly overflow: Reading<boolean>;
}

export const floorSigns = (senses: Senses, now: MonotonicMillis): FloorSigns => ({
  leak: switched(senses, 'leak', now),
  overflow: switched(senses, 'overflow', now),
});

/** A sensor that falls silent while wet stays wet, and one that chatters is: its cable may be what drowned. */
const wet = (fitted: boolean, reading: Reading<boolean>): boolean =>
  fitted && reading.quality !== 'absent' && (reading.value || reading.quality === 'suspect');

/** Signs of water where none should be, in words; null when there is none. */
export const wetSigns = (farm: Farm, signs: FloorSigns): string | null => {
  const leak = wet(farm.evidence.leakSensor, signs.leak);
  const overflow = wet(farm.evidence.overflowFloat, signs.overflow);
  if (leak && overflow) return 'leak sensor and overflow float are both wet';
  if (leak) return 'the leak sensor is wet';
  return overflow ? 'the overflow float is wet' : null;
};

/** The one sign that is wet, in words; null with none, and with both, which stop the floods. */
export const oneWetSign = (farm: Farm, signs: FloorSigns): string | null =>
  wet(farm.evidence.leakSensor, signs.leak) && wet(farm.evidence.overflowFloat, signs.overflow)
    ? null
    : wetSigns(farm, signs);

const wetLock = (reason: string | null): Interlock =>
  reason === null ? { kind: 'open' } : { kind: 'shortened', reason };

/**
 * The order of who wins: a person's hold, a board that does not answer, a stop on two independent signs of
 * water on the floor, the tank-low rule, one such sign. A stop on two signs still allows a last sip before a bench reaches its wilt
 * floor; a hold allows nothing, for hands may be in the water.
 */
export const interlock = (
  farm: Farm,
  orders: Orders,
  link: Link,
  signs: FloorSigns,
  tank: TankRule,
): Interlock => {
  if (orders.hold !== null) return { kind: 'shut', reason: `held by ${orders.hold.who}`, by: 'person' };
  if (link.kind === 'down') return { kind: 'shut', reason: 'the board does not answer', by: 'board' };
  const reason = wetSigns(farm, signs);
  const both = wet(farm.evidence.leakSensor, signs.leak) && wet(farm.evidence.overflowFloat, signs.overflow);
  if (both && reason !== null) return { kind: 'sips', reason, since: null };
  switch (tank.kind) {
    case 'low':
      return { kind: 'sips', reason: 'the tank float reads low', since: tank.lowAt };
    case 'float-suspect':
      return { kind: 'shortened', reason: 'the tank float reads low but is contradicted' };
    case 'returning':
      if (!allowsWhole(tank)) return { kind: 'shortened', reason: 'the tank float has just let go' };
      return wetLock(reason);
    case 'well':
      return wetLock(reason);
  }
};
