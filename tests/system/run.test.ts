import { describe, expect, it } from 'vitest';
import { linesOf, RIBEIRA, rillkeeper } from './rillkeeper.ts';

interface Entry {
  readonly kind: string;
  readonly wall: string;
  readonly flood?: number;
  readonly pump?: 'on' | 'off';
  readonly verdict?: { readonly kind: string; readonly says: string };
}

const entriesOf = (stdout: string): readonly Entry[] =>
  linesOf(stdout).map((line) => JSON.parse(line) as Entry);
const floodsOf = (entries: readonly Entry[], kind: string): readonly number[] =>
  entries.flatMap((entry) => (entry.kind === kind && entry.flood !== undefined ? [entry.flood] : []));

const dayAtFullSpeed = (span = '24h'): readonly string[] => ['run', RIBEIRA, '--for', span, '--speed', 'max'];

describe('run --for 24h --speed max', () => {
  it('ends by itself with 0, every started flood having exactly one line with its verdict', async () => {
    const { code, stdout, stderr } = await rillkeeper(...dayAtFullSpeed());
    expect(code).toBe(0);
    expect(stderr).toBe('Ribeira in a simulated shed, as fast as it goes. Ctrl-C ends it.\n');
    const numbers = (pattern: RegExp): readonly number[] =>
      [...stdout.matchAll(pattern)].map(([, id]) => Number(id));
    const begun = numbers(/^\S+ \S+ {2}flood (\d+) for \d+ min: /gm);
    const judged = numbers(/^\S+ \S+ {2}flood (\d+) (?:confirmed|DEGRADED|unproven|MISSED|withheld): /gm);
    expect(judged).toEqual(begun);
    expect(new Set(begun).size).toBe(begun.length);
    // The plan alone: 2 + 4 + 3 floods, and 8 h of 20 min floods with rests of 25 min at most.
    expect(begun.length).toBeGreaterThanOrEqual(2 + 4 + 3 + Math.floor((8 * 60) / 45) - 1);
  });

  it('--json gives one object a line, in the order of time, with the last word to the pump: off', async () => {
    const { code, stdout } = await rillkeeper(...dayAtFullSpeed(), '--json');
    expect(code).toBe(0);
    const entries = entriesOf(stdout);
    expect(entries[0]).toMatchObject({ kind: 'started', wall: '2026-07-14T04:30:00.000Z' });
    const walls = entries.map(({ wall }) => wall);
    expect(walls).toEqual(walls.toSorted());
    expect(entries.at(-1)).toMatchObject({
      kind: 'pump-asked',
      pump: 'off',
      wall: '2026-07-15T04:30:00.000Z',
    });
    expect(floodsOf(entries, 'verdict')).toEqual(floodsOf(entries, 'flood-started'));
  });

  it('--rehearse --json puts the rehearsal first, as one object on one line', async () => {
    const { stdout } = await rillkeeper(...dayAtFullSpeed('1h'), '--rehearse', '--json');
    const [first, second] = entriesOf(stdout);
    expect(first).toMatchObject({ kind: 'rehearsal', farm: 'Ribeira', runs: 5 });
    expect(second).toMatchObject({ kind: 'started' });
  });

  it('gives a flood that the end cuts short its one verdict, and asks the pump off', async () => {
    const { code, stdout } = await rillkeeper('run', RIBEIRA, '--for', '10min', '--speed', 'max', '--json');
    expect(code).toBe(0);
    const entries = entriesOf(stdout);
    expect(floodsOf(entries, 'flood-started')).toEqual([1]);
    expect(floodsOf(entries, 'verdict')).toEqual([1]);
    const [verdict, pump] = entries.slice(-2);
    expect(verdict?.verdict?.says).toMatch(/^stopped after \d+ of 20 min: the run ended$/);
    expect(pump).toMatchObject({ kind: 'pump-asked', pump: 'off' });
  });

  it('with a pump dead from 13:00 on says MISSED and raises the alarm', async () => {
    const { code, stdout } = await rillkeeper(...dayAtFullSpeed('9h'), '--fault', 'pump-dead@13:00');
    expect(code).toBe(0);
    expect(stdout).toMatch(/^2026-07-14 13:\d\d {2}flood \d+ MISSED: /m);
    expect(stdout).toMatch(/^2026-07-14 13:\d\d {2}ALARM \(high\) Pump ran, no water came back since /m);
  });
});
