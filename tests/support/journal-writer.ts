import { setTimeout as pause } from 'node:timers/promises';
import { openJournal } from '../../firmware-host/storage/journal/journal.ts';
import { monotonicMillis, wallMillis, type Now } from '../../src/time/instant.ts';

/** A process that writes until it is killed, and says what was acknowledged: `entry <number> <text>` and `durable <number>`. */
const [folder = '', thread = ''] = process.argv.slice(2);
const now = (): Now => ({ monotonic: monotonicMillis(performance.now()), wall: wallMillis(Date.now()) });

const { found, client } = await openJournal(folder, { now, thread });
process.stdout.write(`found ${found.lastSeq}\n`);
let told = found.lastSeq;
for (let number = 1; ; number += 1) {
  const { monotonic: at, wall } = now();
  client.append([{ kind: 'sip', reason: `${process.pid}:${number}`, at, wall }]);
  if (number % 7 === 0) {
    client.append([
      { kind: 'reading', channel: `c${number % 50}`, quality: 'good', value: number, unit: '', at, wall },
    ]);
    client.keep(JSON.stringify({ number }));
  }
  await pause(number % 3);
  if (client.durable() > told) {
    told = client.durable();
    process.stdout.write(`durable ${told}\n`);
  }
}
