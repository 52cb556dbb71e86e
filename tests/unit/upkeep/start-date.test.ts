import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, expect, it } from 'vitest';
import type { ClockSource } from '../../../firmware-host/start/clock-source.ts';
import { monotonicMillis } from '../../../src/time/instant.ts';
import { step } from '../../../src/controller.ts';
import { exampleFarm } from '../../support/farm.ts';
import { bookFolderOf, removeBookFolders } from '../../support/journal-book.ts';
import { utc } from '../../support/moments.ts';
import { clockFrom, UP, upkeepOf } from './made-upkeep.ts';

afterAll(removeBookFolders);

const SAVED = utc('2026-07-14T14:00Z');
const startsIn = (folder: string): readonly { readonly wall: unknown }[] =>
  (
    JSON.parse(readFileSync(join(folder, 'starts.json'), 'utf8')) as {
      readonly starts: readonly { readonly wall: unknown }[];
    }
  ).starts;

it.each<readonly [source: ClockSource, wall: unknown]>([
  ['unknown', 'unknown'],
  ['network', expect.any(Number)],
  ['battery-clock', expect.any(Number)],
])('a start of which the clock was set by %s is counted with a date of %s', async (source, wall) => {
  const folder = bookFolderOf('start-date');
  const now = clockFrom(SAVED);
  const upkeep = await upkeepOf({ folder, now, source });
  expect(startsIn(folder)).toMatchObject([{ wall }]);
  await upkeep.ended(upkeep.begun(now(), UP), now());
});

it('a host that has run for 10 min has forgotten its start, and at 9 min it has not', async () => {
  const folder = bookFolderOf('start-date');
  const now = clockFrom(SAVED);
  const upkeep = await upkeepOf({ folder, now, source: 'unknown' });
  const begun = now();
  const { state } = step(exampleFarm, upkeep.begun(begun, UP), { kind: 'time' }, begun);
  const toldAfter = (minutes: number): void => {
    const later = { monotonic: monotonicMillis(begun.monotonic + minutes * 60_000), wall: begun.wall };
    upkeep.told(step(exampleFarm, state, { kind: 'time' }, later), later, () => ({
      says: 'Wet.',
      saysToPeople: 'Wet.',
      readings: [],
    }));
  };
  toldAfter(9);
  await new Promise((go) => setTimeout(go, 100));
  expect(startsIn(folder)).toHaveLength(1);
  toldAfter(10.1);
  await expect.poll(() => startsIn(folder), { timeout: 3000 }).toHaveLength(0);
  await upkeep.ended(state, now());
});
