import type { Entry } from './entry.ts';
import type { Waiting } from './queue-state.ts';
import { rankOf } from './rank.ts';

/** An entry as it waits for the disk. */
export const waiting = ({ at, wall, kind, ...rest }: Entry): Waiting => ({
  at,
  wall,
  kind,
  json: JSON.stringify(rest),
  rank: rankOf(kind),
});
