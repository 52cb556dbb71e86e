import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import { expect, it } from 'vitest';
import { createHerald } from '../../../firmware-host/herald/herald.ts';
import { heraldSchema } from '../../../src/farm/herald-schema.ts';

const heraldFrom = (
  thread: string,
  talk: (text: string) => void = () => undefined,
): ReturnType<typeof createHerald> => {
  const folder = mkdtempSync(join(tmpdir(), 'rillkeeper-herald-'));
  const file = join(folder, 'herald.mjs');
  writeFileSync(file, thread);
  return createHerald(
    {
      farm: 'Hill',
      timeZone: 'Europe/Lisbon',
      language: 'en',
      herald: heraldSchema.parse({}),
      folder,
      source: 'network',
      clock: 'known',
      talk,
    },
    file,
  );
};

it('a thread that cannot start is a dead channel, and starves no watchdog of the floods', async () => {
  const herald = heraldFrom('import { a } from "the file is cut sh');
  for (let waited = 0; waited < 500 && herald.dead().length === 0; waited += 1) await sleep(10);
  expect(herald.dead()).toMatchObject([{ name: 'herald' }]);
  for (let looks = 0; looks < 3; looks += 1) expect(herald.turned()).toBe(true);
  await herald.close();
});

it('a thread that hangs has turned once, and no more', async () => {
  const herald = heraldFrom('for (;;);');
  expect(herald.turned()).toBe(true);
  await sleep(300);
  expect(herald.turned()).toBe(false);
  // Taken away with its time to end.
  await herald.close();
}, 10_000);

it('a thread that is begun anew after a defect knows of the clock what the host said last', async () => {
  const said: string[] = [];
  const herald = heraldFrom(
    `import { parentPort, workerData } from 'node:worker_threads';
     parentPort.postMessage({ kind: 'talk', text: 'clock ' + workerData.clock });
     parentPort.on('message', () => { throw new Error('a made defect'); });`,
    (text) => said.push(text),
  );
  herald.clock('unknown');
  await expect.poll(() => said, { timeout: 20_000 }).toContain('clock unknown');
  expect(said.filter((text) => text.startsWith('clock'))).toEqual(['clock known', 'clock unknown']);
  await herald.close();
}, 30_000);
