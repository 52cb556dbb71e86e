import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { EXIT } from '../../../firmware-host/cli/exit-code.ts';
import { knownStatus } from '../../../firmware-host/cli/known-status.ts';
import { QUIET_STATUS } from '../../support/quiet-status.ts';
import { expectRefused } from './refused.ts';

const saidAgo = (seconds: number): string => {
  const status = { ...QUIET_STATUS, writtenAt: new Date(Date.now() - seconds * 1000).toISOString() };
  const folder = mkdtempSync(join(tmpdir(), 'rillkeeper-known-'));
  writeFileSync(join(folder, 'status.json'), JSON.stringify(status));
  return folder;
};
const refused = async (folder: string): Promise<unknown> =>
  knownStatus(folder).catch((error: unknown) => error);

it('alarms are known from a host that wrote within the last half minute', async () => {
  expect(await knownStatus(saidAgo(25))).toMatchObject({ says: 'Wet.', alarms: [] });
});

it.each([
  ['three days ago', 3 * 86_400],
  ['35 s ago', 35],
  ['by a clock that was ahead', -35],
])('of one that last wrote %s nobody knows what stands', async (_, seconds) => {
  const says = ['No alarms are known from', 'its host has written nothing since', 'rillkeeper status'];
  expectRefused(await refused(saidAgo(seconds)), says, EXIT.notWell);
});

it('nor where no host has written', async () => {
  const folder = mkdtempSync(join(tmpdir(), 'rillkeeper-known-'));
  expectRefused(await refused(folder), ['no host has written there'], EXIT.notWell);
});
