import { existsSync, mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { readWhole } from '../../../firmware-host/storage/atomic-file.ts';
import { writeFirst, writeInTime } from '../../../firmware-host/storage/write-in-time.ts';
import { hangingWrite } from '../../support/hanging-write.ts';

const folder = (): string => mkdtempSync(join(tmpdir(), 'rillkeeper-in-time-'));
const secondsOf = async (work: () => Promise<unknown>): Promise<number> => {
  const begun = performance.now();
  await work();
  return (performance.now() - begun) / 1000;
};

describe('a write on a disk that hangs', () => {
  it('is given up after 2 s, and no other is begun in that root until it has come back', async () => {
    const root = folder();
    const comeBack = hangingWrite(join(root, 'mere', 'starts.json'));
    const hung = await secondsOf(() =>
      expect(writeInTime(join(root, 'mere', 'starts.json'), 'x')).rejects.toThrow('has not answered for 2 s'),
    );
    expect(Math.round(hung)).toBe(2);
    const other = join(root, 'tarn', 'status.json');
    const refused = await secondsOf(() => expect(writeInTime(other, 'x')).rejects.toThrow('still does not'));
    expect([refused < 0.5, existsSync(other)]).toEqual([true, false]);
    await comeBack();
    await expect.poll(() => writeInTime(other, 'y').then(() => readWhole(other))).toBe('y');
  });

  it('goes to the next place, which is in memory', async () => {
    const [disk, memory] = [join(folder(), 'mere', 'a'), join(folder(), 'rillkeeper', 'a')];
    const comeBack = hangingWrite(disk);
    expect([await writeFirst([disk, memory], 'x'), await readWhole(memory)]).toEqual([null, 'x']);
    await comeBack();
  });
});
