import { describe, expect, it } from 'vitest';
import { deadChannels } from '../../../src/delivery/channel-health.ts';
import { NOT_UNDERSTOOD } from '../../../src/alarm/language/text-answers.ts';
import { restarted } from '../../../src/delivery/delivery-restart.ts';
import {
  ANA,
  BROKER,
  BY_DAY,
  BY_NIGHT,
  drive,
  FAILS,
  GSM,
  HANGS,
  HOOK,
  MAIL,
  nowAt,
  RAISED,
  settingsWith,
  told,
  WELL,
  type Begun,
  type Network,
} from './virtual-network.ts';

const ALL = settingsWith([GSM, MAIL, HOOK, BROKER]);
const words = ({ begun }: Network): readonly string[] =>
  begun.map(({ message, channel }: Begun) => `${message.form} ${message.to?.name ?? channel}`);

describe('a call of high priority', () => {
  it('by night rings the phone of the first person, then texts; mail, webhook and broker go at the same moment', () => {
    const run = drive(ALL, () => WELL, [told()], 60, BY_NIGHT);
    expect(words(run)).toEqual(['ring Ana', 'mail Ana', 'post webhook shop', 'post broker', 'text Ana']);
    expect(run.begun.map(({ atSeconds }) => atSeconds)).toEqual([10, 10, 10, 10, 12]);
  });

  it('by day texts and mails and does not ring, until it is told again', () => {
    const again = { ...RAISED, kind: 'again' as const };
    const run = drive(ALL, () => WELL, [told(), told(again, 60)], 90, BY_DAY);
    expect(words(run)).toEqual([
      'text Ana',
      'mail Ana',
      'post webhook shop',
      'post broker',
      'ring Ana',
      'mail Ana',
      'post webhook shop',
      'post broker',
      'text Ana',
    ]);
  });

  it('of rung 1 goes to the second person', () => {
    const run = drive(ALL, () => WELL, [told({ ...RAISED, kind: 'escalated', rung: 1 })], 60);
    expect(words(run)).toContain('ring Rui');
    expect(words(run)).not.toContain('text Ana');
  });

  it('of rung 1 goes to the first as well when nothing has reached them yet, with the newer text', () => {
    const newer = { ...RAISED, kind: 'escalated' as const, rung: 1, text: 'newer' };
    const run = drive(
      settingsWith([GSM]),
      (_, at) => (at < 30 ? FAILS : WELL),
      [told(), told(newer, 30)],
      120,
    );
    const texts = run.heard.flatMap((heard) =>
      heard.kind === 'delivered' && heard.form === 'text' ? [`${heard.person!} ${heard.call!.text}`] : [],
    );
    expect(texts.toSorted()).toEqual(['Ana newer', 'Rui newer']);
  });

  it('reaches the next person 2 tries later when the way to the first fails, after 90 s when it hangs', () => {
    const fails = drive(settingsWith([MAIL]), () => FAILS, [told()], 300);
    expect(fails.begun.find(({ message }) => message.to?.name === 'Rui')?.atSeconds).toBe(27);
    const hangs = drive(settingsWith([GSM]), () => HANGS, [told()], 600);
    const toRui = hangs.begun.find(({ message }) => message.to?.name === 'Rui');
    // 90 s after it was told; the modem is busy with the hung text to Ana until its 60 s are over for the second time.
    expect(toRui?.atSeconds).toBeGreaterThanOrEqual(100);
    expect(toRui?.atSeconds).toBeLessThanOrEqual(10 + 90 + 60);
  });

  it('is tried again after 15, 30, 60, 120, 240 and then every 300 s, and given up after 240 min where somebody has got it', () => {
    const run = drive(
      settingsWith([MAIL, HOOK]),
      (channel, at) => (channel === 'mail' || at >= 3.99 * 3600 ? WELL : FAILS),
      [told()],
      5 * 3600,
    );
    const starts = run.begun
      .filter(({ message }) => message.form === 'post')
      .map(({ atSeconds }) => atSeconds);
    const gaps = starts.slice(1).map((at, place) => at - starts[place]! - 1);
    expect(gaps.slice(0, 8)).toEqual([15, 30, 60, 120, 240, 300, 300, 300]);
    expect(run.state.jobs).toEqual([]);
  });

  it('carries its message of 160 letters to the telephone, and the whole text everywhere else', () => {
    const run = drive(settingsWith([GSM, MAIL, HOOK], [ANA]), () => WELL, [told()], 120);
    const carried = run.begun.map(({ message }) => `${message.form}: ${message.text}`);
    expect(new Set(carried)).toEqual(
      new Set([`text: ${RAISED.message}`, `mail: ${RAISED.text}`, `post: ${RAISED.text}`]),
    );
  });

  it('takes the modem from a daily message that hangs there, 3 s after it was told', () => {
    const daily = {
      ...RAISED,
      kind: 'all-well' as const,
      alarm: null,
      priority: 'low' as const,
      text: 'all well',
      message: 'all well',
    };
    const run = drive(
      settingsWith([GSM], [ANA]),
      (_, at) => (at < 6 ? HANGS : WELL),
      [told(daily, 5), told()],
      120,
    );
    expect(run.begun.map(({ atSeconds, message }) => [atSeconds, message.text])).toEqual([
      [5, 'all well'],
      [13, RAISED.message],
      [15, 'all well'],
    ]);
  });
});

