import { describe, expect, it } from 'vitest';
import { MARKERS } from '../../../firmware-host/report/page-shell.ts';
import { tunePage } from '../../../firmware-host/report/tune-page.ts';
import { choicePlot, floodsIn, nightsOf, smallestPlots } from '../../../firmware-host/report/tune-plots.ts';
import { choiceRows } from '../../../firmware-host/cli/tune-table.ts';
import { localDayOn } from '../../../src/time/local-day.ts';
import { exampleFarm, farmWith } from '../../support/farm.ts';
import { madeSearch, ORDINARY, type MadeSearch } from './made-search.ts';

const pageOf = (made: MadeSearch): string => {
  const { asked, found } = madeSearch(made);
  return tunePage(asked, found);
};

/** The words of its body, without marks. */
const wordsOf = (page: string): string =>
  page
    .slice(page.indexOf('<main>'), page.indexOf('</main>'))
    .replaceAll(/<[^>]*>/g, ' ')
    .replaceAll('\u00a0', ' ')
    .replaceAll(/\s+/g, ' ');

const figuresOf = (page: string): Readonly<Record<string, unknown>> =>
  JSON.parse(/id="figures">(.*?)<\/script/s.exec(page)?.[1] ?? '') as Readonly<Record<string, unknown>>;

const day = localDayOn('2026-07-15', exampleFarm.place.timeZone);
const span = { farm: exampleFarm, day, days: 1, endMillis: day.end };

