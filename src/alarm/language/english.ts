import type { FactsOfKind, MissSeen, Moment, Wilt } from '../facts.ts';
import { reasonText, type ReasonStyle } from '../reason.ts';
import { BUCKETS, othersBrief, withBucket, withOthers } from './buckets.ts';
import { switchOr, switchOrBrief } from './by-hand.ts';
import { ENGLISH_CALLS } from './english-calls.ts';
import { englishHost } from './english-host.ts';
import { englishParts } from './english-parts.ts';
import { ENGLISH_REASONS } from './english-reasons.ts';
import { shortened, spanOf, type Brief, type Language } from './language.ts';
import { WATER_ON_FLOOR } from './water-on-floor.ts';

const asItIs = (text: string): string => text;
const style: ReasonStyle = { code: 'en', reasons: ENGLISH_REASONS, figure: asItIs, quoted: asItIs };

const since = (moment: Moment): string =>
  moment.kind === 'ago' ? `for ${spanOf(moment.minutes)}` : `since ${moment.time}`;

const maybeSince = (moment: Moment | null): string => (moment === null ? '' : ` ${since(moment)}`);

const wiltWords = (wilt: Wilt): string => {
  switch (wilt.kind) {
    case 'not-soon':
      return 'No bench should wilt within the next 20 hours.';
    case 'already':
      return `${withOthers('en', wilt)} may be wilting already.`;
    case 'ahead':
      return wilt.from === null
        ? `${wilt.bench} may begin to wilt in ${wilt.minutes} min.`
        : `${wilt.bench} may begin to wilt from ${wilt.from} (about ${spanOf(wilt.minutes)} left).`;
  }
};

type Miss = FactsOfKind['missed-flood'];

/** What was seen of the water, before "since …". */
const waterSeen = ({ trickleLitresPerMinute: trickle }: Miss): string =>
  trickle === null ? 'no water came back' : `only ${trickle.toFixed(0)} L/min came back`;

const MISS_SEEN: Readonly<Record<MissSeen, string>> = {
  'no-mains': 'The mains are lost and the pump has no power, ',
  'no-contact': 'The relay did not close, ',
  'no-current': 'The pump drew no current, ',
  'tank-fell': 'The tank fell but ',
  'pump-ran': 'Pump ran, ',
  'switched-on': 'Pump was switched on, ',
};

/** What to do where the pump has no power. */
const NO_MAINS =
  'Look at fuse and residual-current device; leave mains work to a licensed person. If it lasts, carry water to the benches by hand, the plug out.';
/** Before all that leads to wet hands; a pump that stays unplugged floods nothing. */
const BEFORE_HANDS = 'Pull the plug before you reach in, and put it back after.';

/** Where to look first. */
const MISS_ACTION: Readonly<Record<MissSeen, string>> = {
  'no-mains': NO_MAINS,
  'no-contact': 'Look at the board and its relay first; the pump can be run from its own plug meanwhile.',
  'no-current':
    'Is the pump plugged in? Is its switch off? Then look at fuse and residual-current device; leave mains work to a licensed person.',
  'tank-fell': `${BEFORE_HANDS} Look for a pipe that came off between pump and benches first, then at the flow sensor.`,
  'pump-ran': `${BEFORE_HANDS} Look at the filter first, then the pump inlet, then for a pipe that came off.`,
  'switched-on': `Is the pump plugged in? ${BEFORE_HANDS} Then look at the filter and the pump inlet.`,
};

const MISS_BRIEF: Readonly<Record<MissSeen, Brief>> = {
  'no-mains': { what: 'NO MAINS, ', act: 'Fuse and RCD first; mains: licensed person; water by hand' },
  'no-contact': { what: 'Relay did not close, ', act: 'See board and relay; run pump from its own plug' },
  'no-current': { what: 'Pump draws no current, ', act: 'Plugged in? Fuse? RCD? Mains: licensed person' },
  'tank-fell': { what: 'Tank fell, ', act: 'Pull the plug, then look for a pipe that came off' },
  'pump-ran': { what: 'Pump ran, ', act: 'Pull the plug, then look at filter, inlet, pipes' },
  'switched-on': { what: 'Pump on, ', act: 'Plugged in? Pull the plug, then see filter, inlet' },
};

const trickleBrief = ({ trickleLitresPerMinute: trickle }: Miss): string =>
  trickle === null ? 'no water' : `only ${trickle.toFixed(0)} L/min`;

const BOARD_ACTION = {
  'pump-stops': "Pull the board's USB plug and put it back; the pump can be run from its own plug meanwhile.",
  'pump-runs': "Pull the board's USB plug and put it back; the pump may run without end and empty the tank.",
  'plain-timer': "Pull the board's USB plug and put it back; see whether the plain timer floods.",
} as const;

/** Where the board has a table of its own, and only its death stops the floods. */
const KEEPER_ACTION = {
  'pump-stops': "See whether the benches are wet; pull the board's USB plug, put it back.",
  'pump-runs': "Pull the board's USB plug, put it back; if dead the pump may run on.",
  'plain-timer': "See whether benches are wet, and the timer; replug the board's USB.",
} as const;

