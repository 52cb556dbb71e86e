import { endingAt } from '../command/pump-guard.ts';
import { owing, type Schedule } from '../plan/schedule.ts';
import { switched } from '../sense/senses.ts';
import type { Seen } from '../sense/seen.ts';
import { mainsLostSince, mainsWatch, type MainsWatch } from '../verify/mains-watch.ts';
import type { Sighting } from '../verify/sighting.ts';
import { lastFlood } from './state.ts';
import { turnedTo, type Turn } from './turn.ts';

/** Why a flood is owed then. */
export const MAINS_BACK = 'the mains are back';

/**
 * The schedule once the mains are back: a flood that fell into the loss is owed at once. Where a second sign says
 * that it gave no water, the shortest rest counts from the water before it; where only the contact says so, from
 * that flood, for the contact may lie.
 */
const scheduleBack = ({ state }: Turn, { restedSince }: MainsWatch, { water }: Sighting): Schedule => {
  const { schedule, memory } = state;
  if (schedule.owed === null || memory.missed?.mains !== 'not-seen') return schedule;
  const dry = water === 'not-seen' || memory.missed.current === 'not-seen';
  return { ...owing(schedule, MAINS_BACK), ...(dry ? { lastEnd: restedSince } : {}) };
};

export interface MainsLooked {
  readonly turn: Turn;
  /** Whether the supply of the pump has its mains; `unknown` where nothing tells, or what tells is contradicted. */
  readonly mains: Seen;
}

/** Looks at the mains contact once more, and holds it against current and water. */
export const mainsLooked = (turn: Turn, seen: Sighting): MainsLooked => {
  const { farm, state, now } = turn;
  if (!farm.evidence.mainsPresent) return { turn, mains: 'unknown' };
  const contact = switched(state.senses, 'mains', now.monotonic);
  const before = state.memory.mains;
  const watch = mainsWatch(
    before,
    contact,
    {
      water: seen.water,
      wetUntil: state.guard.asked.kind === 'on' ? now.monotonic : state.schedule.lastEnd,
      lastFlood: lastFlood(state.memory),
    },
    now.monotonic,
  );
  const isBack = watch.lostSince === null && mainsLostSince(before, now.monotonic) !== null;
  const schedule = isBack ? scheduleBack(turn, before, seen) : state.schedule;
  const lost = mainsLostSince(watch, now.monotonic) !== null && seen.current !== 'seen';
  const there = contact.quality === 'good' && contact.value;
  // What is left of a run without mains is no flood: it ends, and the one that is owed begins after the shortest off.
  const isOwed = isBack && schedule.owed === MAINS_BACK && state.flood === null;
  const guard = isOwed ? endingAt(state.guard, now.monotonic) : state.guard;
  return {
    turn: turnedTo(turn, { schedule, guard, memory: { ...state.memory, mains: watch } }),
    mains: there ? 'seen' : lost && contact.quality === 'good' ? 'not-seen' : 'unknown',
  };
};
