import { describe, expect, it } from 'vitest';
import { createOutbox, OUTBOX_BYTES_MAX } from '../../../sim/board/firmata/outbox.ts';

describe('the queue to the host', () => {
  it('gives everything once, in order', () => {
    const outbox = createOutbox();
    outbox.put([1, 2]);
    outbox.put([3]);
    expect([...outbox.take()]).toEqual([1, 2, 3]);
    expect([...outbox.take()]).toEqual([]);
  });

  it('is full at 4096 bytes and then drops whole messages, counted', () => {
    const outbox = createOutbox();
    for (let sent = 0; sent < 1400; sent += 1) outbox.put([1, 2, 3]);
    // 1365 messages of 3 bytes make 4095.
    expect(outbox.take()).toHaveLength(OUTBOX_BYTES_MAX - 1);
    expect(outbox.droppedMessages()).toBe(1400 - 1365);
  });

  it('takes a short message after a long one did not fit', () => {
    const outbox = createOutbox();
    outbox.put(Array<number>(OUTBOX_BYTES_MAX - 1).fill(1));
    outbox.put([2, 2]);
    outbox.put([3]);
    expect(outbox.take().at(-1)).toBe(3);
  });

  it('forgets what waits when cleared', () => {
    const outbox = createOutbox();
    outbox.put([1]);
    outbox.clear();
    expect(outbox.take()).toHaveLength(0);
  });
});
