import { describe, expect, it } from 'vitest';
import { UNCHANGED, skyForSpan } from '../../../firmware-host/simulated-shed.ts';
import { seededDice } from '../../../sim/dice.ts';
import { CENTRAL, drawnJudgements } from '../../../sim/plant/judgements.ts';
import { rehearsedRun, runsOf } from '../../../sim/run/rehearse.ts';
import { localDayOn } from '../../../src/time/local-day.ts';
import { exampleFarm } from '../../support/farm.ts';

const { start, end } = localDayOn('2026-07-15', 'Europe/Lisbon');
const span = { start, end };
const SEED = 5;

describe('the runs of a rehearsal', () => {
  it('are the central one and the draws 0 to 2 where three draws are asked for', () => {
    expect(runsOf(3)).toEqual(['central', 0, 1, 2]);
    expect(runsOf(0)).toEqual(['central']);
  });

  it('take what nobody has measured from one row of dice, run 2 as its third, asked for alone and first', () => {
    const found = skyForSpan(exampleFarm, { kind: 'hot-day' }, span, UNCHANGED);
    if (!found.ok) throw new Error(found.reason);
    const asked = { farm: exampleFarm, span, sky: found.sky, faults: [], seed: SEED };
    const dice = seededDice(SEED);
    const row = [drawnJudgements(dice), drawnJudgements(dice), drawnJudgements(dice)];
    expect(rehearsedRun(asked, 2).judgements).toEqual(row[2]);
    expect(rehearsedRun(asked, 0).judgements).toEqual(row[0]);
    expect(rehearsedRun(asked, 'central').judgements).toEqual(CENTRAL);
  });
});
