import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { answers, health, LIGHT_MILLIS } from '../../../src/journal/queue.ts';
import { QUEUE_SIZE_MAX } from '../../../src/journal/queue-trim.ts';
import { monotonicMillis } from '../../../src/time/instant.ts';
import type { QueueRun } from '../../../sim/campaign/queue-run.ts';
import { VirtualDisk, type Mishap } from '../../../sim/campaign/virtual-disk.ts';
import { item, queueBefore } from '../../support/virtual-disk.ts';

const said = (run: QueueRun): readonly string[] => run.disk.entries.map(({ written }) => written.json);
const numbers = (run: QueueRun): readonly number[] => run.disk.entries.map(({ seq }) => seq);
const kinds = (run: QueueRun): readonly string[] => run.disk.entries.map(({ written }) => written.kind);
const upTo = (count: number): readonly number[] => Array.from({ length: count }, (_, place) => place + 1);
const healthOf = (run: QueueRun): ReturnType<typeof health> =>
  health(run.queue, monotonicMillis(run.nowMillis));

describe('the queue before the disk', () => {
  it('writes an entry at once, and a reading within 10 s', () => {
    const run = queueBefore(new VirtualDisk());
    run.append(item('reading', 'r'));
    run.until(LIGHT_MILLIS - 1);
    expect(run.disk.writes).toBe(0);
    run.until(LIGHT_MILLIS + 10);
    expect(run.disk.readings).toHaveLength(1);
    run.append(item('verdict', 'v'));
    run.until(run.nowMillis + 5);
    expect(said(run)).toEqual(['v']);
    expect(run.queue.durable).toBe(1);
  });

  it('keeps only the newest of 3 states, and writes it within 10 s', () => {
    const run = queueBefore(new VirtualDisk());
    for (const state of ['1', '2', '3']) run.hear({ kind: 'keep', stateJson: state });
    run.until(LIGHT_MILLIS + 10);
    expect(run.disk.keptState).toBe('3');
    expect(run.disk.writes).toBe(1);
  });

  it('writes a state that is kept just before an entry with the entry, in one piece', () => {
    const batches: (string | null)[] = [];
    const disk = new VirtualDisk((_, { keptState }) => {
      batches.push(keptState);
      return 'none';
    });
    const run = queueBefore(disk);
    run.hear({ kind: 'keep', stateJson: 'held' });
    run.append(item('order', 'hold'));
    run.until(5);
    expect(batches).toEqual(['held']);
    expect(said(run)).toEqual(['hold']);
  });

  it('has one call under way at a time, and calls nothing durable before the disk has said so', () => {
    const run = queueBefore(new VirtualDisk(), 5000);
    run.append(item('sip', 'a'));
    run.append(item('sip', 'b'));
    run.until(4999);
    expect(run.queue.durable).toBe(0);
    expect(healthOf(run)).toEqual({ kind: 'behind', waiting: 2, seconds: 4.999 });
    run.until(5000);
    expect(run.queue.durable).toBe(1);
    run.until(10_000);
    expect(run.queue.durable).toBe(2);
    expect(healthOf(run)).toEqual({ kind: 'well' });
  });

  it('answers between its calls while every write fails at once, and not from 2 s on in one that hangs after that', () => {
    const callMillis = [1, 1, 150_000];
    const run = queueBefore(
      new VirtualDisk((write) => (write === 1 ? 'fails-before' : 'none')),
      () => callMillis.shift() ?? 1,
    );
    run.append(item('verdict', 'v'));
    const answersAt = (millis: number): boolean => {
      run.until(millis);
      return answers(run.queue, monotonicMillis(run.nowMillis));
    };
    expect([100, 1900, 2100, 149_000].map(answersAt)).toEqual([true, true, false, false]);
    expect(healthOf(run)).toMatchObject({ kind: 'not-recording' });
    expect(answersAt(151_000)).toBe(true);
    expect(healthOf(run)).toEqual({ kind: 'well' });
  });

  it.each([
    ['fails-before', 'was not written'],
    ['fails-behind', 'had been written all the same'],
  ] as const)(
    'opens anew after a write that %s, and loses and doubles nothing of what %s',
    (mishap, _what) => {
      for (let nth = 1; nth <= 12; nth += 1) {
        const run = queueBefore(new VirtualDisk((write) => (write === nth ? mishap : 'none')));
        for (let place = 1; place <= 12; place += 1) {
          run.append(item('sip', String(place)));
          run.until(run.nowMillis + 100);
        }
        expect(run.end()).toBe(true);
        expect(said(run)).toEqual(upTo(12).map(String));
        expect(numbers(run)).toEqual(upTo(12));
        expect(run.disk.opens).toBe(1);
        expect(healthOf(run)).toEqual({ kind: 'well' });
      }
    },
  );

  it('comes through any mix of mishaps with no number missing, nothing lost and all in order', () => {
    const mishaps = fc.array(fc.constantFrom<Mishap>('none', 'fails-before', 'fails-behind', 'full'), {
      maxLength: 30,
    });
    const opens = fc.array(fc.boolean(), { maxLength: 10 });
    const steps = fc.array(fc.integer({ min: 0, max: 40_000 }), { minLength: 1, maxLength: 30 });
    fc.assert(
      fc.property(mishaps, opens, steps, (script, refusals, waits) => {
        const run = queueBefore(
          new VirtualDisk(
            (write) => script[write - 1] ?? 'none',
            (open) => refusals[open - 1] ?? false,
          ),
        );
        let acknowledged = 0;
        waits.forEach((wait, place) => {
          run.append(item('sip', String(place)));
          run.until(run.nowMillis + wait);
          expect(run.queue.durable).toBeGreaterThanOrEqual(acknowledged);
          acknowledged = run.queue.durable;
          expect(run.disk.entries.length).toBeGreaterThanOrEqual(acknowledged);
        });
        expect(run.end()).toBe(true);
        expect(said(run)).toEqual(waits.map((_, place) => String(place)));
        expect(numbers(run)).toEqual(upTo(waits.length));
      }),
      { numRuns: 500 },
    );
  });

  it('tells not recording from the first failure to the first success, 47 s later here', () => {
    let broken = true;
    const run = queueBefore(new VirtualDisk(() => (broken ? 'fails-before' : 'none')));
    run.append(item('verdict', 'v'));
    run.until(20_000);
    expect(healthOf(run)).toMatchObject({ kind: 'not-recording', why: 'EIO', sinceMonotonic: 5, dropped: 0 });
    broken = false;
    run.until(47_000);
    expect(healthOf(run)).toEqual({ kind: 'well' });
    expect(said(run)).toEqual(['v']);
  });

  it('asks a disk that fails for a day no more than 2 times a minute after the first minute', () => {
    const run = queueBefore(new VirtualDisk(() => 'fails-before'));
    run.append(item('verdict', 'v'));
    run.until(60_000);
    const before = run.disk.writes;
    run.until(24 * 3_600_000);
    expect(run.disk.writes - before).toBeLessThan(2 * 24 * 60);
    expect(run.disk.writes - before).toBeGreaterThan(23 * 60);
  });
});

