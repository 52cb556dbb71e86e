import { parentPort, workerData } from 'node:worker_threads';
import { BrokenAssertion } from '../../../src/units/assertion.ts';
import type { KeeperAsked } from './book-keeper.ts';
import { serveBook, type Asked } from './serving.ts';

const port = parentPort;
if (port === null) throw new BrokenAssertion('the journal’s thread is begun by the journal only');
// Both sides are of one build.
const service = serveBook(workerData as KeeperAsked);
port.on('message', (asked: Asked) => {
  port.postMessage(service.ask(asked));
  if (asked.kind === 'close') port.close();
});
