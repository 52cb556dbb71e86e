import {
  benchReports,
  centralOf,
  floodsByPart,
  kilowattHours,
  notYetSown,
  RESTS_ON,
  rounded,
  type Rehearsal,
} from './rehearsal.ts';
import { verdictText } from './rehearsal-verdict.ts';

const iso = (millis: number | null): string | null =>
  millis === null ? null : new Date(millis).toISOString();

const callJson = ({ call }: Rehearsal): object | null =>
  call === null
    ? null
    : {
        firstAlarmAt: iso(call.firstAlarmAtMillis),
        firstHighAlarmAt: iso(call.firstHighAlarmAtMillis),
        bench: call.wilt?.bench ?? null,
        mayWiltFrom: iso(call.wilt?.fromMillis ?? null),
        leadMinutes: call.leadMinutes === null ? null : Math.floor(call.leadMinutes),
        lateRuns: call.lateRuns,
        silentRuns: call.silentRuns,
        wiltedBeforeFaultRuns: call.wiltedBeforeFaultRuns,
      };

/** The rehearsal as data; units stand in the names, moments are UTC and times of day local. */
export const rehearsalJson = (rehearsal: Rehearsal): object => {
  const central = centralOf(rehearsal);
  const { farm, day, verdict } = rehearsal;
  return {
    farm: farm.farm,
    invented: farm.invented !== undefined,
    date: day.date,
    weather: rehearsal.weather,
    seed: rehearsal.seed,
    runs: rehearsal.outcomes.length,
    notYetSown: notYetSown(rehearsal),
    faults: rehearsal.faults.map(({ kind, fromMillis, untilMillis }) => ({
      kind,
      from: iso(fromMillis),
      until: untilMillis === Infinity ? null : iso(untilMillis),
    })),
    verdict: { kind: verdict.kind, says: verdictText(rehearsal) },
    faultCall: callJson(rehearsal),
    advice: rehearsal.advice,
    benches: benchReports(rehearsal).map(({ whatIf, mayWiltFromMillis, ...bench }) => ({
      ...bench,
      mayWiltFrom: iso(mayWiltFromMillis),
      timeLeftMinutes: whatIf?.timeLeftMinutes ?? null,
      timeLeftMinutesWorst: whatIf?.timeLeftMinutesWorst ?? null,
      timeLeftWorstIfPumpFailsAt: whatIf?.timeLeftWorstIfPumpFailsAt ?? null,
      oneMissMarginPoints: whatIf?.oneMissMarginPoints ?? null,
      oneMissMarginPointsWorst: whatIf?.oneMissMarginPointsWorst ?? null,
    })),
    floodsByPart: floodsByPart(rehearsal),
    pumpHours: rounded(central.pumpMinutes / 60, 2),
    kilowattHours: rounded(kilowattHours(rehearsal, central), 2),
    drunkLitres: Math.round(central.drunkLitres),
    strengthMillisiemensPerCm: {
      start: rounded(central.strength.start, 2),
      end: rounded(central.strength.end, 2),
    },
    alarms: central.entries.flatMap((entry) =>
      entry.kind === 'alarm-raised'
        ? [{ at: iso(entry.at), alarm: entry.alarm, priority: entry.priority, text: entry.text }]
        : [],
    ),
    restsOn: RESTS_ON,
  };
};
