import { describe, expect, it } from 'vitest';
import { rehearsalText } from '../../firmware-host/cli/rehearsal-report.ts';
import { rehearsalJson } from '../../firmware-host/cli/rehearsal-json.ts';
import { rehearseFarm, type RehearseOptions } from '../../firmware-host/cli/rehearse.ts';
import type { Rehearsal } from '../../firmware-host/cli/rehearsal.ts';
import type { Farm } from '../../src/farm/farm.ts';
import { farmWith } from '../support/farm.ts';
import { NO_TERMINAL } from '../support/no-terminal.ts';

const BASIL = { on: '2026-07-16', crop: 'basil', sown: '2026-06-10', plants: 280 };
const withNext = (...next: readonly object[]): Farm => farmWith([['benches', 1, 'next'], next]);

const rehearsed = (farm: Farm, options: RehearseOptions = {}): Promise<Rehearsal> =>
  rehearseFarm(
    { ok: true, file: 'made', text: '', farm, locate: () => ({ line: 1, column: 1 }) },
    { kind: 'hot-day' },
    { draws: '0', ...options },
    Date.parse('2026-07-14T12:00Z'),
    NO_TERMINAL,
  );
const drunk = ({ outcomes }: Rehearsal): number => outcomes[0]!.benches[1]!.drunkLitres;

describe('a bench of grown lettuce that is cut on the second of three days', async () => {
  const days = { date: '2026-07-15', days: '3' };
  const [kept, cleared, replanted] = await Promise.all([
    rehearsed(farmWith(), days),
    rehearsed(withNext({ on: BASIL.on }), days),
    rehearsed(withNext(BASIL), days),
  ]);
  const first = await rehearsed(farmWith(), { date: '2026-07-15' });

  it('drinks on the first alone where it then stands empty, and what basil drinks where that comes', () => {
    expect(drunk(cleared) / drunk(first)).toBeCloseTo(1, 2);
    expect(drunk(replanted)).toBeGreaterThan(2 * drunk(first));
    expect(Math.abs(drunk(replanted) / drunk(kept) - 1)).toBeGreaterThan(0.05);
  });

  it('says in words and as data what comes and when', () => {
    expect(rehearsalText(cleared, 200)).toContain('Bench 2 is cleared on 2026-07-16 and stands empty.');
    expect(rehearsalText(replanted, 200)).toContain(
      'On 2026-07-16 280 plants of basil, sown on 2026-06-10, come onto Bench 2',
    );
    expect(rehearsalJson(replanted)).toMatchObject({
      benches: [
        { next: [] },
        { crop: 'butterhead', next: [{ on: BASIL.on, crop: 'basil', plants: 280 }] },
        { next: [] },
        { next: [] },
      ],
    });
  });
});

describe('a bench that changes outside of the rehearsed day', () => {
  it('is rehearsed as the later crop after it, to the last litre', async () => {
    const later = await rehearsed(withNext(BASIL), { date: '2026-07-20' });
    const only = await rehearsed(
      farmWith(
        [['benches', 1, 'crop'], BASIL.crop],
        [['benches', 1, 'sown'], BASIL.sown],
        [['benches', 1, 'plants'], BASIL.plants],
      ),
      { date: '2026-07-20' },
    );
    expect(later.outcomes).toEqual(only.outcomes);
  });

  it('is no matter of a day before it', async () => {
    const before = await rehearsed(withNext(BASIL), { date: '2026-07-14' });
    expect(before.outcomes).toEqual((await rehearsed(farmWith(), { date: '2026-07-14' })).outcomes);
  });

  it('cannot have its inlet blocked once it is cleared: that would show nothing', async () => {
    const blocked = rehearsed(withNext({ on: BASIL.on }), {
      date: '2026-07-20',
      fault: ['inlet-blocked:Bench 2@09:00'],
    });
    await expect(blocked).rejects.toThrow('no plants on Bench 2 in these days');
  });
});
