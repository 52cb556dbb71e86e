import { describe, expect, it } from 'vitest';
import { webhookBody } from '../../../firmware-host/herald/webhook-channel.ts';
import type { Call } from '../../../src/delivery/call.ts';
import { restarted } from '../../../src/delivery/delivery-restart.ts';
import type { Person } from '../../../src/delivery/rota.ts';
import { wallMillis } from '../../../src/time/instant.ts';
import {
  ANA,
  BY_DAY,
  BY_NIGHT,
  drive,
  FAILS,
  GSM,
  HOOK,
  MAIL,
  nowAt,
  RAISED,
  RUI,
  settingsWith,
  told,
  WELL,
  type Network,
} from './virtual-network.ts';

const ZE: Person = { name: 'Zé', phone: '+351912000003' };
const MINUTE = 60;
const texting = settingsWith([GSM], [ANA, RUI, ZE]);
const next = (rung: number): Call => ({ ...RAISED, kind: 'escalated', rung });
const again = (rung: number, seenBy: string | null): Call => ({ ...RAISED, kind: 'again', rung, seenBy });
const over = (rung = 0): Call => ({ ...RAISED, kind: 'returned', rung, minutesLeft: null });

/** `raised Ana`, in the order in which the texts began. */
const texts = ({ begun }: Network, form = 'text'): readonly string[] =>
  begun
    .filter(({ message }) => message.form === form)
    .map(({ message }) => `${message.call?.kind ?? 'answer'} ${message.to?.name ?? '-'}`);

describe('each further call of an alarm', () => {
  it('goes to the first of today who has not been called, then round again', () => {
    const script = [told(), ...[1, 2, 3, 4].map((rung) => told(next(rung), rung * 10 * MINUTE))];
    expect(texts(drive(texting, () => WELL, script, 3600))).toEqual([
      'raised Ana',
      'escalated Rui',
      'escalated Zé',
      'escalated Ana',
      'escalated Rui',
    ]);
  });

  it('calls nobody twice because the watch changes between two of them, and whoever comes on duty at once', () => {
    const watches: readonly Person[] = [
      { name: 'Early', phone: '+351912000001', hours: { from: '06:00', to: '14:00' } },
      { name: 'Late', phone: '+351912000002', hours: { from: '14:00', to: '22:00' } },
      { name: 'Night', phone: '+351912000003', hours: { from: '22:00', to: '06:00' } },
    ];
    // 13:55, 14:05 and 14:15.
    const script = [told(RAISED, 780), told(next(1), 1380), told(next(2), 1980)];
    expect(texts(drive(settingsWith([GSM], watches), () => WELL, script, 3000, BY_DAY))).toEqual([
      'raised Early',
      'escalated Late',
      'escalated Night',
    ]);
  });

  it('passes over a person to whom no way leads', () => {
    const people = [{ name: 'Mail', email: 'mail@example.org' }, RUI, ZE];
    const script = [told(), told(next(1), 600), told(next(2), 1200)];
    expect(texts(drive(settingsWith([GSM], people), () => WELL, script, 1800))).toEqual([
      'raised Rui',
      'escalated Zé',
      'escalated Rui',
    ]);
  });

  it('counts whom delivery called because nothing got through to the one before', () => {
    const script = [told(), told(next(1), 600)];
    const run = drive(settingsWith([MAIL], [ANA, RUI]), (_, at) => (at < 60 ? FAILS : WELL), script, 1200);
    // Rui was called at 27 s already; with both called it goes round again.
    expect(texts(run, 'mail').filter((text) => text.startsWith('escalated'))).toEqual(['escalated Ana']);
  });

  it('of a cause that shows itself later goes to who was called last for what it explains', () => {
    const cause: Call = { ...RAISED, alarm: 'mains-lost', also: ['missed-flood'], rung: 1 };
    const script = [
      told(),
      told(next(1), 600),
      told(cause, 700),
      told({ ...cause, kind: 'escalated', rung: 2 }, 1300),
    ];
    expect(texts(drive(texting, () => WELL, script, 1800))).toEqual([
      'raised Ana',
      'escalated Rui',
      'raised Rui',
      'escalated Zé',
    ]);
  });
});

describe('the renewed word of what somebody has seen', () => {
  it('goes to whoever saw it and to the first of the rota, then down the rota beside them', () => {
    const script = [told(), told(again(0, 'Zé'), 600), told(again(1, 'Zé'), 1200)];
    expect(texts(drive(texting, () => WELL, script, 1800))).toEqual([
      'raised Ana',
      'again Ana',
      'again Zé',
      'again Rui',
      'again Zé',
    ]);
  });

  it('goes to the first of the rota where it was acknowledged by nobody of it', () => {
    const run = drive(texting, () => WELL, [told(again(0, 'root at the host'))], 600);
    expect(texts(run)).toEqual(['again Ana']);
  });
});