describe('the queue before a full disk', () => {
  it('writes the alarm alone at once, and the rest in order when there is room', () => {
    let isFull = true;
    const run = queueBefore(new VirtualDisk((_, batch) => (isFull && !batch.grave ? 'full' : 'none')));
    run.append(item('sip', 'before'), item('reading', 'r'));
    run.until(1000);
    expect(said(run)).toEqual([]);
    run.append(item('alarm-raised', 'alarm'));
    run.until(1010);
    expect(said(run)).toEqual(['alarm']);
    expect(healthOf(run).kind).toBe('not-recording');
    isFull = false;
    run.until(120_000);
    expect(said(run)).toEqual(['alarm', 'before']);
    expect(numbers(run)).toEqual([1, 2]);
    expect(run.disk.readings).toHaveLength(1);
    expect(healthOf(run).kind).toBe('well');
  });

  it('drops readings first, then ordinary entries, and no alarm while there is room for it, and tells how many', () => {
    let isFull = true;
    const run = queueBefore(new VirtualDisk(() => (isFull ? 'full' : 'none')));
    const long = 'x'.repeat(800);
    const each = 9000;
    for (let place = 0; place < each; place += 1) {
      run.append(item('reading', long), item('sip', long), item('alarm-raised', `${place}`));
      if (place % 1000 === 0) run.until(run.nowMillis + 1000);
    }
    run.until(run.nowMillis + 1000);
    expect(run.queue.size).toBeLessThanOrEqual(QUEUE_SIZE_MAX);
    const { dropped } = run.queue;
    expect(dropped?.readings).toBeGreaterThan(8000);
    expect(dropped?.entries).toBeGreaterThan(0);
    expect(healthOf(run)).toMatchObject({
      kind: 'not-recording',
      dropped: (dropped?.readings ?? 0) + (dropped?.entries ?? 0),
    });
    isFull = false;
    expect(run.end()).toBe(true);
    const count = (kind: string): number => kinds(run).filter((each) => each === kind).length;
    expect(run.disk.readings.length).toBe(each - (dropped?.readings ?? 0));
    expect(count('alarm-raised')).toBe(each);
    expect(count('sip')).toBe(each - (dropped?.entries ?? 0));
    expect(numbers(run)).toEqual(upTo(run.disk.entries.length));
    const told = run.disk.entries
      .filter(({ written }) => written.kind === 'dropped')
      .map(({ written }) => written.json);
    expect(told).toEqual([
      JSON.stringify({ entries: dropped?.entries, readings: dropped?.readings, since: dropped?.since }),
    ]);
  });

  it('stays within 8 MB when 100,000 alarms find no disk, and keeps the newest', () => {
    const run = queueBefore(new VirtualDisk(() => 'full'));
    const items = upTo(100_000).map((place) => item('alarm-raised', String(place).padStart(100)));
    for (let from = 0; from < items.length; from += 100) run.append(...items.slice(from, from + 100));
    expect(run.queue.size).toBeLessThanOrEqual(QUEUE_SIZE_MAX);
    expect(run.queue.entries.at(-1)?.json.trim()).toBe('100000');
  });
});