describe('a newer call of the same alarm', () => {
  it('takes the place of the older one that waits, and the older is never sent again', () => {
    const newer = { ...RAISED, kind: 'again' as const, text: 'newer' };
    const run = drive(
      settingsWith([HOOK]),
      (_, at) => (at < 20 ? FAILS : WELL),
      [told(), told(newer, 20)],
      600,
    );
    expect(run.begun.map(({ message }) => message.text)).toEqual([RAISED.text, 'newer']);
  });
});

describe('a channel', () => {
  it('is dead after 3 failures in a row, with the moment of the first, and alive after one success', () => {
    const run = drive(settingsWith([HOOK]), () => FAILS, [told()], 60);
    expect(deadChannels(run.state, nowAt(60).monotonic)).toEqual([
      { name: 'webhook shop', why: 'no network', since: nowAt(11).monotonic },
    ]);
    const later = drive(settingsWith([HOOK]), (_, at) => (at < 100 ? FAILS : WELL), [told()], 300);
    expect(deadChannels(later.state, nowAt(300).monotonic)).toEqual([]);
  });

  it('that hangs when nothing is to be sent is known to be dead within 4 min, by its own looks', () => {
    const run = drive(settingsWith([GSM]), () => HANGS, [], 240);
    expect(deadChannels(run.state, nowAt(240).monotonic)).toMatchObject([
      { name: 'modem', why: 'no answer within 60 s' },
    ]);
    expect(run.begun).toEqual([]);
  });

  it('is not dead for an address that does not exist: that message is given up, and the next person called', () => {
    const useless = {
      kind: 'answers',
      afterSeconds: 1,
      result: { kind: 'failed', why: 'no such mailbox', again: 'useless' },
    } as const;
    const run = drive(settingsWith([MAIL]), (_, __, count) => (count === 1 ? useless : WELL), [told()], 60);
    expect(words(run)).toEqual(['mail Ana', 'mail Rui']);
    expect(deadChannels(run.state, nowAt(60).monotonic)).toEqual([]);
  });
});

