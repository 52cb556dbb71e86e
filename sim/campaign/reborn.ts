import { resumed, type Away, type ControllerState, type KeptState } from '../../src/controller.ts';
import type { Farm } from '../../src/farm/farm.ts';
import type { Link } from '../../src/ports/board.ts';
import { isPlausible } from '../../src/time/clock-trust.ts';
import type { Now } from '../../src/time/instant.ts';

/** How long ago that was, where both ends can be right. */
export const awayMinutes = (from: Now, now: Now): Away =>
  isPlausible(from.wall) && isPlausible(now.wall) && now.wall >= from.wall
    ? (now.wall - from.wall) / 60_000
    : 'unknown';

/** How a host goes on after its power was cut: from the text that was on its disk, by the wall clock where both ends can be right. */
export const reborn = (
  farm: Farm,
  keptText: string,
  now: Now,
  link: Link,
  tampered: (kept: KeptState) => KeptState = (kept) => kept,
): ControllerState => {
  const kept = tampered(JSON.parse(keptText) as KeptState);
  return resumed(farm, kept, now, awayMinutes(kept.at, now), link, 'another');
};
