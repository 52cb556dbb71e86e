import { setImmediate as turn } from 'node:timers/promises';
import { beforeAll, describe, expect, it } from 'vitest';
import {
  runsOf,
  skyForSpan,
  UNCHANGED,
  type Outcome,
  type WeatherSource,
} from '../../../firmware-host/simulated-shed.ts';
import { inParallel, type Done } from '../../../firmware-host/work/pool.ts';
import type { RehearsalJob } from '../../../firmware-host/work/rehearse-job.ts';
import { rehearsed } from '../../../sim/run/rehearse.ts';
import { localDayOn } from '../../../src/time/local-day.ts';
import { exampleFarm } from '../../support/farm.ts';

const { start, end } = localDayOn('2026-07-15', 'Europe/Lisbon');
const source: WeatherSource = { kind: 'hot-day' };
const job: RehearsalJob = {
  farm: exampleFarm,
  source,
  changes: { ...UNCHANGED, hotterCelsius: 2 },
  span: { start, end },
  faults: [],
  seed: 7,
};
const DRAWS = 3;

// What runs from its sources has no built thread beside it: the job runs in this one.
describe('a rehearsal as a job', () => {
  let turns = 0;
  const done: Done<Outcome>[] = [];
  beforeAll(async () => {
    const over = new AbortController();
    const counting = (async () => {
      for (; !over.signal.aborted; turns += 1) await turn();
    })();
    for await (const one of inParallel('rehearse', job, runsOf(DRAWS))) done.push(one);
    over.abort();
    await counting;
  });

  it('has the outcomes of all runs one after another, to the bit', () => {
    const found = skyForSpan(job.farm, source, job.span, job.changes);
    if (!found.ok) throw new Error(found.reason);
    const inOrder = [...rehearsed({ ...job, sky: found.sky, draws: DRAWS })];
    expect(inOrder.map(({ draw }) => draw)).toEqual(['central', 0, 1, 2]);
    expect(done.map(({ index }) => index)).toEqual([0, 1, 2, 3]);
    expect(done.map(({ result }) => result)).toStrictEqual(inOrder);
  });

  it('is plain data, and so are its outcomes', () => {
    expect(structuredClone(job)).toStrictEqual(job);
    const results = done.map(({ result }) => result);
    expect(structuredClone(results)).toStrictEqual(results);
  });

  it('lets the event loop turn after each of its 4 runs', () => {
    expect(turns).toBeGreaterThanOrEqual(DRAWS + 1);
  });

  it('ends at a signal after the run under way, and throws the reason', async () => {
    const stop = new AbortController();
    const work = inParallel('rehearse', job, runsOf(DRAWS), { signal: stop.signal });
    expect((await work.next()).value?.index).toBe(0);
    stop.abort(new Error('enough'));
    await expect(work.next()).rejects.toThrow('enough');
  });

  it('throws where its weather does not reach', async () => {
    const elsewhere = { ...job, source: { kind: 'record', rows: [], typicalYearOf: null } } as const;
    await expect(inParallel('rehearse', elsewhere, runsOf(1)).next()).rejects.toThrow(
      'a rehearsal without weather',
    );
  });
});
