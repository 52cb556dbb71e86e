import { describe, expect, it } from 'vitest';
import type { Priority } from '../../../src/alarm/card.ts';
import { momentText, sinceText, spanText, wiltText } from '../../../src/alarm/words.ts';
import type { Seen } from '../../../src/sense/seen.ts';
import { farmWith } from '../../support/farm.ts';
import type { Situation } from '../../../src/alarm/situation.ts';
import type { ShedKind } from '../../../src/alarm/facts.ts';
import { cardsIn, CLUE, minutesAgo, NOW, ROUND, STANDING, textIn, TIMELESS } from './situations.ts';

describe('the text of a missed flood', () => {
  it('says what was seen since when, which bench from when, and where to look first', () => {
    expect(textIn({ missed: CLUE })).toBe(
      'Pump ran, no water came back since 13:42. ' +
        'Bench 2 may begin to wilt from 14:40 (about 43 min left). ' +
        'Pull the plug before you reach in, and put it back after. ' +
        'Look at the filter first, then the pump inlet, then for a pipe that came off.',
    );
  });

  it('says how little came back where a meter saw some: 9 L/min', () => {
    expect(textIn({ missed: { ...CLUE, trickleLitresPerMinute: 9 } })).toMatch(
      /^Pump ran, only 9 L\/min came back since 13:42\. /,
    );
  });

  it('counts minutes where nobody knows the time', () => {
    expect(textIn({ missed: CLUE, now: TIMELESS })).toMatch(
      /^Pump ran, no water came back for 15 min\. Bench 2 may begin to wilt in 43 min\. /,
    );
  });

  it('counts from the start of the flood where water was never seen', () => {
    expect(textIn({ missed: CLUE, lastWaterAt: null })).toMatch(/no water came back since 13:46\./);
  });

  it.each<readonly [clue: Partial<Record<'contact' | 'current' | 'tankFell', Seen>>, says: RegExp]>([
    [
      { contact: 'not-seen', current: 'not-seen' },
      /^The relay did not close.*Look at the board and its relay first/,
    ],
    [{ current: 'not-seen' }, /^The pump drew no current.*Is the pump plugged in\?.*licensed person/],
    [{ contact: 'unknown', current: 'not-seen' }, /^The pump drew no current.*Is the pump plugged in\?/],
    [{ tankFell: 'seen' }, /^The tank fell but no water came back.*Pull the plug.*a pipe that came off/],
    [{}, /^Pump ran.*Pull the plug before you reach in, and put it back after\. Look at the filter first/],
    [
      { contact: 'seen', current: 'unknown' },
      /^Pump was switched on.*plugged in\? Pull the plug.*Then look at the filter/,
    ],
    [
      { contact: 'unknown', current: 'unknown' },
      /^Pump was switched on.*plugged in\? Pull the plug.*Then look at the filter/,
    ],
  ])('names the right place for %o', (clue, says) => {
    expect(textIn({ missed: { ...CLUE, ...clue } })).toMatch(says);
  });
});

describe('the text of lost mains', () => {
  const since = minutesAgo(2);
  it('says since when, what it does to the pump, how long is left, and what to do', () => {
    expect(textIn({ mainsLost: { since, against: null } })).toBe(
      'The mains have been lost since 13:55: the pump has no power. ' +
        'Bench 2 may begin to wilt from 14:40 (about 43 min left). ' +
        'Look at fuse and residual-current device; leave mains work to a licensed person. ' +
        'If it lasts, carry water to the benches by hand, the plug out. ' +
        'By bucket: Bench 4 first, 3.5 L a channel every 15 min.',
    );
  });

  it('says so where no pace of buckets holds the bench, and nothing where nothing is planted', () => {
    const lost = { mainsLost: { since, against: null } };
    const often = { ...ROUND, everyMinutes: null };
    expect(textIn({ ...lost, bucket: () => often })).toMatch(
      /By bucket: Bench 4 first, 3\.5 L a channel as often as you can\.$/,
    );
    expect(textIn({ ...lost, bucket: () => null })).toMatch(
      /carry water to the benches by hand, the plug out\.$/,
    );
  });

  it('sends nobody with buckets while the pump draws current: it is looked at first', () => {
    expect(textIn({ mainsLost: { since, against: 'the pump draws current' } })).not.toMatch(/bucket/);
  });

  it('says that contact and current cannot both be right', () => {
    expect(textIn({ mainsLost: { since, against: 'the pump draws current' } })).toMatch(
      /^The mains contact has read "lost" since 13:55, but the pump draws current: one of the two is wrong\..*Look whether the pump runs/,
    );
  });

  it('is the cause of a flood that was missed meanwhile', () => {
    expect(textIn({ missed: { ...CLUE, mains: 'not-seen', current: 'not-seen' } })).toMatch(
      /^The mains are lost and the pump has no power, no water came back since 13:42\..*residual-current device/,
    );
  });
});