const BOARD_BRIEF = {
  'pump-stops': 'See its cable and lamp; run pump from its own plug',
  'pump-runs': 'See cable and board; pump may run the tank empty',
  'plain-timer': 'See cable and board; does the timer flood?',
} as const;

const KEEPER_BRIEF = {
  'pump-stops': 'See if benches are wet, then cable',
  'pump-runs': 'See board; pump may run on',
  'plain-timer': 'See if benches are wet, then timer',
} as const;

const UNNOTICED = 'Floods go on, but a missed one may not be noticed.';
const host = englishHost(since, style);
const bucket = BUCKETS.en;

export const ENGLISH: Language = {
  ...style,
  span: spanOf,
  since,
  wilt: wiltWords,
  calls: ENGLISH_CALLS,
  bucket,
  cards: {
    ...host.cards,
    ...englishParts(since).cards,
    'missed-flood': (facts) => ({
      cause: `${MISS_SEEN[facts.seen]}${waterSeen(facts)} ${since(facts.since)}.`,
      consequence: wiltWords(facts.wilt),
      firstAction: `${MISS_ACTION[facts.seen]}${withBucket(bucket, facts.bucket)}`,
    }),
    'mains-lost': ({ against, ...facts }) => ({
      cause:
        against === null
          ? `The mains have been lost ${since(facts.since)}: the pump has no power.`
          : `The mains contact has read "lost" ${since(facts.since)}, but ${reasonText(against, style)}: one of the two is wrong.`,
      consequence: wiltWords(facts.wilt),
      firstAction:
        against === null
          ? `${NO_MAINS}${withBucket(bucket, facts.bucket)}`
          : 'Look whether the pump runs, then at the contact.',
    }),
    'weak-flow': ({ why }) => ({
      cause: `Weak flood: ${reasonText(why, style)}.`,
      consequence: null,
      firstAction: `${BEFORE_HANDS} Clean the filter, then look for blocked inlets.`,
    }),
    'pump-runs-on': (facts) => ({
      cause: `The pump was switched off, but ${reasonText(facts.why, style)} ${since(facts.since)}.`,
      consequence: 'The tank may run dry or over.',
      firstAction: switchOr(facts.why, 'en', 'Pull the plug of the pump, then look at the relay.'),
    }),
    'tank-low': (facts) => ({
      cause: `The tank has been low${maybeSince(facts.since)}; ${facts.float === 'low' ? 'only sips are given' : 'its float is up again, but no whole flood has left it so yet'}.`,
      consequence: wiltWords(facts.wilt),
      firstAction: `${BEFORE_HANDS} Look into the tank: fill it, or free the float by hand if it hangs.`,
    }),
    'float-suspect': (facts) => ({
      cause: `The tank float reads low${maybeSince(facts.since)}, but water comes back; shortened floods go on.`,
      consequence: wiltWords(facts.wilt),
      firstAction: `${BEFORE_HANDS} Look into the tank and test the float by hand.`,
    }),
    'water-on-floor': ({ where }) => WATER_ON_FLOOR.en.card(reasonText(where, style)),
    'hold-is-long': (facts) => ({
      cause: `No flood ${since(facts.since)}: ${reasonText(facts.why, style)}.`,
      consequence: wiltWords(facts.wilt),
      firstAction: 'End the hold when hands are out of the water.',
    }),
    'drying-out': (facts) =>
      facts.keeper === 'keeps'
        ? {
            cause: `Nobody has seen a flood ${since(facts.since)}: ${reasonText(facts.why, style)}, though it should flood by its own table.`,
            consequence: `If not: ${wiltWords(facts.wilt)}`,
            firstAction: `Go and see whether the benches are wet; if not, carry water to them by hand, the pump's plug out.${withBucket(bucket, facts.bucket)}`,
          }
        : {
            cause: `No flood ${since(facts.since)}: ${reasonText(facts.why, style)}.`,
            consequence: wiltWords(facts.wilt),
            firstAction: `${BEFORE_HANDS} Carry water to the benches by hand, then mend the cause.${withBucket(bucket, facts.bucket)}`,
          },
    'flow-sensor-silent': (facts) => ({
      cause: `The return flow sensor is not believed ${since(facts.since)}: ${reasonText(facts.why, style)}.`,
      consequence: UNNOTICED,
      firstAction: 'Look at the sensor and its cable.',
    }),
    'flow-sensor-stuck': (facts) => ({
      cause: `The return flow sensor shows water ${since(facts.since)}, though the pump rests.`,
      consequence: UNNOTICED,
      firstAction: `Look, hands off, whether water really runs. ${BEFORE_HANDS} If none runs, free or replace the sensor.`,
    }),
    'clock-stepped': () => ({
      cause:
        'The clock of the host has jumped, or nothing has set it since the machine was started: nobody knows whether it is right.',
      consequence: 'Until somebody does, the benches get the floods of the hottest part of the day plan.',
      firstAction:
        'Set date and time of the host right, then say so there: rillkeeper clock FARM --right. An "ok" by text only silences this.',
    }),
    'no-good-temperature': (facts) => ({
      cause: `No good air temperature ${since(facts.since)}: ${reasonText(facts.why, style)}.`,
      consequence: null,
      firstAction: 'The plan runs at its wet end meanwhile. Look at the air thermometer and its cable.',
    }),
    'board-silent': (facts) => {
      const silent = `The board has not answered ${since(facts.since)} (${shortened(reasonText(facts.why, style))})`;
      return facts.keeper === 'keeps'
        ? {
            cause: `${silent}; its own table should flood, unseen.`,
            consequence: `If not: ${wiltWords(facts.wilt)}`,
            firstAction: KEEPER_ACTION[facts.deadBoard],
          }
        : {
            cause: `${silent}; no flood can be given.`,
            consequence: wiltWords(facts.wilt),
            firstAction: BOARD_ACTION[facts.deadBoard],
          };
    },
  },
  briefs: {
    ...host.briefs,
    ...englishParts(since).briefs,
    'missed-flood': (facts) => ({
      what: `${MISS_BRIEF[facts.seen].what}${trickleBrief(facts)} ${since(facts.since)}`,
      act: MISS_BRIEF[facts.seen].act,
    }),
    'mains-lost': (facts) =>
      facts.against === null
        ? {
            what: `MAINS LOST ${since(facts.since)}`,
            act: 'Fuse and RCD; mains: licensed person; water by hand',
          }
        : {
            what: `Mains contact reads lost ${since(facts.since)}, doubtful`,
            act: 'See if the pump runs, then the contact',
          },
    'weak-flow': ({ why }) => ({
      what: `Weak flood: ${reasonText(why, style)}`,
      act: 'Pull the plug, clean the filter, see the inlets',
    }),
    'pump-runs-on': (facts) => ({
      what: `PUMP RUNS though switched off ${since(facts.since)}, tank may run dry or over`,
      act: switchOrBrief(facts.why, 'en', 'Pull its plug, then look at the relay'),
    }),
    'tank-low': (facts) => ({
      what: `TANK LOW${maybeSince(facts.since)}, ${facts.float === 'low' ? 'only sips' : 'float just up'}`,
      act: 'Pull the plug, fill the tank or free the float',
    }),
    'float-suspect': (facts) => ({
      what: `Float reads low${maybeSince(facts.since)} but water comes back`,
      act: 'Pull the plug, then test the float',
    }),
    'water-on-floor': ({ where }) => WATER_ON_FLOOR.en.brief(reasonText(where, style)),
    'hold-is-long': (facts) => ({
      what: `No flood ${since(facts.since)}: ${reasonText(facts.why, style)}`,
      act: 'Hands out of the water, then end the hold',
    }),
    'drying-out': (facts) =>
      facts.keeper === 'keeps'
        ? {
            what: `No flood seen ${since(facts.since)}, board should flood`,
            act: 'See if benches are wet, else water them',
          }
        : {
            what: `NO FLOOD ${since(facts.since)}: ${reasonText(facts.why, style)}`,
            act: 'Carry water by hand',
          },
    'flow-sensor-silent': (facts) => ({
      what: `Return flow sensor not believed ${since(facts.since)}, a missed flood may go unseen`,
      act: 'Look at the sensor and its cable',
    }),
    'flow-sensor-stuck': (facts) => ({
      what: `Return sensor shows water ${since(facts.since)} though the pump rests`,
      act: 'See if water runs; if not, pull the plug and mend the sensor',
    }),
    'clock-stepped': () => ({
      what: 'The clock of the host is in doubt, floods are those of the hottest hours',
      act: 'Set its date and time right, then type there: rillkeeper clock',
    }),
    'no-good-temperature': (facts) => ({
      what: `No good air temperature ${since(facts.since)}, the plan runs at its wet end`,
      act: 'Look at the air thermometer and its cable',
    }),
    'board-silent': (facts) =>
      facts.keeper === 'keeps'
        ? {
            what: `Board silent ${since(facts.since)}, should flood by itself`,
            act: KEEPER_BRIEF[facts.deadBoard],
          }
        : { what: `BOARD SILENT ${since(facts.since)}, no floods`, act: BOARD_BRIEF[facts.deadBoard] },
  },
  briefWilt: (wilt, condition) => {
    const before = condition === 'surely' ? '' : 'If not, ';
    switch (wilt.kind) {
      case 'not-soon':
        return { before: '', bench: '', after: 'No wilt within 20 h' };
      case 'already':
        return { before, bench: wilt.bench, after: `${othersBrief(wilt)} may be wilting` };
      case 'ahead':
        return {
          before,
          bench: wilt.bench,
          after: ` may wilt ${wilt.from === null ? `in ${wilt.minutes} min` : `from ${wilt.from}`}`,
        };
    }
  },
};
