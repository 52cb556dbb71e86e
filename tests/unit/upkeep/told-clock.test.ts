import { setTimeout as sleep } from 'node:timers/promises';
import { DateTime } from 'luxon';
import { afterAll, expect, it } from 'vitest';
import { readDelivery } from '../../../firmware-host/herald/kept-file.ts';
import type { Shown } from '../../../firmware-host/upkeep/upkeep.ts';
import { step } from '../../../src/controller.ts';
import { exampleFarm } from '../../support/farm.ts';
import { bookFolderOf, removeBookFolders } from '../../support/journal-book.ts';
import { RAISED } from '../delivery/virtual-network.ts';
import { clockFrom, UP, upkeepOf } from './made-upkeep.ts';

afterAll(removeBookFolders);

const shown = (): Shown => ({ says: 'Wet.', saysToPeople: 'Wet.', readings: [] });
const hour = (later: number): string =>
  DateTime.now().setZone(exampleFarm.place.timeZone).plus({ hours: later }).toFormat('HH:00');
/** By the clock of now Rui is on duty, and Ana is not; by none all are, and she stands first. */
const PEOPLE = [
  { name: 'Ana', email: 'ana@example.org', hours: { from: hour(3), to: hour(6) } },
  { name: 'Rui', email: 'rui@example.org', hours: { from: hour(-2), to: hour(2) } },
];
/** Nobody answers there. */
const MAIL = { host: '127.0.0.1', port: 9, security: 'none', from: 'shed@example.org' };

it('a call of the very step in which the clock is no longer believed goes first to the first of all who are named, and not to whom a wrong hour names', async () => {
  const called = async (doubt: 'none' | 'with the call'): Promise<readonly string[]> => {
    const folder = bookFolderOf('told-clock');
    const now = clockFrom(Date.now());
    const upkeep = await upkeepOf({ folder, now, source: 'network', herald: { people: PEOPLE, mail: MAIL } });
    const state = upkeep.begun(now(), UP);
    const first = step(exampleFarm, state, { kind: 'time' }, now());
    upkeep.told({ ...first, calls: [] }, now(), shown);
    await sleep(300);
    const { clock } = first.state;
    const steppedAt = doubt === 'none' ? null : now().monotonic;
    const call = { ...RAISED, card: null };
    upkeep.told(
      { ...first, state: { ...first.state, clock: { ...clock, steppedAt } }, calls: [call] },
      now(),
      shown,
    );
    const jobs = async () => (await readDelivery(folder))?.state.jobs.find(({ key }) => key === RAISED.alarm);
    await expect.poll(jobs, { timeout: 5000 }).toBeDefined();
    await upkeep.ended(first.state, now());
    return (await jobs())?.called ?? [];
  };
  expect(await called('none')).toEqual(['Rui']);
  expect(await called('with the call')).toEqual(['Ana']);
});
