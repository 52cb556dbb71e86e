import { describe, expect, it } from 'vitest';
import { demoWiring } from '../../sim/board/demo-wiring.ts';
import type { Failing } from '../../sim/faults/failing.ts';
import type { Plant } from '../../sim/plant/plant.ts';
import type { Farm } from '../../src/farm/farm.ts';
import type { Entry } from '../../src/journal/entry.ts';
import { HOUR, runShed, told, type RunAsked, type ShedRun } from './shed-run.ts';
import { broken, clock, shedWith } from './sheds.ts';
import { runWired } from './wired-run.ts';

const MINUTE = 60_000;
const PARTS = { returnFlow: 'switch', pumpCurrent: true, relayReadBack: true, tankFloat: true };
const shed = (evidence: object = {}, topUp: unknown = 'by-hand'): Farm =>
  shedWith([['evidence'], { ...PARTS, ...evidence }], [['tank', 'topUp'], topUp]);

const LEVEL = shed({ tankLevel: true });
const USUAL = LEVEL.tank.strengthMillisiemensPerCm;
const WATER = LEVEL.tank.topUpMillisiemensPerCm;
const POURED = clock(11);

const strengthOf = ({ state: { tank } }: Plant): number => tank.salts / tank.litres;

/** Somebody has poured in a mix, or water, that makes the tank this strong. */
const wrongMix = (plant: Plant, strength: number): void => {
  plant.state.tank.salts = strength * plant.state.tank.litres;
};

const run = (farm: Farm, strength: number, hours: number, more: Partial<RunAsked> = {}): ShedRun =>
  runShed({
    farm,
    fromMillis: POURED - HOUR,
    untilMillis: POURED + hours * HOUR,
    at: {
      millis: POURED,
      does: (plant) => {
        wrongMix(plant, strength);
      },
    },
    probe: strengthOf,
    ...more,
  });
type Raised = Extract<Entry, { kind: 'alarm-raised' }>;
const offs = (entries: readonly Entry[]): readonly Raised[] =>
  entries.filter((entry): entry is Raised => entry.kind === 'alarm-raised' && entry.alarm === 'strength-off');

const SWAP = /take out about (\d+) L and put in as much plain water/;

describe('a mix that makes 2.6 mS/cm where 1.6 is usual', () => {
  it.each([
    ['by the level sensor', LEVEL],
    ['by the usual litres', shed()],
  ])(
    'is one medium alarm within an hour, with litres that bring the tank back within 5 % (%s)',
    (_name, farm) => {
      const [raised, ...more] = offs(run(farm, 2.6, 1).entries);
      expect(more).toEqual([]);
      expect(raised?.priority).toBe('medium');
      expect(raised!.at - POURED).toBeLessThanOrEqual(HOUR);
      const litres = Number(SWAP.exec(raised!.text)?.[1]);
      let isSwapped = false;
      const mended = run(farm, 2.6, 3, {
        works: ({ state: { atMillis, tank } }) => {
          const swapAt = raised!.at + MINUTE;
          if (isSwapped || atMillis < swapAt) return isSwapped ? Infinity : swapAt;
          isSwapped = true;
          tank.salts += litres * (WATER - tank.salts / tank.litres);
          return Infinity;
        },
        untilMillis: raised!.at + HOUR,
      });
      expect(isSwapped).toBe(true);
      expect(Math.abs(strengthOf(mended.plant) / USUAL - 1)).toBeLessThan(0.05);
      expect(told(mended, 'alarm-returned').map(({ alarm }) => alarm)).toEqual(['strength-off']);
    },
  );

  it('is told through the converter of a board too, and never by a probe that is dry', async () => {
    const wiring = demoWiring(LEVEL);
    const through = async (failing: readonly Failing[]): Promise<readonly Raised[]> => {
      let isPoured = false;
      const { entries } = await runWired({
        farm: LEVEL,
        wiring,
        failing,
        fromMillis: POURED - 5 * MINUTE,
        untilMillis: POURED + 40 * MINUTE,
        judgedFromMillis: POURED,
        calibration: {
          cellFactor: 1,
          zeroMicrosiemensPerCm: 0,
          at: 'unknown',
          points: [],
          module: { fullScaleMicrosiemensPerCm: 5000 },
          earlier: [],
        },
        looked: (_step, _now, { plant }) => {
          if (!isPoured) wrongMix(plant, 2.6);
          isPoured = true;
        },
      });
      return offs(entries);
    };
    const [raised] = await through([]);
    expect(raised!.at - POURED).toBeLessThan(35 * MINUTE);
    expect(raised!.text).toMatch(SWAP);
    const dry: Failing = { part: 'probe', way: 'off', fromMillis: 0, untilMillis: Infinity };
    expect(await through([dry])).toEqual([]);
  });

  it('stays told while the probe falls silent, over a restart, and is not told by one that was never good', () => {
    const silentFrom = POURED + HOUR;
    const silent = run(LEVEL, 2.6, 3, {
      probe: (plant) => (plant.state.atMillis < silentFrom ? strengthOf(plant) : null),
      restartsAt: [POURED + 2 * HOUR],
      resumes: { awayMinutes: 2 },
    });
    expect(offs(silent.entries)).toHaveLength(1);
    expect(told(silent, 'alarm-returned').filter(({ alarm }) => alarm === 'strength-off')).toEqual([]);
    expect(offs(run(LEVEL, 2.6, 2, { probe: () => null }).entries)).toEqual([]);
  });
});

describe('water that makes 0.9 mS/cm where 1.6 is usual', () => {
  it('is one medium alarm within an hour: another meter first, stock in small steps, and no grams', () => {
    const [raised, ...more] = offs(run(LEVEL, 0.9, 1).entries);
    expect(more).toEqual([]);
    expect([raised?.priority, raised!.at - POURED <= HOUR]).toEqual(['medium', true]);
    expect(raised!.text).toMatch(
      /too weak.* Read it with another meter first.*add stock solution in small steps/,
    );
    expect(raised!.text).not.toMatch(/\d (?:g|kg|L)\b/);
  });
});

describe('a valve that tops up with water of 2.3 mS/cm, not 0.3', () => {
  it('is told when the plants stand at 2.2 mS/cm or less, and asks to measure that water too', () => {
    const farm = shed({}, { floatValveAtLitres: 500, litresPerMinute: 8 });
    const day = runShed({
      farm,
      fromMillis: clock(6),
      untilMillis: clock(17),
      faults: broken('top-up-salty', 6.5),
      probe: strengthOf,
    });
    const found = day.alarms.filter(({ entry }) => entry.alarm === 'strength-off');
    expect(found).toHaveLength(1);
    expect(strengthOf(found[0]!.plant)).toBeLessThan(2.2);
    expect(found[0]!.entry.text).toMatch(/too strong.*plain water, measured first too/);
  });
});
