import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import { framesIn, sysexFrame, u16 } from '../unit/devices/keeper/board-side.ts';
import { createStub, type Stub, type StubState } from '../unit/devices/keeper/keeper-stub.ts';
import type { PtyBoard } from './pty-board.ts';
import { ownFolder } from './rillkeeper.ts';

const TABLE_GET = 8;
const SYSEX_END = 0xf7;

export interface PtyKeeper extends PtyBoard {
  readonly stub: Stub;
}

/** A stand-in for a board with a keeper behind a pseudo-terminal. @throws Error when socat is not installed */
export const keeperOnPty = async (change: Partial<StubState>): Promise<PtyKeeper> => {
  const stub = createStub(() => performance.now(), change);
  const path = join(ownFolder(), 'keeper');
  const child = spawn('socat', ['-', `PTY,link=${path},raw,echo=0`], { stdio: ['pipe', 'pipe', 'ignore'] });
  await Promise.race([once(child, 'spawn'), once(child, 'error')]);
  if (child.pid === undefined) throw new Error('socat is not installed: apt-get install socat');
  child.stdin.on('error', () => undefined);
  while (!existsSync(path)) await sleep(10);
  let rest: number[] = [];
  child.stdout.on('data', (bytes: Buffer) => {
    rest.push(...bytes);
    const whole = rest.slice(0, rest.lastIndexOf(SYSEX_END) + 1);
    rest = rest.slice(whole.length);
    for (const asked of framesIn(whole)) {
      const answer =
        asked.type === TABLE_GET
          ? sysexFrame(0x48, asked.seq, [0, ...u16(7), ...stub.state.table])
          : stub.answer(asked);
      if (answer !== null) child.stdin.write(Buffer.from(answer));
    }
  });
  return {
    path,
    stub,
    unplug: async () => {
      child.kill('SIGKILL');
      if (child.exitCode === null && child.signalCode === null) await once(child, 'exit');
    },
  };
};