describe('a text that comes in', () => {
  const came = (text: string, from: string, atSeconds = 5): Parameters<typeof drive>[2][number] => ({
    atSeconds,
    event: { kind: 'text-came', channel: 'modem', from, text },
  });
  const says = { atSeconds: 1, event: { kind: 'says', sentence: 'Wet. Next flood 14:59.' } } as const;

  it('"?" from a listed number is answered at once with the newest sentence', () => {
    const run = drive(ALL, () => WELL, [says, came('?', '+351912000001')], 60);
    expect(run.begun.map(({ atSeconds, message }) => [atSeconds, message.to?.name, message.text])).toEqual([
      [5, 'Ana', 'Wet. Next flood 14:59.'],
    ]);
    expect(run.heard[0]).toMatchObject({ kind: 'asked', who: 'Ana' });
  });

  it('"?" is answered with the age of a sentence that is 10 min old', () => {
    const run = drive(ALL, () => WELL, [says, came('?', '+351912000001', 601)], 700);
    expect(run.begun[0]?.message.text).toBe('10 min ago: Wet. Next flood 14:59.');
  });

  it.each([
    ['pt', 'Há 10 min: Wet.', 'O computador ainda não disse nada.'],
    ['es', 'Hace 10 min: Wet.', 'El ordenador aún no ha dicho nada.'],
    ['fr', 'Il y a 10 min : Wet.', "L'ordinateur n'a encore rien dit."],
  ] as const)('in %s too the age is told, and that nothing is known yet', (language, aged, nothing) => {
    const asked = came('?', '+351912000001', 601);
    const old = drive({ ...ALL, language }, () => WELL, [says, asked], 700);
    expect(old.begun[0]?.message.text).toMatch(aged);
    const none = drive({ ...ALL, language }, () => WELL, [asked], 700);
    expect(none.begun[0]?.message.text).toBe(nothing);
  });

  it.each(['ok', 'OK', ' Ok. ', 'OK!', 'okay', 'O.K.', 'Ok 👍', 'oK…', '“ok”', 'Ok\u00a0', '👍 ok'])(
    '"%s" acknowledges, and is answered 3 s later',
    (text) => {
      const run = drive(ALL, () => WELL, [says, came(text, '912000001')], 60);
      expect(run.heard[0]).toMatchObject({ kind: 'acknowledge', who: 'Ana', atSeconds: 5 });
      expect(run.begun[0]?.atSeconds).toBe(8);
    },
  );

  it.each(['? ', '??', '¿?', '“?”'])('"%s" asks as "?" does', (text) => {
    const run = drive(ALL, () => WELL, [says, came(text, '+351912000001')], 60);
    expect(run.heard[0]).toMatchObject({ kind: 'asked', who: 'Ana' });
    expect(run.begun[0]?.message.text).toBe('Wet. Next flood 14:59.');
  });

  it.each(['not ok', 'ok?', 'ok, but not today', 'broken', "d'accord", 'sim', 'estado?', '2', '👍', ''])(
    '"%s" from a listed number neither acknowledges nor asks, and is told what does',
    (text) => {
      const run = drive(ALL, () => WELL, [says, came(text, '+351912000001')], 60);
      expect(run.heard[0]).toMatchObject({ kind: 'not-understood', who: 'Ana' });
      expect(run.begun.map(({ message }) => [message.form, message.to?.name, message.text])).toEqual(
        text === '' ? [] : [['text', 'Ana', NOT_UNDERSTOOD.en]],
      );
    },
  );

  it.each(['+351912999999', '+34912000001', '2000001', 'BANK', ''])(
    'from %s, which is not listed, is answered with nothing and leaves one line without its words',
    (from) => {
      const run = drive(ALL, () => WELL, [says, came('ok', from)], 60);
      expect(run.begun).toEqual([]);
      expect(run.heard).toHaveLength(1);
      expect(run.heard[0]).toMatchObject({ kind: 'stranger' });
    },
  );
});

describe('delivery after a restart', () => {
  it('sends at once what was under way, from what was written down as plain JSON', () => {
    const before = drive(ALL, () => HANGS, [told()], 12);
    const kept = JSON.parse(
      JSON.stringify({ state: before.state, at: nowAt(12), awayMinutes: 28 / 60 }),
    ) as Parameters<typeof restarted>[0];
    const away = { monotonic: nowAt(-900).monotonic, wall: nowAt(40).wall };
    const state = restarted(kept, ALL, away);
    expect(state.jobs[0]?.errands.map(({ dueAt, endsAt }) => [dueAt, endsAt])).toEqual(
      Array.from({ length: 4 }, () => [away.monotonic, null]),
    );
    // The 28 s away count: 30 s of the 4 h are over.
    expect(state.jobs[0]?.untilAt).toBe(away.monotonic + (240 * 60 - 30) * 1000);
  });

  it('forgets texts of more than an hour ago', () => {
    const before = drive(ALL, () => HANGS, [told()], 12);
    const later = nowAt(12 + 3601);
    const left = { state: before.state, at: nowAt(12), awayMinutes: 3601 / 60 };
    expect(restarted(left, ALL, later).jobs).toEqual([]);
  });

  it.each([2, 'unknown'] as const)(
    'keeps a call of high priority that waits, whatever the wall clock says, where it was away for %s min',
    (awayMinutes) => {
      const before = drive(ALL, () => HANGS, [told()], 12);
      const stepped = { monotonic: nowAt(132).monotonic, wall: nowAt(8 * 3600).wall };
      const { jobs } = restarted({ state: before.state, at: nowAt(12), awayMinutes }, ALL, stepped);
      // It was made at 10 s.
      const gone = 2 + (awayMinutes === 'unknown' ? 0 : 120);
      expect(jobs.map(({ key, madeAt }) => [key, madeAt])).toEqual([
        ['missed-flood', stepped.monotonic - gone * 1000],
      ]);
    },
  );
});