describe('the page of a search', () => {
  const page = pageOf(ORDINARY);
  const words = wordsOf(page);

  it('begins with its own marker, and its first words are the answer', () => {
    expect(page.startsWith(MARKERS.search)).toBe(true);
    expect(words).toMatch(/^ ■ Fewest floods that are safe in every run: 3 × 20 min\. /);
  });

  it('tells what was searched, the seed and the runs, and that the farm is invented', () => {
    expect(words).toContain('Hillside, 2026-07-15: night, tried on a made day.');
    expect(words).toContain('each judged in 5 runs');
    expect(words).toContain('(seed 7)');
    expect(words).toContain('An invented farm: none of these data are of a real one.');
  });

  it('says what the night is limited by, in how many runs, and how sure the oxygen is', () => {
    expect(words).toContain('Limited by water: with fewer floods a bench falls to its wilt floor');
    expect(words).toContain('in 2 of 5 runs.');
    expect(words).toContain('never certain without a field test');
  });

  it('has a row for each choice, the smallest, the present and one that fails marked by sign and word', () => {
    expect(page.match(/<tr[^>]*><th scope="row">/g)?.length).toBeGreaterThanOrEqual(4);
    expect(words).toContain('3 × 20 min → fewest that are safe 3.0 yes 24 +4 (+10)');
    expect(words).toContain('4 × 20 min ○ plan of the farm file 4.0 yes');
    expect(words).toContain('2 × 20 min 2.0 ✖ no (2/5)');
  });

  it('names the column in each cell, for a page too narrow for a table', () => {
    for (const head of [
      'floods a day',
      'lowest held %',
      'margin points',
      'oxygen mg/L',
      'pump h a day',
      'kWh',
    ])
      expect(page.split(`data-head="${head}"`)).toHaveLength(5);
  });

  it('shows the weeks, the change as it is written, and what all rests on', () => {
    expect(words).toContain('2026-07-22: none of these plans is safe');
    expect(page).toContain('+floods: 3 # &lt;few&gt;</pre>');
    expect(words).toContain('Rests on default parameters: nobody has measured');
  });

  it('holds no address and asks for no other file', () => {
    expect(page.replaceAll('http-equiv', '')).not.toContain('http');
    expect(page).not.toMatch(/@import|url\(|\bsrc=/);
  });

  it('hides no danger of the rest of the day behind a good night', () => {
    const elsewhere = pageOf({ ...ORDINARY, elsewhereTheta: 0.1 });
    expect(elsewhere).toContain('<h1 class="caution">');
    expect(wordsOf(elsewhere)).toContain('in 5 of 5 runs, and no plan for these parts helps that');
  });

  it('says when a plan comes to more floods than it names', () => {
    const { asked, found } = madeSearch(ORDINARY);
    const { smallest } = found;
    const cost = { ...smallest!.candidate.cost, floods: 4 };
    const bounded = { ...smallest!, candidate: { ...smallest!.candidate, cost } };
    expect(wordsOf(tunePage(asked, { ...found, smallest: bounded }))).toContain(
      'Asked for are 3 floods, but 4.0 a day come',
    );
    expect(words).not.toContain('Asked for');
  });

  it('does not speak of a worst flood missed where one is lost each day', () => {
    const lost = wordsOf(pageOf({ ...ORDINARY, lostMinuteOfDay: 120 }));
    expect(lost).toContain('with the named flood lost each day');
    expect(lost).toContain('the flood nearest to 02:00 is lost');
  });

  it('shows a farm named like markup by its name, and runs no script of it', () => {
    const hostile = pageOf({ ...ORDINARY, farm: farmWith([['farm'], '</script><img src=x>']) });
    expect(hostile).not.toContain('<img');
    expect(hostile.split('<script')).toHaveLength(page.split('<script').length);
  });
});

describe('a search without a safe plan', () => {
  const page = pageOf({ choices: ORDINARY.choices.slice(0, 1), smallest: null, present: 0 });

  it('says so first, marked as a danger, and draws the choices all the same', () => {
    expect(page).toContain('<h1 class="danger">');
    expect(wordsOf(page)).toMatch(/^ ✖ No plan that was tried is safe in every run\./);
    expect(figuresOf(page)).toMatchObject({
      plots: [],
      choices: { points: [{ mark: 'fails', driest: -3 }] },
    });
    expect(page).not.toContain('<pre>');
  });
});

describe('a search that was stopped before the choices were run', () => {
  it('shows them as not judged, without a plot', () => {
    const choices = ORDINARY.choices.map((choice) => ({ ...choice, margins: null }));
    const page = pageOf({ ...ORDINARY, choices, wasStopped: true });
    expect(figuresOf(page)).toMatchObject({ plots: [], choices: null });
    expect(page).not.toContain('id="choices"');
    expect(wordsOf(page)).toContain('Stopped early');
    expect(wordsOf(page)).toContain('not judged');
    expect(page).toContain('<h1 class="caution">');
  });
});

describe('margin against number of floods', () => {
  const { asked, found } = madeSearch(ORDINARY);
  const plot = choicePlot(choiceRows(asked.farm, found))!;

  it('has the driest run and the middle of each choice, and the zero in its range', () => {
    expect(plot.points.map(({ driest, middle }) => [driest, middle])).toEqual([
      [-3, 4],
      [4, 10],
      [5, 12],
      [11, 18],
    ]);
    expect(plot.least).toBeLessThan(-3);
    expect(plot.most).toBeGreaterThan(25);
  });

  it('sets two choices with three floods side by side, about three', () => {
    const [, one, other] = plot.points.map(({ x }) => x);
    expect(other! - one!).toBeCloseTo(2 / 16, 2);
    expect((one! + other!) / 2).toBeCloseTo(3, 2);
  });

  it('marks by shape and word', () => {
    expect(plot.points.map(({ mark, above, below }) => [mark, above, below])).toEqual([
      ['fails', '', ''],
      ['smallest', '→ fewest safe', ''],
      ['holds', '', ''],
      ['holds', '', '○ farm file'],
    ]);
  });
});

describe('the day of the smallest safe plan', () => {
  const { found, asked } = madeSearch(ORDINARY);

  it('follows the driest planted bench: the second, at 50 to 80 % over the runs', () => {
    const [held, oxygen] = smallestPlots(span, found.smallest!.judged!)!.group.plots;
    expect(held?.course.middle[100]).toBeCloseTo(65, 6);
    expect(held?.levels.map(({ text }) => text)).toEqual(['stress floor', 'wilt floor']);
    expect(oxygen?.course.middle[100]).toBe(4.5);
  });

  it('follows no bench without plants', () => {
    const farm = farmWith([['benches', 1, 'plants'], 0]);
    const [held] = smallestPlots({ ...span, farm }, found.smallest!.judged!)!.group.plots;
    expect(held?.course.middle[100]).toBeCloseTo(90, 6);
  });

  it('shades from midnight to sunrise and from sunset to midnight', () => {
    const [morning, evening, ...more] = nightsOf(span);
    expect(more).toEqual([]);
    expect(morning?.[0]).toBe(0);
    expect(evening?.[1]).toBe(1440);
    // Sunrise and sunset of mid July at 37.1° N, 8.0° W: about 6:25 and 20:50 by the clocks of Lisbon.
    expect(morning?.[1]).toBeCloseTo(385, -1);
    expect(evening?.[0]).toBeCloseTo(1250, -1);
  });

  it('makes one night of an evening and the morning after', () => {
    const two = { ...span, days: 2, endMillis: span.endMillis + 86_400_000 };
    expect(nightsOf(two)).toHaveLength(3);
    expect(nightsOf(two)[1]?.[1]).toBeGreaterThan(1440);
  });

  it('has the floods that the plan gives on that day, inside it and in order', () => {
    const floods = floodsIn(asked.job, found.smallest!.setting);
    const begins = floods.map(([from]) => from);
    expect(floods.length).toBeGreaterThan(10);
    expect(begins).toEqual(begins.toSorted((a, b) => a - b));
    expect(Math.min(...begins)).toBeGreaterThanOrEqual(0);
    expect(Math.max(...begins)).toBeLessThan(1440);
    const { setting } = found.present!;
    expect(floodsIn(asked.job, setting)).not.toEqual(floods);
  });
});
