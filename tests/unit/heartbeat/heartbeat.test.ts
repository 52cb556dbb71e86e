import { describe, expect, it } from 'vitest';
import { createHeartbeat, type Heartbeat } from '../../../firmware-host/heartbeat/heartbeat.ts';
import { PARTS, type Part } from '../../../firmware-host/heartbeat/health-table.ts';
import { watchdogSeconds } from '../../../firmware-host/heartbeat/service-manager.ts';
import { virtualTime } from '../../../firmware-host/virtual-time.ts';
import { second } from '../../support/moments.ts';

interface Bench {
  readonly heart: Heartbeat;
  readonly words: string[];
  readonly talk: string[];
  /** Goes on second by second to `until`; the parts that live answer in each. */
  readonly live: (until: number, ...parts: readonly Part[]) => void;
  /** Nothing turns at all until then. */
  readonly sleep: (until: number) => void;
}

const bench = (watchdog: number | null = 60): Bench => {
  const time = virtualTime(0);
  let asleep = 0;
  const words: string[] = [];
  const talk: string[] = [];
  const heart = createHeartbeat({
    manager: {
      tell: (...told) => {
        words.push(`${time.timers.now() / 1000 + asleep}: ${told.join(' ')}`);
      },
      settled: () => Promise.resolve(),
    },
    timers: { ...time.timers, now: () => second(time.timers.now() / 1000 + asleep) },
    watchdogSeconds: watchdog,
    talk: (text) => talk.push(text),
  });
  return {
    heart,
    words,
    talk,
    live: (until, ...parts) => {
      for (let at = time.timers.now() / 1000 + asleep; at < until; at += 1) {
        parts.forEach(heart.answered);
        time.advance(second(at + 1 - asleep));
      }
    },
    sleep: (until) => {
      asleep += until - (time.timers.now() / 1000 + asleep);
    },
  };
};

describe('the heartbeat of a host under a watchdog of 60 s', () => {
  it('is fed every 20 s while all four parts answer, with the newest sentence', () => {
    const { heart, words, live } = bench();
    heart.says('Wet.');
    heart.ready();
    live(60, ...PARTS);
    expect(words).toEqual([
      '0: READY=1 STATUS=Wet.',
      '20: WATCHDOG=1 STATUS=Wet.',
      '40: WATCHDOG=1 STATUS=Wet.',
      '60: WATCHDOG=1 STATUS=Wet.',
    ]);
  });

  it.each(PARTS)('is not fed any more once %s alone has hung, and says so once', (part) => {
    const { words, talk, live } = bench();
    live(20, ...PARTS);
    live(200, ...PARTS.filter((one) => one !== part));
    const fed = words.filter((word) => word.includes('WATCHDOG=1')).map((word) => Number.parseFloat(word));
    // The service manager ends the host 60 s after the last: at most two minutes after the part had hung.
    expect(Math.max(...fed)).toBeLessThanOrEqual(60);
    expect(words.at(-1)).toBe(`200: STATUS=hung: ${part}`);
    expect(talk).toHaveLength(1);
    expect(talk[0]).toContain(`Hung: ${part}.`);
  });

  it('is fed again when the part answers again', () => {
    const { words, live } = bench();
    live(20, ...PARTS);
    live(100, 'scheduler', 'link', 'journal');
    live(120, ...PARTS);
    expect(words.at(-1)).toBe('120: WATCHDOG=1');
  });

  it('after 8 h of sleep gives the parts 2 s to answer before it calls any hung', () => {
    const { words, talk, live, sleep } = bench();
    live(30, ...PARTS);
    sleep(8 * 3600);
    live(8 * 3600 + 60, ...PARTS);
    expect(talk).toEqual([]);
    expect(words.filter((word) => word.includes('hung'))).toEqual([]);
  });

  it('tells nothing more after it has said that it stops', async () => {
    const { heart, words, live } = bench();
    live(20, ...PARTS);
    await heart.stopping();
    live(100);
    expect(words).toEqual(['20: WATCHDOG=1', '20: STOPPING=1']);
  });
});

describe('a host without a watchdog', () => {
  it('tells its sentence every 20 s all the same', () => {
    const { heart, words, live } = bench(null);
    heart.says('Wet.');
    live(20, ...PARTS);
    expect(words).toEqual(['20: STATUS=Wet.']);
  });

  it.each([
    [{ WATCHDOG_USEC: '60000000' }, 60],
    [{ WATCHDOG_USEC: '60000000', WATCHDOG_PID: '7' }, 60],
    [{ WATCHDOG_USEC: '60000000', WATCHDOG_PID: '8' }, null],
    [{ WATCHDOG_USEC: 'soon' }, null],
    [{ WATCHDOG_USEC: '0' }, null],
    [{}, null],
  ])('by the environment %j it is %s s for process 7', (env, seconds) => {
    expect(watchdogSeconds(env, 7)).toBe(seconds);
  });
});
