import { floodServed } from '../command/orders.ts';
import { restingSince, takenOver, withStarts, type PumpGuard } from '../command/pump-guard.ts';
import { floodHad } from '../plan/schedule.ts';
import type { Kept } from '../ports/board.ts';
import { afterMinutes, minutesBetween, monotonicMillis, type MonotonicMillis } from '../time/instant.ts';
import { beganFlood, type Flood } from '../verify/flood.ts';
import { isSameMoment, runEnd } from '../verify/kept-run.ts';
import { returnLagMinutes } from '../verify/learned.ts';
import { planFloodMinutes } from './plan-flood.ts';
import { turnedTo, type Turn } from './turn.ts';

type Running = NonNullable<Kept['running']>;

/** A run that shall last no longer than this is a sip: no flood is so short. */
const SIP_MINUTES_MAX = 0.5;
/** What stands for the day part of a flood that the board began by its own table. */
const PART = 'keeper table';

/** The pump rests: since the end of the last run that anybody knows of, else since now at the earliest. */
const resting = ({ state, now }: Turn, kept: Kept): PumpGuard => {
  const { asked } = state.guard;
  const ends = kept.runs.map(runEnd).filter((end) => end <= now.monotonic);
  const own = asked.kind === 'off' && asked.since !== null && state.toldOff ? [asked.since] : [];
  const since = [...ends, ...own];
  return restingSince(state.guard, since.length === 0 ? now.monotonic : monotonicMillis(Math.max(...since)));
};

/** A flood that the board began is the host's from here on, under a number of its own. */
const adopted = (turn: Turn, run: Running): Flood => {
  const { state, now } = turn;
  const minutes = minutesBetween(run.startedAt, run.until);
  const wanted = planFloodMinutes(turn);
  return {
    ...beganFlood(
      {
        id: state.floodCount + 1,
        part: PART,
        reason: `begun by the board ${minutesBetween(run.startedAt, now.monotonic).toFixed(0)} min ago, and taken over`,
        minutes,
        ...(wanted > minutes ? { wantedMinutes: wanted } : {}),
        lagMinutes: returnLagMinutes(state.learned),
      },
      null,
      run.startedAt,
    ),
    lookedAt: now.monotonic,
    unwatchedUntil: now.monotonic,
  };
};

const goesOn = (
  turn: Turn,
  run: Running,
  purpose: 'flood' | 'retry' | 'sip',
  wanted: MonotonicMillis,
): Turn => {
  const { farm, state, now } = turn;
  // Under a hold it is stopped in this same step, and must not be prolonged before.
  const end = state.orders.hold === null ? wanted : run.until;
  const permit = takenOver(
    farm,
    state.guard,
    { since: run.startedAt, until: run.until, wanted: end, purpose },
    now.monotonic,
  );
  const said = permit.commands.map((command) =>
    command.kind === 'pump-on'
      ? ({ kind: 'pump-asked', pump: 'on', longestSeconds: command.longest } as const)
      : ({ kind: 'pump-asked', pump: 'off', longestSeconds: null } as const),
  );
  return turnedTo(turn, { guard: permit.guard }, said, permit.commands);
};

/** The pump as the board has it at this moment: a flood that runs is taken over, and nothing is told off. */
export const keptPump = (turn: Turn, kept: Kept): Turn => {
  const { running: run } = kept;
  const { state, now } = turn;
  if (run === null) return turnedTo(turn, { guard: resting(turn, kept) });
  const { asked } = state.guard;
  if (
    state.flood === null &&
    asked.kind === 'on' &&
    state.toldOff &&
    isSameMoment(run.startedAt, asked.since, now.monotonic)
  ) {
    // A sip, or what is left of a flood that has its verdict.
    return goesOn(turn, run, asked.purpose, asked.until);
  }
  if (state.flood !== null) {
    const own = isSameMoment(run.startedAt, state.flood.attemptAt, now.monotonic);
    const wanted = own ? afterMinutes(state.flood.attemptAt, state.flood.minutes) : run.until;
    return goesOn(turn, run, state.flood.retries === 0 ? 'flood' : 'retry', wanted);
  }
  if (run.sip === true || minutesBetween(run.startedAt, run.until) < SIP_MINUTES_MAX)
    return goesOn(turn, run, 'sip', run.until);
  const flood = adopted(turn, run);
  const begun = turnedTo(
    turn,
    {
      flood,
      floodCount: flood.id,
      orders: floodServed(state.orders),
      schedule: floodHad(
        state.schedule,
        { start: run.startedAt, end: null, until: run.until },
        planFloodMinutes(turn),
      ),
      guard: withStarts(state.guard, [run.startedAt]),
    },
    [
      {
        kind: 'flood-started',
        flood: flood.id,
        part: flood.part,
        minutes: flood.minutes,
        reason: flood.reason,
      },
    ],
  );
  return goesOn(begun, run, 'flood', run.until);
};
