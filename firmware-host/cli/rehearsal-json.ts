import {
  benchOf,
  benchReports,
  centralOf,
  floodsByPart,
  kilowattHours,
  notYetSown,
  pastHarvest,
  RESTS_ON,
  rounded,
  type Rehearsal,
} from './rehearsal.ts';
import { CLOGGING, type Band } from '../simulated-shed.ts';
import { verdictHangsOn } from './rehearsal-doubt.ts';
import { verdictText } from './rehearsal-verdict.ts';

const iso = (millis: number | null): string | null =>
  millis === null ? null : new Date(millis).toISOString();

const shortened = ({ low, middle, high }: Band, digits: number): Band => ({
  low: rounded(low, digits),
  middle: rounded(middle, digits),
  high: rounded(high, digits),
});

/** Time left is told to the safe side. */
const floored = ({ low, middle, high }: Band): Band => ({
  low: Math.floor(low),
  middle: Math.floor(middle),
  high: Math.floor(high),
});

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
    days: rehearsal.days,
    scenario: rehearsal.scenario,
    weather: rehearsal.weather,
    seed: rehearsal.seed,
    runs: rehearsal.outcomes.length,
    notYetSown: notYetSown(rehearsal),
    pastHarvest: pastHarvest(rehearsal),
    faults: rehearsal.faults.map((fault) => ({
      kind: fault.kind,
      bench: benchOf(rehearsal, fault),
      clogging: fault.kind === 'branch-clogging' ? (fault.clogging ?? CLOGGING) : null,
      from: iso(fault.fromMillis),
      until: fault.untilMillis === Infinity ? null : iso(fault.untilMillis),
    })),
    verdict: { kind: verdict.kind, says: verdictText(rehearsal) },
    faultCall: callJson(rehearsal),
    advice: rehearsal.advice,
    benches: benchReports(rehearsal).map(({ whatIf, mayWiltFromMillis, ...bench }) => ({
      ...bench,
      lowestHeldPercent: shortened(bench.lowestHeldPercent, 1),
      warmestWaterCelsius: shortened(bench.warmestWaterCelsius, 1),
      lowestOxygenMilligramsPerLitre: shortened(bench.lowestOxygenMilligramsPerLitre, 2),
      strongestMillisiemensPerCm:
        bench.strongestMillisiemensPerCm === null ? null : shortened(bench.strongestMillisiemensPerCm, 2),
      drunkLitres: shortened(bench.drunkLitres, 1),
      mayWiltFrom: iso(mayWiltFromMillis),
      timeLeftMinutes: whatIf === null ? null : floored(whatIf.timeLeftMinutes),
      timeLeftWorstIfPumpFailsAt: whatIf?.timeLeftWorstIfPumpFailsAt ?? null,
      oneMissMarginPoints:
        whatIf?.oneMissMarginPoints == null ? null : shortened(whatIf.oneMissMarginPoints, 1),
    })),
    hangsOn: verdictHangsOn(rehearsal).map(({ judgement, rank }) => ({ judgement, rank: rounded(rank, 2) })),
    floodsByPart: floodsByPart(rehearsal),
    pumpHours: rounded(central.pumpMinutes / 60, 2),
    kilowattHours: rounded(kilowattHours(rehearsal, central), 2),
    drunkLitres: Math.round(central.drunkLitres),
    strengthMillisiemensPerCm: {
      start: rounded(central.strength.start, 2),
      end: rounded(central.strength.end, 2),
      weakest: rounded(central.strength.weakest, 2),
      strongest: rounded(central.strength.strongest, 2),
    },
    alarms: central.entries.flatMap((entry) =>
      entry.kind === 'alarm-raised'
        ? [{ at: iso(entry.at), alarm: entry.alarm, priority: entry.priority, text: entry.text }]
        : [],
    ),
    restsOn: RESTS_ON,
  };
};
