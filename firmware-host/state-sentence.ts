import { isActive } from '../src/alarm/alarm.ts';
import type { AlarmKind } from '../src/alarm/card.ts';
import { momentOf } from '../src/alarm/facts.ts';
import { withOthers } from '../src/alarm/language/buckets.ts';
import type { Language } from '../src/alarm/language/language.ts';
import { LANGUAGES } from '../src/alarm/language/languages.ts';
import { STATE_WORDS, type Ahead, type StateWords } from '../src/alarm/language/state-words.ts';
import type { Step } from '../src/controller.ts';
import { GONE_MINUTES } from '../src/estimate/time-left.ts';
import type { Farm } from '../src/farm/farm.ts';
import type { LanguageCode } from '../src/farm/languages-spoken.ts';
import { minutesBetween, type MonotonicMillis, type Now } from '../src/time/instant.ts';
import type { Verdict } from '../src/verify/verdict.ts';

/** How the last flood ended, and when. */
export interface LastFlood {
  readonly verdict: Verdict;
  readonly at: MonotonicMillis;
}

export interface StateAsked {
  readonly farm: Farm;
  readonly step: Step;
  readonly last: LastFlood | null;
  readonly now: Now;
}

interface InLanguage extends StateAsked {
  readonly language: Language;
  readonly words: StateWords;
}

/** The time left without the pump, worded by the caller. */
const leftWords = (
  { step, words, language }: InLanguage,
  worded: (span: string | null) => string,
): string => {
  const { minutes, bench, others } = step.left();
  if (bench !== null && minutes < GONE_MINUTES)
    return words.mayWilt(withOthers(language.code, { bench, ...(others === undefined ? {} : { others }) }));
  return worded(bench === null ? null : language.span(Math.floor(minutes)));
};

const aheadOf = (at: MonotonicMillis, asked: InLanguage, minutesLeast: number): Ahead => {
  const { farm, now, language } = asked;
  const moment = momentOf(at, now, farm.place.timeZone);
  return moment.kind === 'clock'
    ? moment
    : {
        kind: 'in',
        span: language.span(Math.max(minutesLeast, Math.ceil(minutesBetween(now.monotonic, at)))),
      };
};

const benchesAre = ({ farm, step }: InLanguage): 'wet' | 'drying' => {
  const driest = Math.min(...step.state.belief.benches.map(({ theta }) => theta));
  const edge = Math.min(...step.state.belief.benches.map(({ thetaLow }) => thetaLow));
  return driest < farm.floors.stress || edge < farm.floors.wilt ? 'drying' : 'wet';
};

const restingWords = (asked: InLanguage): string => {
  const { farm, step, last, now, words } = asked;
  const place = last === null ? 'first' : 'next';
  const { nextFloodAt } = step;
  const next = nextFloodAt === null ? words.none[place] : words.next[place](aheadOf(nextFloodAt, asked, 0));
  const before =
    last === null
      ? ''
      : `${words.lastFlood(last.verdict.kind, momentOf(last.at, now, farm.place.timeZone))}, `;
  return `${words.benches[benchesAre(asked)]} ${before}${next}.`;
};

const NAMED_MOST = 3;

/** What stands and cannot wait is told first, but for what the sentence itself tells. */
const alarmWords = ({ step, words, language }: InLanguage, told: readonly AlarmKind[]): string => {
  const grave = step.state.alarms
    .filter((alarm) => isActive(alarm) && alarm.card.priority === 'high')
    .map(({ card }) => card.kind)
    .filter((kind) => !told.includes(kind));
  if (grave.length === 0) return '';
  const names = grave.slice(0, NAMED_MOST).map((kind) => language.calls.names[kind]);
  const more = grave.length > NAMED_MOST ? ` (+${grave.length - NAMED_MOST})` : '';
  return `${words.alarm} ${names.join(', ')}${more}. `;
};

/** A sentence, and the alarms of which nothing more need be said with it. */
interface Told {
  readonly says: string;
  readonly tells: readonly AlarmKind[];
}

const toldOf = (asked: InLanguage): Told => {
  const { farm, step, now, words, language } = asked;
  const { state } = step;
  const ago = (since: MonotonicMillis): string => {
    const minutes = Math.floor(minutesBetween(since, now.monotonic));
    return minutes < 1 ? words.underOneMinute : language.span(minutes);
  };
  const { hold } = state.orders;
  if (state.linkDownSince !== null) {
    const { link } = state;
    const says = [
      words.noBoard(ago(state.linkDownSince), leftWords(asked, words.left)),
      ...(hold === null ? [] : [words.heldBeside(hold.who)]),
      ...(link.kind === 'down' && link.keeper === 'keeps' ? [words.keeps] : []),
    ].join(' ');
    return { says, tells: ['board-silent'] };
  }
  if (hold !== null) {
    // Set apart from the end of the hold, lest it be taken for what is left of that.
    const left = leftWords(asked, words.plantsHave);
    return { says: words.held(hold.who, aheadOf(hold.until, asked, 1), left), tells: ['hold-is-long'] };
  }
  if (state.memory.missed !== null) {
    const since = state.memory.lastWaterAt ?? state.memory.missed.startedAt;
    return { says: words.noWater(ago(since), leftWords(asked, words.left)), tells: ['missed-flood'] };
  }
  const { asked: pump } = state.guard;
  if (state.flood !== null && pump.kind === 'on') {
    const toGo = Math.ceil(minutesBetween(now.monotonic, pump.until));
    const since = language.since(momentOf(pump.since, now, farm.place.timeZone));
    return { says: words.flooding(since, toGo), tells: [] };
  }
  return { says: restingWords(asked), tells: [] };
};

/** The one sentence that says it all, after the alarms that cannot wait. */
export const stateSentence = (given: StateAsked, code: LanguageCode): string => {
  const asked = { ...given, language: LANGUAGES[code], words: STATE_WORDS[code] };
  const { says, tells } = toldOf(asked);
  return `${alarmWords(asked, tells)}${says}`;
};