describe('the word that it is over', () => {
  it('goes to all who were called, whatever rung the last answer had', () => {
    const script = [
      told(),
      told(next(1), 600),
      told(next(2), 1200),
      told({ ...over(0), seenBy: 'Zé' }, 1800),
    ];
    expect(texts(drive(texting, () => WELL, script, 2400)).slice(3)).toEqual([
      'returned Ana',
      'returned Rui',
      'returned Zé',
    ]);
  });

  it('goes to whom delivery called in place of the first, and to the first', () => {
    const run = drive(
      settingsWith([MAIL], [ANA, RUI]),
      (_, at) => (at < 60 ? FAILS : WELL),
      [told(), told(over(), 400)],
      900,
    );
    expect(texts(run, 'mail').slice(-2)).toEqual(['returned Ana', 'returned Rui']);
  });

  it('goes to who was on duty at the call, and not to who is on duty now', () => {
    const people: readonly Person[] = [
      { ...ANA, hours: { from: '14:00', to: '22:00' } },
      { ...RUI, hours: { from: '06:00', to: '14:00' } },
    ];
    const script = [told(RAISED, MINUTE), told(over(), 40 * MINUTE)];
    expect(texts(drive(settingsWith([GSM], people), () => WELL, script, 3600, BY_DAY))).toEqual([
      'raised Rui',
      'returned Rui',
    ]);
  });

  it('goes to as many as the call says where nothing is remembered of it', () => {
    expect(texts(drive(texting, () => WELL, [told(over(1))], 600))).toEqual(['returned Ana', 'returned Rui']);
  });
});

describe('an "ok" by text', () => {
  const ok = (
    atSeconds: number,
    sentSecond: number | null = null,
    from = '+351912000001',
    start = BY_DAY,
  ): Parameters<typeof drive>[2][number] => ({
    atSeconds,
    event: {
      kind: 'text-came',
      channel: 'modem',
      from,
      text: 'ok',
      ...(sentSecond === null ? {} : { sentAt: wallMillis(start + sentSecond * 1000) }),
    },
  });
  const seen = ({ heard }: Network): readonly string[] =>
    heard.flatMap((one) => (one.kind === 'acknowledge' ? one.known.map(({ alarm }) => alarm) : []));
  const tank: Call = { ...RAISED, alarm: 'tank-low', also: ['return-lower'] };

  it('acknowledges what its sender had been told of, and what that call spoke for', () => {
    const run = drive(texting, () => WELL, [told(tank), ok(60)], 120);
    expect(seen(run)).toEqual(['tank-low', 'return-lower']);
    expect(run.heard.find(({ kind }) => kind === 'acknowledge')).toMatchObject({
      known: [{ madeAt: nowAt(10).monotonic }, { madeAt: nowAt(10).monotonic }],
    });
  });

  it.each([
    ['of an alarm that was called to somebody else', [told(), ok(60, null, '+351912000002')]],
    ['of one whose text has not gone out yet', [ok(11), told()]],
    ['that was sent an hour before the call', [told(RAISED, 10), ok(120, -3600)]],
    ['that was sent three days before it', [told(RAISED, 10), ok(120, -3 * 24 * 3600)]],
  ])('does not acknowledge %s, and says so', (_, script) => {
    const run = drive(texting, () => WELL, script, 300);
    expect(seen(run)).toEqual([]);
    expect(run.begun.at(-1)?.message.text).toMatch(/^Nothing acknowledged: /);
  });

  it.each([
    ['9 min before it by the clock of the network, as clocks are apart', -530],
    ['after now by that clock', 3600],
    ['in a year in which there was no network here', -20 * 365 * 24 * 3600],
  ])('counts as sent when it came where it was sent %s', (_, sentSecond) => {
    expect(seen(drive(texting, () => WELL, [told(RAISED, 10), ok(60, sentSecond)], 120))).toEqual([
      'missed-flood',
    ]);
  });

  it('does not count a phone that rang and no text: nobody knows from that what it is about', () => {
    const run = drive(
      texting,
      (_, __, count) => (count === 1 ? WELL : FAILS),
      [told(), ok(20, null, '+351912000001', BY_NIGHT)],
      60,
      BY_NIGHT,
    );
    expect(texts(run, 'ring')).not.toEqual([]);
    expect(seen(run)).toEqual([]);
  });

  it('that was long on its way answers the call before it, and not the one since', () => {
    const mains: Call = { ...RAISED, alarm: 'mains-lost' };
    // Sent at 20 min, it comes at 60; the mains were lost at 50.
    const script = [told(), told(again(0, null), 45 * MINUTE), told(mains, 50 * MINUTE), ok(3600, 1200)];
    expect(seen(drive(texting, () => WELL, script, 3700))).toEqual(['missed-flood']);
  });

  it('answers what reached them before a restart', () => {
    const before = drive(texting, () => WELL, [told()], 60);
    const kept = JSON.parse(
      JSON.stringify({ state: before.state, at: nowAt(60), awayMinutes: 0 }),
    ) as Parameters<typeof restarted>[0];
    const run = drive(texting, () => WELL, [ok(30)], 60, BY_DAY, restarted(kept, texting, nowAt(0)));
    expect(seen(run)).toEqual(['missed-flood']);
  });
});