describe('the text of a board that keeps the plants and is not heard', () => {
  it('promises no flood, and says how long is left if there is none', () => {
    expect(textIn({ boardSilent: { since: minutesAgo(1), why: 'unplugged' }, keeper: 'keeps' })).toBe(
      'The board has not answered since 13:56 (unplugged); its own table should flood, unseen. ' +
        'If not: Bench 2 may begin to wilt from 14:40 (about 43 min left). ' +
        "See whether benches are wet, and the timer; replug the board's USB.",
    );
  });

  it('does not say that no flood was given, for nobody knows', () => {
    expect(textIn(UNSEEN)).toMatch(
      /^Nobody has seen a flood since 13:37: the board does not answer, though it should flood by its own table\. If not: /,
    );
  });
});

describe('the time left, in words', () => {
  it.each([
    [{ minutes: 43.9, bench: 'Bench 2' }, NOW, 'Bench 2 may begin to wilt from 14:40 (about 43 min left).'],
    [{ minutes: 43.9, bench: 'Bench 2' }, TIMELESS, 'Bench 2 may begin to wilt in 43 min.'],
    [
      { minutes: 200, bench: 'Bench 2' },
      NOW,
      'Bench 2 may begin to wilt from 17:17 (about 3 h 20 min left).',
    ],
    [{ minutes: 0.9, bench: 'Bench 2' }, NOW, 'Bench 2 may be wilting already.'],
    [
      { minutes: 1199, bench: 'Bench 2' },
      NOW,
      'Bench 2 may begin to wilt from 09:56 (about 19 h 59 min left).',
    ],
    [{ minutes: 1200, bench: 'Bench 2' }, NOW, 'No bench should wilt within the next 20 hours.'],
    [{ minutes: 1440, bench: null }, NOW, 'No bench should wilt within the next 20 hours.'],
  ])('%o', (left, now, text) => {
    expect(wiltText(left, now, 'Europe/Lisbon')).toBe(text);
  });

  it.each([
    [0, '0 min'],
    [89, '89 min'],
    [90, '1 h 30 min'],
    [120, '2 h'],
    [200, '3 h 20 min'],
  ])('a span of %d min is %s', (minutes, text) => {
    expect(spanText(minutes)).toBe(text);
  });

  it('never says 60 min beside an hour', () => {
    for (let minutes = 90; minutes < 24 * 60; minutes += 0.1)
      expect(spanText(minutes)).not.toMatch(/ 60 min/);
  });

  it('tells a moment by the clock of the farm, or by its age', () => {
    expect([
      momentText(minutesAgo(15), NOW, 'Europe/Lisbon'),
      momentText(minutesAgo(15), NOW, 'America/Managua'),
      momentText(minutesAgo(15), TIMELESS, 'Europe/Lisbon'),
      sinceText(minutesAgo(15), NOW, 'Europe/Lisbon'),
      sinceText(minutesAgo(15), TIMELESS, 'Europe/Lisbon'),
    ]).toEqual(['13:42', '06:42', '15 min ago', 'since 13:42', 'for 15 min']);
  });
});

/** Water at stake now is high; a blinded eye is medium; what only costs water is low. */
const PRIORITIES: Readonly<Record<ShedKind, Priority>> = {
  'missed-flood': 'high',
  'mains-lost': 'high',
  'pump-runs-on': 'high',
  'tank-low': 'high',
  'float-suspect': 'high',
  'water-on-floor': 'high',
  'hold-is-long': 'high',
  'drying-out': 'high',
  'board-silent': 'high',
  // Within a night: it stands so in its situation.
  'tank-falls': 'high',
  'tank-full': 'low',
  'strength-off': 'medium',
  'return-lower': 'medium',
  'weak-flow': 'medium',
  'flow-sensor-silent': 'medium',
  'flow-sensor-stuck': 'medium',
  'relay-chatters': 'medium',
  'clock-stepped': 'medium',
  'no-good-temperature': 'low',
  'float-unmoved': 'low',
};

const KINDS = Object.keys(STANDING) as readonly ShedKind[];

