import { expect, it } from 'vitest';
import { boundedLines } from '../../../firmware-host/devices/bounded-line.ts';
import type { LineEvents } from '../../../firmware-host/devices/line.ts';

it('a line that is heard with more than its 1,000 bytes a minute is closed and lost, once, and not heard any more', () => {
  const told: string[] = [];
  let events: LineEvents | null = null;
  const open = boundedLines((_, own) => {
    events = own;
    return { write: () => undefined, close: () => Promise.resolve(void told.push('closed')) };
  }, 1000);
  open('modem', {
    opened: () => told.push('opened'),
    heard: (bytes) => told.push(`heard ${bytes.length}`),
    lost: (why) => told.push(`lost: ${why}`),
  });
  const under: LineEvents = events!;
  under.opened();
  for (const length of [600, 400, 1, 5000]) under.heard(new Uint8Array(length));
  under.lost('unplugged');
  expect(told).toEqual([
    'opened',
    'heard 600',
    'heard 400',
    'lost: what is at this port never falls silent; it is no modem, or the port is wrong',
    'closed',
  ]);
});
