import { describe, expect, it } from 'vitest';
import {
  farLines,
  nearLines,
  type LineAsked,
  type LineSaid,
} from '../../../firmware-host/devices/far-line.ts';
import type { LineEvents } from '../../../firmware-host/devices/line.ts';

/** Both sides with copies between them, as threads have it, and what the port and its user saw. */
const joined = (): {
  readonly far: ReturnType<typeof farLines>;
  readonly near: ReturnType<typeof nearLines>;
  readonly port: string[];
  readonly user: string[];
  readonly events: LineEvents;
  readonly board: () => LineEvents;
} => {
  const port: string[] = [];
  const user: string[] = [];
  const boards: LineEvents[] = [];
  const near = nearLines(
    (name, events, atOpening) => {
      boards.push(events);
      port.push(`open ${name} ${atOpening ?? ''}`.trim());
      return {
        write: (bytes) => port.push(`write ${bytes.join(' ')}`),
        close: () => {
          port.push(`close ${name}`);
          return Promise.resolve();
        },
      };
    },
    (said: LineSaid) => {
      far.said(structuredClone(said));
    },
  );
  const far = farLines((asked: LineAsked) => {
    near.asked(structuredClone(asked));
  });
  const events: LineEvents = {
    opened: () => user.push('opened'),
    heard: (bytes) => user.push(`heard ${bytes.join(' ')}`),
    lost: (why) => user.push(`lost: ${why}`),
  };
  return { far, near, port, user, events, board: () => boards.at(-1)! };
};

describe('a serial line that another thread has', () => {
  it('carries name, manner of opening, bytes both ways, its loss and its end', async () => {
    const { far, port, user, events, board } = joined();
    const line = far.open('/dev/ttyUSB1', events, 'spared');
    board().opened();
    line.write(Uint8Array.of(65, 84));
    board().heard(Uint8Array.of(79, 75));
    board().lost('unplugged');
    await line.close();
    expect(port).toEqual(['open /dev/ttyUSB1 spared', 'write 65 84', 'close /dev/ttyUSB1']);
    expect(user).toEqual(['opened', 'heard 79 75', 'lost: unplugged']);
  });

  it('says nothing after its end, and writes to no other line that is opened later', async () => {
    const { far, port, user, events, board } = joined();
    const first = far.open('one', events);
    const before = board();
    await first.close();
    far.open('two', events);
    before.heard(Uint8Array.of(1));
    before.lost('late');
    first.write(Uint8Array.of(2));
    await first.close();
    expect(port).toEqual(['open one', 'close one', 'open two']);
    expect(user).toEqual([]);
  });

  it('is closed with all others when the thread that asked for it has died', async () => {
    const { far, near, port, user, events, board } = joined();
    far.open('one', events);
    far.open('two', events);
    await near.closeAll();
    board().heard(Uint8Array.of(1));
    expect(port.slice(2)).toEqual(['close one', 'close two']);
    expect(user).toEqual([]);
  });
});