describe('standingCards', () => {
  it('raises nothing where all is well', () => {
    expect(cardsIn({})).toEqual([]);
  });

  it.each(KINDS)('raises %s, and nothing else, in its situation', (kind) => {
    expect(cardsIn(STANDING[kind]).map((card) => [card.kind, card.priority])).toEqual([
      [kind, PRIORITIES[kind]],
    ]);
  });

  it('keeps the low tank until a whole flood ran: a float that let go is no proof', () => {
    const [card] = cardsIn({ tank: 'returning', tankSince: minutesAgo(20) });
    expect([card?.kind, card?.cause]).toEqual([
      'tank-low',
      'The tank has been low since 13:37; its float is up again, but no whole flood has left it so yet.',
    ]);
  });

  it('says no more that the air is bad once it reads well again', () => {
    expect(cardsIn({ airBadSince: minutesAgo(12) })).toEqual([]);
  });
});

const CLUES = (['seen', 'not-seen', 'unknown'] as const).flatMap((contact) =>
  (['seen', 'not-seen', 'unknown'] as const).flatMap((current) =>
    (['seen', 'not-seen', 'unknown'] as const).map((tankFell) => ({ ...CLUE, contact, current, tankFell })),
  ),
);

/** A board that keeps the plants has been out of hearing for long. */
const UNSEEN: Partial<Situation> = {
  shutTooLong: { reason: 'the board does not answer', by: 'board', since: minutesAgo(20) },
  keeper: 'keeps',
};

/** Two parts of 160 characters: 3GPP TS 23.038 (GSM 7-bit alphabet) and 23.040. */
const MESSAGE_CHARACTERS = 320;
/** Longest name that the farm file takes. */
const LONG_NAME = 'The long bench by the old southern wall.';

describe('the text of a missed flood', () => {
  it('tells where to carry water by hand first once less than half an hour is left', () => {
    const missed = CLUES[0]!;
    const text = (minutes: number): string =>
      textIn({ missed, left: () => ({ minutes, bench: 'Bench 2' }), bucket: () => ROUND });
    expect(text(29)).toMatch(/By bucket: Bench 4 first, 3\.5 L a channel every 15 min\.$/);
    expect(text(30)).not.toContain('By bucket');
  });
});

describe('a high alarm as a text message', () => {
  const farm = farmWith([['benches', 1, 'name'], LONG_NAME]);
  const left = (): { minutes: number; bench: string } => ({ minutes: 1199, bench: LONG_NAME });
  /** What the buckets add, in full, goes by mail and page; a telephone has its own message. */
  const bucket = (): null => null;
  const texts = [
    ...CLUES.map((missed) => textIn({ missed, left, bucket }, farm)),
    ...KINDS.filter((kind) => PRIORITIES[kind] === 'high').map((kind) =>
      textIn({ ...STANDING[kind], left, bucket }, farm),
    ),
    ...(['pump-stops', 'pump-runs', 'plain-timer'] as const).map((deadBoard) =>
      textIn(
        { boardSilent: { since: minutesAgo(1), why: 'w'.repeat(200) }, left, bucket },
        { ...farm, deadBoard },
      ),
    ),
    ...(['pump-stops', 'pump-runs', 'plain-timer'] as const).map((deadBoard) =>
      textIn(
        { boardSilent: { since: minutesAgo(1), why: 'w'.repeat(200) }, keeper: 'keeps', left, bucket },
        { ...farm, deadBoard },
      ),
    ),
    textIn({ ...UNSEEN, left, bucket }, farm),
    textIn({ mainsLost: { since: minutesAgo(2), against: 'the pump draws current' }, left, bucket }, farm),
    textIn({ missed: { ...CLUE, mains: 'not-seen' }, left, bucket }, farm),
    textIn(
      {
        shutTooLong: { reason: `held by ${'a'.repeat(40)}`, by: 'person', since: minutesAgo(20) },
        left,
        bucket,
      },
      farm,
    ),
  ];

  it('fits 320 characters, also with a bench name of 40', () => {
    const long = texts.filter((text) => text.length > MESSAGE_CHARACTERS);
    expect(long).toEqual([]);
    expect(texts).toHaveLength(27 + 9 + 3 + 3 + 1 + 1 + 1 + 1 + 1);
  });

  it('takes no more than 100 characters more for the buckets, for the same bench name', () => {
    const round = { ...ROUND, bench: LONG_NAME, litresPerChannel: 12.5, everyMinutes: 240 };
    for (const situation of [STANDING['mains-lost'], STANDING['drying-out'], UNSEEN]) {
      const text = (carried: typeof round | null): string =>
        textIn({ ...situation, left, bucket: () => carried }, farm);
      expect(text(round)).toMatch(/ By bucket: The long bench/);
      expect(text(round).length - text(null).length).toBeLessThanOrEqual(100);
    }
  });

  it('uses only letters of the 7-bit alphabet that take one place, or a part would hold 70', () => {
    expect(texts.filter((text) => !/^[A-Za-z0-9 .,:;?!()'"/&%+=<>*#-]+$/.test(text))).toEqual([]);
  });
});
