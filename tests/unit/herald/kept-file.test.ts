import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { deliveryFile, readDelivery, writeDelivery } from '../../../firmware-host/herald/kept-file.ts';
import { monotonicMillis } from '../../../src/time/instant.ts';
import { drive, GSM, HANGS, MAIL, nowAt, settingsWith, told, WELL } from '../delivery/virtual-network.ts';

const folderOf = (): string => mkdtempSync(join(tmpdir(), 'rillkeeper-kept-'));
const settings = settingsWith([GSM, MAIL]);
/** The mail to Ana has gone out, her text hangs. */
const run = drive(settings, (channel) => (channel === 'modem' ? HANGS : WELL), [told()], 30);
const machine = { boot: 'a', monotonic: monotonicMillis(7_200_000) };
const kept = { state: run.state, at: nowAt(30), machine };

it('what is on its way, and to whom each alarm went, comes back as it was', async () => {
  const folder = folderOf();
  await writeDelivery(folder, kept);
  expect(kept.state.told[0]).toMatchObject({ alarm: 'missed-flood', called: ['Ana'] });
  expect(await readDelivery(folder)).toEqual(kept);
});

it('a file of a version that did not remember to whom each alarm went is gone on from', async () => {
  const folder = folderOf();
  const since = ['told', 'also', 'seenBy', 'opening', 'madeAt', 'machine'];
  const old = JSON.stringify(kept, (key, value: unknown) => (since.includes(key) ? undefined : value));
  expect(old).not.toContain('madeAt');
  writeFileSync(deliveryFile(folder), old);
  const read = await readDelivery(folder);
  expect(read?.machine).toBeNull();
  expect(read?.state.told).toEqual([]);
  expect(read?.state.jobs).toEqual(
    kept.state.jobs.map((job) => ({
      ...job,
      madeAt: job.nextAt,
      call: { ...job.call, also: [], seenBy: null },
    })),
  );
});
