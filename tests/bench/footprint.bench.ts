import { spawn } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { setTimeout as sleep } from 'node:timers/promises';
import { bench, describe } from 'vitest';
import { deskBoard, onPty } from '../system/pty-board.ts';
import { startPeers } from '../support/peers.ts';
import { ownFolder, realFarmText, written } from '../system/rillkeeper.ts';

/**
 * What the host costs the small machine in a shed: resident memory and processor time over a minute on a real
 * serial driver, alone and with a herald of all four channels (modem, mail, web, broker), beside bare Node. Both keep the book.
 * Aims: at most 130 MB with all channels, 2 % of a core. One long measurement; its time means nothing, the lines it prints do.
 */
const START_SECONDS = 20;
const SPAN_SECONDS = 60;
const TICKS_PER_SECOND = 100;

const residentMegabytes = (pid: number, field: 'VmRSS' | 'VmHWM'): number =>
  Number(new RegExp(`${field}:\\s+(\\d+)`).exec(readFileSync(`/proc/${pid}/status`, 'utf8'))?.[1]) / 1024;
const cpuSeconds = (pid: number): number => {
  const fields = readFileSync(`/proc/${pid}/stat`, 'utf8').split(') ')[1]!.split(' ');
  return (Number(fields[11]) + Number(fields[12])) / TICKS_PER_SECOND;
};

const measured = async (command: string, ...args: readonly string[]): Promise<string> => {
  const child = spawn(command, args, {
    stdio: 'ignore',
    env: { ...process.env, RILLKEEPER_STATE: ownFolder() },
  });
  await sleep(START_SECONDS * 1000);
  const before = cpuSeconds(child.pid!);
  await sleep(SPAN_SECONDS * 1000);
  const percent = (100 * (cpuSeconds(child.pid!) - before)) / SPAN_SECONDS;
  const peak = residentMegabytes(child.pid!, 'VmHWM').toFixed(0);
  const words = `${residentMegabytes(child.pid!, 'VmRSS').toFixed(0)} MB resident (at most ${peak}), ${percent.toFixed(1)} % of a core`;
  child.kill('SIGTERM');
  return words;
};

const onBoard = async (name: string, herald: string): Promise<string> => {
  const desk = deskBoard();
  // The tank float, a contact that opens when the tank is low, is closed.
  desk.digital.set(4, 0);
  const board = await onPty(desk.peer);
  const farm = written(ownFolder(), 'real.yaml', `${realFarmText(name)}${herald}`);
  const words = await measured(process.execPath, 'dist/main.mjs', 'run', farm, '--board', board.path);
  await board.unplug();
  return words;
};

describe('the host at the speed of the world', () => {
  bench(
    'a minute on a serial line, without a herald and with one, beside bare Node',
    async () => {
      const peers = await startPeers('well');
      const [alone, calling, bare] = await Promise.all([
        onBoard('Alone', ''),
        onBoard('Calling', peers.herald),
        measured(process.execPath, '--eval', 'setInterval(() => undefined, 1000)'),
      ]);
      process.stdout.write(
        `host on a serial line: ${alone}\nwith a herald of four channels: ${calling}\nbare Node: ${bare}\n`,
      );
      await peers.close();
    },
    { iterations: 1, time: 0, warmupIterations: 0, warmupTime: 0 },
  );
});
