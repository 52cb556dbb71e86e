import { loadavg } from 'node:os';
import { bench, describe } from 'vitest';
import { startPeers } from '../support/peers.ts';
import { deskBoard, onPty } from '../system/pty-board.ts';
import { ownFolder, realFarmText, started, written } from '../system/rillkeeper.ts';

/**
 * From the start of the process to a board in hand, with book and herald, ten times. Apart: until the first byte came to
 * the board, which is the host's own time, and from there on, with 200 ms of a board that starts. Aim: 2 s in all.
 */
const STARTS = 10;

const once = async (name: string): Promise<readonly [spoken: number, inHand: number]> => {
  const peers = await startPeers('well');
  const desk = deskBoard();
  desk.digital.set(4, 0);
  let spokenAt = Infinity;
  const board = await onPty({
    ...desk.peer,
    receive: (bytes, now) => {
      spokenAt = Math.min(spokenAt, performance.now());
      desk.peer.receive(bytes, now);
    },
  });
  const farm = written(ownFolder(), 'farm.yaml', `${realFarmText(name)}${peers.herald}`);
  const begunAt = performance.now();
  const running = started('run', farm, '--board', board.path);
  await running.said('the board answers');
  const inHand = performance.now() - begunAt;
  running.child.kill('SIGKILL');
  await running.ended;
  await board.unplug();
  await peers.close();
  return [spokenAt - begunAt, inHand];
};

describe('the start of the host', () => {
  bench(
    'until a board on a serial line is in hand',
    async () => {
      const lines: string[] = [];
      for (let start = 1; start <= STARTS; start += 1) {
        const [spoken, inHand] = await once(`Start ${start}`);
        lines.push(`${spoken.toFixed(0)} ms to the first byte, ${inHand.toFixed(0)} ms to the board in hand`);
      }
      process.stdout.write(`${lines.join('\n')}\nload: ${loadavg()[0]!.toFixed(1)}\n`);
    },
    { iterations: 1, time: 0, warmupIterations: 0, warmupTime: 0 },
  );
});
