import type { Farm } from '../../src/farm/farm.ts';
import { hasPlants } from '../../src/farm/standing.ts';
import { itemAt } from '../../src/units/assertion.ts';
import type { Fault } from '../faults/fault.ts';
import type { Outcome } from './rehearse.ts';

/** Whether a scripted fault was told in time, in the run in which that went worst. */
export interface FaultCall {
  readonly firstAlarmAtMillis: number | null;
  /** The first of high priority: the one that gets a person out of bed. */
  readonly firstHighAlarmAtMillis: number | null;
  readonly wilt: { readonly bench: string; readonly fromMillis: number } | null;
  /** From the first alarm of high priority to the first wilting; negative when the alarm came after it. */
  readonly leadMinutes: number | null;
  /** Runs in which a bench wilts and no alarm of high priority came before it. */
  readonly lateRuns: number;
  /** Runs in which no alarm came at all. */
  readonly silentRuns: number;
  /** Runs in which a bench wilts before the first fault begins: that is the day plan's doing. */
  readonly wiltedBeforeFaultRuns: number;
  readonly runs: number;
}

type Call = Omit<FaultCall, 'lateRuns' | 'silentRuns' | 'wiltedBeforeFaultRuns' | 'runs'>;

const firstWilt = (farm: Farm, outcome: Outcome): Call['wilt'] =>
  outcome.benches
    .flatMap((bench, place) => {
      const told = itemAt(farm.benches, place);
      return bench.wiltedAtMillis === null || !hasPlants(told)
        ? []
        : [{ bench: told.name, fromMillis: bench.wiltedAtMillis }];
    })
    .toSorted((a, b) => a.fromMillis - b.fromMillis)[0] ?? null;

const callOf = (farm: Farm, outcome: Outcome, faultAtMillis: number): Call => {
  const raised = outcome.entries.flatMap((entry) =>
    entry.kind === 'alarm-raised' && entry.at >= faultAtMillis ? [entry] : [],
  );
  const high = raised.find((entry) => entry.priority === 'high');
  const wilt = firstWilt(farm, outcome);
  return {
    firstAlarmAtMillis: raised[0]?.at ?? null,
    firstHighAlarmAtMillis: high?.at ?? null,
    wilt,
    leadMinutes: wilt === null || high === undefined ? null : (wilt.fromMillis - high.at) / 60_000,
  };
};

const compared = (a: number, b: number): number => (a < b ? -1 : a > b ? 1 : 0);

/** Wilting without an alarm comes first, then wilting after the least lead, then no alarm, then the latest one. */
const worseFirst = (a: Call, b: Call): number => {
  if (a.wilt !== null && b.wilt !== null) {
    const byLead = compared(a.leadMinutes ?? -Infinity, b.leadMinutes ?? -Infinity);
    return byLead === 0 ? compared(a.wilt.fromMillis, b.wilt.fromMillis) : byLead;
  }
  if (a.wilt !== null || b.wilt !== null) return a.wilt === null ? 1 : -1;
  return compared(b.firstAlarmAtMillis ?? Infinity, a.firstAlarmAtMillis ?? Infinity);
};

/** What became of the scripted faults; null when there were none. */
export const faultCall = (
  farm: Farm,
  outcomes: readonly Outcome[],
  faults: readonly Fault[],
): FaultCall | null => {
  if (faults.length === 0) return null;
  const faultAtMillis = Math.min(...faults.map((fault) => fault.fromMillis));
  const calls = outcomes.map((outcome) => callOf(farm, outcome, faultAtMillis));
  const count = (test: (call: Call) => boolean): number => calls.filter(test).length;
  return {
    ...itemAt(calls.toSorted(worseFirst), 0),
    lateRuns: count(({ wilt, leadMinutes }) => wilt !== null && (leadMinutes === null || leadMinutes < 0)),
    silentRuns: count(({ firstAlarmAtMillis }) => firstAlarmAtMillis === null),
    wiltedBeforeFaultRuns: count(({ wilt }) => wilt !== null && wilt.fromMillis < faultAtMillis),
    runs: calls.length,
  };
};
