import { floodServed } from '../command/orders.ts';
import { withStarts } from '../command/pump-guard.ts';
import { floodHad, owing, type Schedule } from '../plan/schedule.ts';
import type { Kept, KeptRun } from '../ports/board.ts';
import { isSameMoment, keptVerdict, runEnd } from '../verify/kept-run.ts';
import { returnLagMinutes } from '../verify/learned.ts';
import { remembered } from './judge.ts';
import { planFloodMinutes } from './plan-flood.ts';
import { turnedTo, type Turn } from './turn.ts';

/** Who commanded the board before: this process, or one of which this one knows nothing. */
export type HostBefore = 'this-host' | 'another-host';

/** Whether a run that another host has judged was a whole flood and no sip or try. */
const wasFlood = ({ farm }: Turn, { seconds }: KeptRun): boolean =>
  seconds >= farm.bounds.floodMinutes.shortest * 60;

/** Why the flood after one that was cut short is owed. */
const CUT_SHORT = 'the last one was cut short';

type Whole = Pick<KeptRun, 'startedAt' | 'seconds'>;

const had = (turn: Turn, run: Whole): Schedule => {
  const end = runEnd(run);
  return floodHad(turn.state.schedule, { start: run.startedAt, end, until: end }, planFloodMinutes(turn));
};

/** Writes one run down, and counts it as the schedule and the alarms would a run of the host's own. */
const keptOne = (turn: Turn, run: KeptRun, before: HostBefore): Turn => {
  const { farm, state } = turn;
  // This host has judged by itself what it began and ended.
  if (run.verdict === 'judged-by-host' && before === 'this-host') return turn;
  // Its start is counted already.
  const own = run.begunBy === 'host' && before === 'this-host';
  const said = [{ kind: 'kept-run', ...run } as const];
  const verdict = keptVerdict(farm, run, returnLagMinutes(state.learned));
  const { missed } = state.memory;
  // A flood of before it does not make good for a missed one.
  const isOlder = missed !== null && runEnd(run) <= missed.deadline;
  // The board tells neither of the power that an unproven one had, nor of the water of one that a reset or a hold has cut.
  const shown = { water: false, mended: farm.evidence.returnFlow === 'none' };
  const memory = verdict === null || isOlder ? state.memory : remembered(state.memory, verdict, shown);
  switch (run.verdict) {
    case 'confirmed':
    case 'unproven':
      return turnedTo(
        turn,
        {
          schedule: had(turn, run),
          guard: own ? state.guard : withStarts(state.guard, [run.startedAt]),
          orders: floodServed(state.orders),
          memory: run.verdict === 'confirmed' ? { ...memory, lastWaterAt: runEnd(run) } : memory,
        },
        said,
      );
    case 'missed':
      return turnedTo(turn, { schedule: owing(had(turn, run), 'the last one was missed'), memory }, said);
    case 'cut-short':
      // What stopped it was a reset or a hold, and says nothing of the water.
      return turnedTo(turn, { schedule: owing(state.schedule, CUT_SHORT) }, said);
    case 'sip':
      return turnedTo(turn, { sips: { count: state.sips.count + 1, lastAt: run.startedAt } }, said);
    case 'judged-by-host':
      if (!wasFlood(turn, run)) return turnedTo(turn, {}, said);
      return turnedTo(
        turn,
        {
          schedule: had(turn, run),
          guard: withStarts(state.guard, [run.startedAt]),
          // What was missed before it is not the last word any more; the next flood says how things stand.
          memory: isOlder ? state.memory : { ...state.memory, missed: null },
        },
        said,
      );
  }
};

/**
 * A flood that the board still knows of, though the log no longer tells what became of it: its rest counts. It was whole,
 * so what a cut one owed is given; whether it made good for a missed one nobody knows.
 */
const lastKnown = (turn: Turn, { lastFlood, running }: Kept): Turn => {
  const { schedule } = turn.state;
  const now = turn.now.monotonic;
  if (lastFlood === null) return turn;
  if (running !== null && isSameMoment(lastFlood.startedAt, running.startedAt, now)) return turn;
  const known = schedule.lastStart;
  if (known !== null && (known >= lastFlood.startedAt || isSameMoment(known, lastFlood.startedAt, now))) {
    return turn;
  }
  const owed = schedule.owed === CUT_SHORT ? null : schedule.owed;
  return turnedTo(turn, { schedule: { ...had(turn, lastFlood), owed } });
};

/** All that the board did by itself, in the journal and in what the plan goes by. */
export const keptRuns = (turn: Turn, kept: Kept, before: HostBefore): Turn =>
  lastKnown(
    kept.runs.reduce((next, run) => keptOne(next, run, before), turn),
    kept,
  );
