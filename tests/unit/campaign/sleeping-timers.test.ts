import { describe, expect, it } from 'vitest';
import { sleepingTimers } from '../../../firmware-host/campaign/sleeping-timers.ts';
import { virtualTime } from '../../../firmware-host/virtual-time.ts';
import { monotonicMillis } from '../../../src/time/instant.ts';

describe('the timers of a process that is stopped', () => {
  const stopped = (): {
    readonly ran: string[];
    readonly timers: ReturnType<typeof sleepingTimers>;
    readonly advance: (millis: number) => void;
  } => {
    const time = virtualTime(0);
    const ran: string[] = [];
    const timers = sleepingTimers(time.timers, time.timers.now);
    return {
      ran,
      timers,
      advance: (millis) => {
        time.advance(monotonicMillis(time.timers.now() + millis));
      },
    };
  };

  it('run what fell due in 60 s of sleep in its order at waking, what repeats each second once', () => {
    const { ran, timers, advance } = stopped();
    timers.setInterval(() => ran.push('second'), 1000);
    timers.setTimeout(() => ran.push('at 20 s'), 20_000);
    advance(1500);
    timers.sleep();
    advance(60_000);
    expect(ran).toEqual(['second']);
    timers.wake();
    expect(ran).toEqual(['second', 'second', 'at 20 s']);
    advance(1000);
    expect(ran).toEqual(['second', 'second', 'at 20 s', 'second']);
  });

  it('do not run one that fell due in sleep and is cleared by one before it at waking', () => {
    const { ran, timers, advance } = stopped();
    timers.setTimeout(() => {
      timers.clearTimeout(second);
    }, 1000);
    const second = timers.setTimeout(() => ran.push('cleared'), 2000);
    timers.sleep();
    advance(3000);
    timers.wake();
    expect(ran).toEqual([]);
  });
});
