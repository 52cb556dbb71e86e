import Sqlite from 'better-sqlite3';
import { bookPath } from '../../../firmware-host/storage/journal/book-path.ts';
import { openUpkeep, type Upkeep } from '../../../firmware-host/upkeep/upkeep.ts';
import { bootName, type ClockSource } from '../../../firmware-host/start/clock-source.ts';
import { monotonicNow } from '../../../firmware-host/monotonic.ts';
import { keptText } from '../../../firmware-host/storage/kept-state.ts';
import { begin, keptState, step, type KeptState } from '../../../src/controller.ts';
import type { Farm } from '../../../src/farm/farm.ts';
import { heraldSchema } from '../../../src/farm/herald-schema.ts';
import { asUnset } from '../../../src/time/clock-trust.ts';
import { monotonicMillis, wallMillis, type Now } from '../../../src/time/instant.ts';
import { exampleFarm } from '../../support/farm.ts';
import { batchOf, keeperIn } from '../../support/journal-book.ts';

export const UP = { kind: 'up' } as const;

/** A clock that shows this now, and goes on from there. */
export const clockFrom = (wall: number): (() => Now) => {
  const begun = monotonicNow();
  return () => ({
    monotonic: monotonicNow(),
    wall: wallMillis(wall + Math.round(monotonicNow() - begun)),
  });
};

/** A book whose host was cut at that time. */
export interface CutHost {
  readonly folder: string;
  readonly wall: number;
  readonly machine: 'goes on' | 'was started anew';
  readonly clock?: 'believed' | 'in doubt';
  readonly book?: 'whole' | 'damaged';
}

export const cutHost = async ({
  folder,
  wall,
  machine,
  clock = 'believed',
  book = 'whole',
}: CutHost): Promise<void> => {
  const before: Now = { monotonic: monotonicMillis(monotonicNow() - 60_000), wall: wallMillis(wall) };
  const state = step(exampleFarm, begin(exampleFarm, before, UP), { kind: 'time' }, before).state;
  const kept: KeptState = keptState(
    clock === 'believed' ? state : { ...state, clock: asUnset(state.clock) },
    before,
  );
  const keeper = keeperIn(folder);
  keeper.open(null, 0);
  keeper.write(
    batchOf(1, [{ at: before.monotonic, wall: before.wall, kind: 'sip', json: '{"reason":"x"}' }], {
      keptState: keptText(kept, machine === 'goes on' ? await bootName() : 'another'),
    }),
  );
  keeper.close();
  if (book === 'whole') return;
  const db = new Sqlite(bookPath(folder));
  db.exec(`UPDATE entries SET json = '{"reason":"y"}' WHERE kind = 'sip'`);
  db.close();
};

export interface HostMade {
  readonly folder: string;
  readonly now: () => Now;
  readonly source: ClockSource;
  readonly herald?: Parameters<typeof heraldSchema.parse>[0];
}

/** What a host of the example farm does beside its pump. */
export const upkeepOf = ({ folder, now, source, herald }: HostMade): Promise<Upkeep> => {
  const silent: Farm = { ...exampleFarm };
  // Nobody of the example is called.
  Reflect.deleteProperty(silent, 'herald');
  const farm: Farm = herald === undefined ? silent : { ...silent, herald: heraldSchema.parse(herald) };
  return openUpkeep(
    {
      farm,
      file: 'farm.yaml',
      text: 'farm: Hill',
      folder,
      leftBehind: 'nothing',
      now,
      talk: () => undefined,
    },
    async () => ({ boot: await bootName(), source }),
  );
};