describe('the daily word', () => {
  const well: Call = { ...RAISED, kind: 'all-well', alarm: null, priority: 'low', text: 'All well.' };
  const delivered = ({ heard }: Network): readonly string[] =>
    heard.flatMap((one) => (one.kind === 'delivered' && one.call !== null ? [one.call.kind] : []));

  it('that was held up does not go out behind an alarm', () => {
    const run = drive(
      settingsWith([GSM], [ANA]),
      (_, at) => (at < 700 ? FAILS : WELL),
      [told(well, 10), told(RAISED, 600)],
      3000,
    );
    expect(delivered(run)).toEqual(['raised']);
  });

  it('is not said after a start, however long ago the host went', () => {
    const dark = drive(texting, () => FAILS, [told(well)], 60);
    expect(
      restarted({ state: dark.state, at: nowAt(60), awayMinutes: 1 / 60 }, texting, nowAt(61)).jobs,
    ).toEqual([]);
  });
});

describe('a call that goes out late', () => {
  const late = (until: number, form: string, call: Call = RAISED): Network['begun'][number]['message'] => {
    const run = drive(
      settingsWith([GSM, HOOK], [ANA]),
      (_, at) => (at < until ? FAILS : WELL),
      [told(call)],
      until + 1800,
    );
    return run.begun.findLast(({ message }) => message.form === form)!.message;
  };

  it('says when it was made once that is 5 min ago, in the text, the mail and the posting', () => {
    // 13:42:10 in Lisbon.
    expect(late(3600, 'text').text).toBe('(13:42) No water since 13:42.');
    expect(late(3600, 'post').text).toBe('(13:42) No water came back since 13:42.');
    expect(late(100, 'text').text).toBe('No water since 13:42.');
  });

  it('says how long ago where that is longer than 20 h', () => {
    expect(late(26 * 3600, 'text').text).toMatch(/^\(-26 h\) No water/);
  });

  it('keeps to 160 letters, cut at a word', () => {
    const { text } = late(3600, 'text', { ...RAISED, message: 'abcde '.repeat(27).trim().slice(0, 160) });
    expect(text.length).toBeLessThanOrEqual(160);
    expect(text.endsWith('abcde')).toBe(true);
  });

  it('carries the time left of the moment at which it goes, and the moment of the call', () => {
    const run = drive(
      settingsWith([HOOK], []),
      (_, at) => (at < 170 * MINUTE ? FAILS : WELL),
      [told({ ...RAISED, minutesLeft: 360 }, 0)],
      181 * MINUTE,
    );
    const { atSeconds, message } = run.begun.at(-1)!;
    expect(message.call?.minutesLeft).toBe(360 - Math.floor(atSeconds / 60));
    expect(message.calledAt).toBe(BY_DAY);
    expect(JSON.parse(webhookBody('Hill', message))).toMatchObject({
      at: '2026-07-14T12:42:00.000Z',
      minutesLeft: 360 - Math.floor(atSeconds / 60),
    });
  });
});

it('a text that waits gives way to the call of what explains it, which goes to who had not got it', () => {
  const mains: Call = { ...RAISED, alarm: 'mains-lost', also: ['missed-flood'], text: 'Mains lost.' };
  const run = drive(
    texting,
    (_, at) => (at < 3600 ? FAILS : WELL),
    [told(), told({ ...mains, rung: 0 }, 70)],
    3 * 3600,
  );
  const got = run.heard.flatMap((one) =>
    one.kind === 'delivered' && one.form === 'text' ? [`${one.call!.alarm!} ${one.person!}`] : [],
  );
  expect(new Set(got)).toEqual(new Set(['mains-lost Ana', 'mains-lost Rui', 'mains-lost Zé']));
});
