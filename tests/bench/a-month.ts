import { setTimeout as sleep } from 'node:timers/promises';
import { acceptedFarm } from '../../firmware-host/cli/farm-argument.ts';
import { host } from '../../firmware-host/host.ts';
import { liveShed, shedWiring, skyOver, UNCHANGED } from '../../firmware-host/simulated-shed.ts';
import { openUpkeep } from '../../firmware-host/upkeep/upkeep.ts';
import { afterMinutes } from '../../src/time/instant.ts';

/**
 * `FARM FOLDER DAYS`: the whole host, with its book, its state and its herald, beside a simulated shed for so many days, as
 * fast as it goes. Prints one line a day: the megabytes of the heap after a collection, and those resident.
 */
const [file, folder, days] = process.argv.slice(2) as [string, string, string];
const START_MILLIS = Date.parse('2026-06-01T00:00:00Z');
const HOUR_MILLIS = 3_600_000;
/** The book is written by the clock of the world: so long it is given for each hour of the shed. */
const HOUR_TAKES_MILLIS = 100;
const MEGABYTE = 2 ** 20;

const { farm, text } = await acceptedFarm(file);
const found = skyOver(farm, { kind: 'hot-day' }, START_MILLIS, Number(days) + 1, UNCHANGED);
if (!found.ok) throw new Error(found.reason);
const stop = new AbortController().signal;
const wiring = shedWiring(farm);
const shed = liveShed({
  farm,
  wiring,
  flash: null,
  sky: found.sky,
  startMillis: START_MILLIS,
  faults: [],
  seed: 1,
  speed: 'max',
  stop,
});
const begunAt = shed.clock.now().monotonic;
const talk = (words: string): void => {
  process.stderr.write(`${words}\n`);
};

let hour = 0;
const tell = (): void => {
  globalThis.gc?.();
  const { heapUsed, rss } = process.memoryUsage();
  process.stdout.write(`${hour / 24} ${(heapUsed / MEGABYTE).toFixed(2)} ${(rss / MEGABYTE).toFixed(1)}\n`);
};
await host({
  ...shed,
  clock: {
    now: shed.clock.now,
    until: async (moment) => {
      if (moment - begunAt >= (hour + 1) * HOUR_MILLIS) {
        hour += 1;
        await sleep(HOUR_TAKES_MILLIS);
        if (hour % 24 === 0) tell();
      }
      await shed.clock.until(moment);
    },
  },
  farm,
  folder,
  simulated: true,
  journal: { append: () => undefined },
  upkeep: await openUpkeep({ farm, file, text, folder, leftBehind: 'nothing', now: shed.clock.now, talk }),
  until: afterMinutes(begunAt, Number(days) * 24 * 60 + 1),
  stop,
  talk,
});
