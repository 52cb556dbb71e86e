import { spawn } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { setTimeout as sleep } from 'node:timers/promises';
import { bench, describe } from 'vitest';
import { deskBoard, onPty } from '../system/pty-board.ts';
import { farmTextWith, ownFolder, STATE, written } from '../system/rillkeeper.ts';

/**
 * What the host costs the small machine in a shed: resident memory and processor time over a minute on a real
 * serial driver, beside bare Node. Aims: 90 MB, 2 % of a core. One long measurement; its time means nothing, the
 * lines it prints do.
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
    env: { ...process.env, RILLKEEPER_STATE: STATE },
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

describe('the host at the speed of the world', () => {
  bench(
    'a minute on a serial line, beside bare Node',
    async () => {
      const desk = deskBoard();
      desk.digital.set(4, 0);
      const board = await onPty(desk.peer);
      const farm = written(
        ownFolder(),
        'real.yaml',
        farmTextWith('invented:\n  today: 2026-07-14', '#').text,
      );
      const [host, bare] = await Promise.all([
        measured('dist/main.mjs', 'run', farm, '--board', board.path),
        measured(process.execPath, '--eval', 'setInterval(() => undefined, 1000)'),
      ]);
      process.stdout.write(`host on a serial line: ${host}\nbare Node: ${bare}\n`);
      await board.unplug();
    },
    { iterations: 1, time: 0, warmupIterations: 0, warmupTime: 0 },
  );
});
