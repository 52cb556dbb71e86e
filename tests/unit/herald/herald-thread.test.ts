import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import { expect, it } from 'vitest';
import { createHerald } from '../../../firmware-host/herald/herald.ts';
import { heraldSchema } from '../../../src/farm/herald-schema.ts';

const heraldFrom = (thread: string): ReturnType<typeof createHerald> => {
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
      talk: () => undefined,
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
