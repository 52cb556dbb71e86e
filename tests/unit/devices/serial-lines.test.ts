import { execFileSync, spawn } from 'node:child_process';
import { once } from 'node:events';
import { existsSync } from 'node:fs';
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import { describe, expect, it } from 'vitest';
import type { AtOpening } from '../../../firmware-host/devices/line.ts';
import { serialLines } from '../../../firmware-host/devices/serial-lines.ts';

/** Whether the terminal drops DTR when its last user goes (termios, HUPCL), after one opening and closing. */
const hangsUp = async (atOpening: AtOpening | undefined): Promise<boolean> => {
  const folder = await mkdtemp(join(tmpdir(), 'rillkeeper-line-'));
  const path = join(folder, 'line');
  // socat holds the line open, so that its settings stay.
  const socat = spawn('socat', [`PTY,link=${path},raw,echo=0`, 'PTY'], { stdio: 'ignore' });
  try {
    for (let waited = 0; waited < 300 && !existsSync(path); waited += 1) await sleep(10);
    await new Promise<void>((opened, failed) => {
      const line = serialLines.open(
        path,
        {
          opened: () => void line.close().then(opened, failed),
          heard: () => undefined,
          lost: (why) => {
            failed(new Error(why));
          },
        },
        atOpening,
      );
    });
    return !execFileSync('stty', ['-F', path, '-a'], { encoding: 'utf8' }).includes('-hupcl');
  } finally {
    socat.kill('SIGKILL');
    await once(socat, 'exit');
    await rm(folder, { recursive: true, force: true });
  }
};

describe('a serial line that is closed', () => {
  it.each([
    ['spared', false],
    ['may-reset', true],
    [undefined, true],
  ] as const)('as %s drops DTR: %s', async (atOpening, drops) => {
    expect(await hangsUp(atOpening)).toBe(drops);
  });
});
