import { FILL_MINUTES, DRAIN_MINUTES, moved, wetFrom, wetUntil, type Belief } from '../estimate/belief.ts';
import type { Outlook } from '../estimate/time-left.ts';
import { afterMinutes } from '../time/instant.ts';
import { tankFell } from '../verify/flood-verdict.ts';
import { farmLitresPerMinute, sighting, type Sighting } from '../verify/sighting.ts';
import { usualReturn } from '../verify/learned.ts';
import { almanacNow } from './almanac.ts';
import { mainsLooked } from './mains.ts';
import { isAway } from './state.ts';
import { tankWatched } from './tank-watch.ts';
import { turnedTo, type Turn } from './turn.ts';
import { uptakeNow } from './uptake.ts';

/** Keeps the ratio of two small uptakes at night from meaning anything. */
const NIGHT_MILLIMETRES_PER_HOUR = 0.05;

/** Whether a tank that has told of floods before does not, or not yet, tell of this one. */
const tankStill = ({ farm, state: { flood } }: Turn, seen: Sighting): boolean =>
  flood?.tankTells === true && seen.tankLitres !== null && tankFell(farm, flood) === 'not-seen';

/** Where water can be seen the roots are wet while it is; where not, from shortly after the command. */
const wetNow = (belief: Belief, seen: Sighting, turn: Turn): Belief => {
  const { asked } = turn.state.guard;
  // What the board does unseen counts only once it has told of it.
  if (isAway(turn.state)) return wetUntil(belief, turn.now.monotonic);
  switch (seen.water) {
    case 'seen':
      return wetFrom(belief, turn.now.monotonic);
    case 'not-seen':
      return wetUntil(belief, turn.now.monotonic);
    case 'unknown':
      if (asked.kind === 'on') {
        const dead = seen.contact === 'not-seen' || seen.mains === 'not-seen';
        const powerless = seen.current === 'not-seen' || (dead && seen.current !== 'seen');
        return powerless || tankStill(turn, seen)
          ? belief
          : wetFrom(belief, afterMinutes(asked.since, FILL_MINUTES));
      }
      return asked.since === null ? belief : wetUntil(belief, afterMinutes(asked.since, DRAIN_MINUTES));
  }
};

export interface Believed {
  readonly turn: Turn;
  readonly seen: Sighting;
  readonly outlook: Outlook;
}

/** Moves the belief to this moment by the air as measured, or by the hot day where there is no good reading. */
export const believe = (turn: Turn): Believed => {
  const { farm, state, now } = turn;
  const almanac = almanacNow(turn);
  const bare = sighting(
    farm,
    state.senses,
    usualReturn(state.learned, farmLitresPerMinute(farm), Infinity),
    state.memory.returnTrust.stuckSince === null ? 'proves' : 'stuck',
    now.monotonic,
  );
  const { turn: looked, mains } = mainsLooked(turn, bare);
  const seen: Sighting = { ...bare, mains };
  const { hot, measured } = uptakeNow(turnedTo(turn, { almanac }));
  const belief = moved(state.belief, almanac.facts, measured, farm.floors.stress, now.monotonic);
  const hotterShare = (measured + NIGHT_MILLIMETRES_PER_HOUR) / (hot + NIGHT_MILLIMETRES_PER_HOUR);
  return {
    turn: tankWatched(turnedTo(looked, { almanac, belief: wetNow(belief, seen, turn) }), seen, measured),
    seen,
    outlook: { facts: almanac.facts, day: almanac.reference, hotterShare },
  };
};
