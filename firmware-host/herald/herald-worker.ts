import { parentPort, workerData } from 'node:worker_threads';
import { BrokenAssertion } from '../../src/units/assertion.ts';
import { heraldJob, type HeraldOpening, type ToHerald } from './herald-job.ts';

const port = parentPort;
if (port === null) throw new BrokenAssertion('the herald works in a thread of its own');
const job = heraldJob(workerData as HeraldOpening, (message) => {
  port.postMessage(message);
});
port.on('message', (message: ToHerald) => {
  job.take(message);
});
