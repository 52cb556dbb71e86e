import { spanOf } from '../../src/alarm/language/language.ts';
import { MILLIS_PER_MINUTE } from '../../src/time/instant.ts';
import type { FaultCall } from '../simulated-shed.ts';
import { percent, whenText, type Rehearsal } from './rehearsal.ts';
import { besideWaterText } from './rehearsal-strength.ts';

const DAY_MINUTES = 24 * 60;

/** `45 min`, `3 h 20 min`, `> 24 h`. */
export const spanWords = (minutes: number): string => (minutes >= DAY_MINUTES ? '> 24 h' : spanOf(minutes));

/** `up to 45 min`, `more than 24 h`. */
export const upToWords = (minutes: number): string =>
  minutes >= DAY_MINUTES ? 'more than 24 h' : `up to ${spanWords(minutes)}`;

const minuteOf = (millis: number): number => Math.floor(millis / MILLIS_PER_MINUTE);

/** How the alarms stand to the first wilting, in the run in which they come latest against it. */
const leadWords = (rehearsal: Rehearsal, call: FaultCall, wilt: NonNullable<FaultCall['wilt']>): string => {
  const { firstAlarmAtMillis: first, firstHighAlarmAtMillis: high, leadMinutes: lead } = call;
  const at = (millis: number): string => whenText(rehearsal, millis);
  const { verdict } = rehearsal;
  const said =
    verdict.kind === 'may-wilt' && verdict.bench === wilt.bench && verdict.fromMillis === wilt.fromMillis;
  const bench = `${wilt.bench} may begin to wilt from ${at(wilt.fromMillis)}`;
  if (high === null || lead === null) {
    const other = first === null ? '' : `, only one of lower priority at ${at(first)}`;
    return `no alarm of high priority comes${other}${said ? '' : `, though ${bench}`}`;
  }
  const alarms =
    first === null || first === high
      ? `the first alarm comes at ${at(high)}`
      : `the first alarm comes at ${at(first)}, the first of high priority at ${at(high)}`;
  // Between the two clock times as they are told: a person subtracts them.
  const minutes = Math.abs(minuteOf(wilt.fromMillis) - minuteOf(high));
  const span = minutes === 0 ? 'less than 1 min' : spanWords(minutes);
  return lead < 0
    ? `${alarms}, ${span} too late${said ? '' : `: ${bench}`}`
    : `${alarms}, ${span} before ${said ? 'that' : bench}`;
};

const capital = (text: string): string => `${text.slice(0, 1).toUpperCase()}${text.slice(1)}`;

/** Whether the scripted faults were told in time; empty where there were none. */
export const callText = (rehearsal: Rehearsal): readonly string[] => {
  const { call } = rehearsal;
  if (call === null) return [];
  const { wilt, runs, lateRuns, silentRuns, wiltedBeforeFaultRuns, firstAlarmAtMillis } = call;
  if (wiltedBeforeFaultRuns > 0) {
    return [
      `A bench wilts before the fault begins (in ${wiltedBeforeFaultRuns} of ${runs} runs): rehearse without it first.`,
    ];
  }
  if (wilt === null) {
    if (silentRuns > 0 || firstAlarmAtMillis === null)
      return [`No alarm comes in ${silentRuns} of ${runs} runs.`];
    const first = `The first alarm comes at ${whenText(rehearsal, firstAlarmAtMillis)}`;
    return [runs === 1 ? `${first}.` : `${first} in the latest of ${runs} runs.`];
  }
  const lead = leadWords(rehearsal, call, wilt);
  return [
    runs === 1 ? `${capital(lead)}.` : `In the worst of ${runs} runs ${lead}.`,
    ...(lateRuns > 0 ? [`NOT CALLED IN TIME in ${lateRuns} of ${runs} runs.`] : []),
  ];
};

/** Of the water of the benches. */
const waterText = (rehearsal: Rehearsal): string => {
  const { verdict, call, days } = rehearsal;
  const at = (millis: number): string => whenText(rehearsal, millis);
  switch (verdict.kind) {
    case 'holds':
      return call === null
        ? 'Holds, also if any one flood is missed.'
        : [
            `No bench wilts by the end of the day after${days > 1 ? ' the last' : ''}.`,
            ...callText(rehearsal),
          ].join(' ');
    case 'holds-unless-missed':
      return (
        `Holds, but not if one flood is missed: without the one at ${at(verdict.missedAtMillis)} ` +
        `${verdict.bench} would be down to ${percent(verdict.theta)} % ` +
        `(in ${verdict.failing} of ${verdict.runs} runs below the wilt floor).`
      );
    case 'may-wilt':
      return [
        `${verdict.bench} may begin to wilt from ${at(verdict.fromMillis)} ` +
          `(in ${verdict.failing} of ${verdict.runs} runs).`,
        ...callText(rehearsal),
      ].join(' ');
  }
};

/** The verdict in a few sentences, for a person. */
export const verdictText = (rehearsal: Rehearsal): string =>
  [waterText(rehearsal), ...besideWaterText(rehearsal)].join(' ');
