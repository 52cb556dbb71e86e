import type { Step } from '../src/controller.ts';
import { isActive } from '../src/alarm/alarm.ts';
import { ALARM_NAMES } from '../src/alarm/call-words.ts';
import { cardText, type AlarmKind } from '../src/alarm/card.ts';
import { momentText, spanText } from '../src/alarm/words.ts';
import type { Farm, Wiring } from '../src/farm/farm.ts';
import type { ProbeCalibration } from '../src/sense/probe.ts';
import { readings } from '../src/sense/readings.ts';
import { minutesBetween, type MonotonicMillis, type Now } from '../src/time/instant.ts';
import type { Verdict } from '../src/verify/verdict.ts';
import { readingData } from './cli/reading-words.ts';
import type { Status } from './storage/status-file.ts';

/** How the last flood ended, and when. */
export interface LastFlood {
  readonly verdict: Verdict;
  readonly at: MonotonicMillis;
}

export interface StatusAsked {
  readonly farm: Farm;
  readonly wiring: Wiring;
  readonly calibration: ProbeCalibration | null;
  readonly simulated: boolean;
  readonly board: { readonly says: string; readonly warning: string | null };
  readonly step: Step;
  readonly last: LastFlood | null;
  readonly now: Now;
}

/** The time left without the pump, worded by the caller. */
const leftWords = ({ step }: StatusAsked, worded: (span: string) => string): string => {
  const { minutes, bench } = step.left();
  if (bench !== null && minutes < 1) return `${bench} may be wilting already`;
  return worded(bench === null ? 'more than a day' : `about ${spanText(Math.floor(minutes))}`);
};

const spanLeft = (span: string): string => `${span} left`;

const wetWord = ({ farm, step }: StatusAsked): string => {
  const driest = Math.min(...step.state.belief.benches.map(({ theta }) => theta));
  const edge = Math.min(...step.state.belief.benches.map(({ thetaLow }) => thetaLow));
  if (driest < farm.floors.stress || edge < farm.floors.wilt) return 'Drying';
  return 'Wet';
};

const restingWords = (asked: StatusAsked): string => {
  const { farm, step, last, now } = asked;
  const clock = (at: MonotonicMillis): string => momentText(at, now, farm.place.timeZone);
  const before = last === null ? '' : ` Last flood ${last.verdict.kind} ${clock(last.at)},`;
  const next = step.nextFloodAt;
  if (next === null)
    return `${wetWord(asked)}.${before === '' ? ' No' : `${before} no`} flood is planned now.`;
  const when =
    now.wall === 'unknown'
      ? `in ${spanText(Math.max(0, minutesBetween(now.monotonic, next)))}`
      : `about ${clock(next)}`;
  return `${wetWord(asked)}.${before === '' ? ' First flood' : `${before} next`} ${when}.`;
};

const NAMED_MOST = 3;

/** What stands and cannot wait is told first, but for what the sentence itself tells. */
const alarmWords = ({ step }: StatusAsked, told: readonly AlarmKind[]): string => {
  const grave = step.state.alarms
    .filter((alarm) => isActive(alarm) && alarm.card.priority === 'high')
    .map(({ card }) => card.kind)
    .filter((kind) => !told.includes(kind));
  if (grave.length === 0) return '';
  const names = grave.slice(0, NAMED_MOST).map((kind) => ALARM_NAMES[kind]);
  const more = grave.length > NAMED_MOST ? ` (+${grave.length - NAMED_MOST})` : '';
  return `ALARM: ${names.join(', ')}${more}. `;
};

/** The one sentence that says it all, after the alarms that cannot wait. */
export const statusSentence = (asked: StatusAsked): string => {
  const { words, tells } = stateWords(asked);
  return `${alarmWords(asked, tells)}${words}`;
};

/** A sentence, and the alarms of which nothing more need be said with it. */
interface StateWords {
  readonly words: string;
  readonly tells: readonly AlarmKind[];
}

const stateWords = (asked: StatusAsked): StateWords => {
  const { farm, step, now } = asked;
  const { state } = step;
  const isDated = now.wall !== 'unknown';
  const ago = (since: MonotonicMillis): string => {
    const minutes = Math.floor(minutesBetween(since, now.monotonic));
    return minutes < 1 ? 'less than a minute' : spanText(minutes);
  };
  if (state.linkDownSince !== null) {
    const { link } = state;
    const keeps =
      link.kind === 'down' && link.keeper === 'keeps' ? ' With power it floods by its own table.' : '';
    const held = state.orders.hold === null ? '' : ` Held by ${state.orders.hold.who}.`;
    const words = `NO BOARD for ${ago(state.linkDownSince)}, ${leftWords(asked, spanLeft)}.${held}${keeps}`;
    return { words, tells: ['board-silent'] };
  }
  if (state.orders.hold !== null) {
    const { who, until } = state.orders.hold;
    const toGo = spanText(Math.max(1, Math.ceil(minutesBetween(now.monotonic, until))));
    const end = isDated ? `until ${momentText(until, now, farm.place.timeZone)}` : `for another ${toGo}`;
    // Set apart from the end of the hold, lest it be taken for what is left of that.
    const left = leftWords(asked, (span) => `the plants have ${span}`);
    return { words: `Held by ${who} ${end}; ${left}.`, tells: ['hold-is-long'] };
  }
  if (state.memory.missed !== null) {
    const since = state.memory.lastWaterAt ?? state.memory.missed.startedAt;
    return { words: `NO WATER for ${ago(since)}, ${leftWords(asked, spanLeft)}.`, tells: ['missed-flood'] };
  }
  const { asked: pump } = state.guard;
  if (state.flood !== null && pump.kind === 'on') {
    const toGo = Math.ceil(minutesBetween(now.monotonic, pump.until));
    const begun = isDated
      ? `since ${momentText(pump.since, now, farm.place.timeZone)}`
      : `for ${ago(pump.since)}`;
    return { words: `Flooding ${begun}, ${toGo} min to go.`, tells: [] };
  }
  return { words: restingWords(asked), tells: [] };
};

export const statusOf = (asked: StatusAsked): Status => {
  const { farm, wiring, calibration, step, now } = asked;
  const { state } = step;
  const left = step.left();
  return {
    farm: farm.farm,
    timeZone: farm.place.timeZone,
    pid: process.pid,
    writtenAt: new Date().toISOString(),
    shedTime: now.wall === 'unknown' ? null : new Date(now.wall).toISOString(),
    simulated: asked.simulated,
    says: statusSentence(asked),
    board: { link: state.link.kind, ...asked.board },
    pumpAsked: state.guard.asked.kind,
    timeLeft: { minutes: Math.floor(left.minutes), bench: left.bench },
    benches: farm.benches.map(({ name }, place) => {
      const held = state.belief.benches[place];
      return {
        name,
        heldPercent: Math.round(100 * (held?.theta ?? 0)),
        dryEdgePercent: Math.round(100 * (held?.thetaLow ?? 0)),
      };
    }),
    alarms: state.alarms.map(({ state: alarmState, card }) => ({
      kind: card.kind,
      priority: card.priority,
      state: alarmState,
      text: cardText(card),
    })),
    readings: readings(farm, wiring, state.senses, calibration, now.monotonic).map(readingData),
  };
};
