import { describe, expect, it } from 'vitest';
import { hostLines, type HostLines } from '../../../firmware-host/campaign/host-lines.ts';
import type { LineEvents } from '../../../firmware-host/devices/line.ts';

const opened = (): {
  readonly lines: HostLines;
  readonly says: (...bytes: number[]) => void;
  readonly heard: number[];
  readonly written: number[];
  readonly write: (...bytes: number[]) => void;
} => {
  const heard: number[] = [];
  const written: number[] = [];
  let events: LineEvents | null = null;
  const lines = hostLines(
    {
      open: (_name, own) => {
        events = own;
        return { write: (bytes) => written.push(...bytes), close: () => Promise.resolve() };
      },
      candidates: () => Promise.resolve([]),
    },
    (bytes) => bytes,
    (bytes) => bytes,
  );
  const line = lines.open('usb', {
    opened: () => undefined,
    heard: (bytes) => heard.push(...bytes),
    lost: () => undefined,
  });
  return {
    lines,
    says: (...bytes) => events?.heard(Uint8Array.from(bytes)),
    heard,
    written,
    write: (...bytes) => {
      line.write(Uint8Array.from(bytes));
    },
  };
};

describe('the lines of a host', () => {
  it('give what came in its sleep when it wakes, in order, and lose what came after 4096 bytes', () => {
    const { lines, says, heard } = opened();
    lines.sleep();
    for (let place = 0; place < 4100; place += 1) says(place % 128);
    expect(heard).toEqual([]);
    lines.wake();
    expect(heard).toHaveLength(4096);
    expect(heard.slice(0, 3)).toEqual([0, 1, 2]);
    says(99);
    expect(heard.at(-1)).toBe(99);
  });

  it('carry nothing either way once the power is cut', () => {
    const { lines, says, heard, written, write } = opened();
    write(1);
    says(2);
    lines.cut();
    write(3);
    says(4);
    expect([written, heard]).toEqual([[1], [2]]);
  });
});
