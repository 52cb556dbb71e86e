import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { ownFolder, RIBEIRA, rillkeeper, written, type Ended } from '../system/rillkeeper.ts';
import { startedBrowser } from './browser.ts';
import { INK, WIDTHS } from './looks.ts';

interface Choice {
  readonly judged: { readonly oneMissMarginPointsWorst: number };
}

const SEARCH = ['tune', RIBEIRA, '--part', 'night', '--draws', '2', '--days', '1', '--weeks', '0'] as const;
const RANGE = ['--floods', '3-5', '--minutes', '10-20:10'] as const;

const folder = ownFolder();
const file = join(folder, 'search.html');
const browser = startedBrowser();
afterAll(browser.close);
let made: Ended;
/** The choices and, where it is none of them, the plan of the farm file. */
let choices: readonly Choice[];
beforeAll(async () => {
  made = await rillkeeper(...SEARCH, ...RANGE, '--json', '--report', file);
  const data = JSON.parse(made.stdout) as { readonly choices: readonly Choice[]; readonly present: Choice };
  const has = data.choices.some((choice) => JSON.stringify(choice) === JSON.stringify(data.present));
  choices = has ? data.choices : [...data.choices, data.present];
});

/** Columns of the plot of choices that hold the grey of a band. */
const BANDED = `(() => {
  const canvas = document.querySelector('#choices canvas');
  const { data } = canvas.getContext('2d').getImageData(0, 0, canvas.width, canvas.height);
  const columns = new Set();
  for (let at = 0; at < data.length; at += 4)
    if (data[at] === 217 && data[at + 1] === 217 && data[at + 3] === 255) columns.add((at / 4) % canvas.width);
  return columns.size;
})()`;

describe('the report of a search', () => {
  it('is written beside the data, which are the same without it', async () => {
    expect(made.code).toBe(0);
    expect(made.stderr).toContain(`The report stands in ${file}.`);
    expect((await rillkeeper(...SEARCH, ...RANGE, '--json')).stdout).toBe(made.stdout);
  });

  it('leaves a page of somebody else as it was, before anything is searched', async () => {
    const own = written(folder, 'own.html', '<!doctype html>my page');
    const { code, stdout, stderr } = await rillkeeper(...SEARCH, '--report', own);
    expect([code, stdout]).toEqual([2, '']);
    expect(stderr).toContain('is no search report, so it stays');
    const none = join(folder, 'none', 'page.html');
    expect((await rillkeeper(...SEARCH, '--report', none)).code).toBe(2);
    expect(existsSync(none)).toBe(false);
  });

  it.each([360, 1200])('draws its plots in a window of %d px, and asks for nothing', async (widthPixels) => {
    const page = await browser.open(file, { widthPixels, script: 'on' });
    expect(JSON.parse(String(await page.value(WIDTHS)))).toEqual([widthPixels, widthPixels]);
    const [margins, ...through] = JSON.parse(String(await page.value(INK))) as readonly number[];
    // The dashes of the wilt floor alone fill half.
    expect(margins).toBeGreaterThan(0.5);
    expect(through).toHaveLength(2);
    expect(Math.min(...through)).toBeGreaterThan(0.95);
    expect(page.requests).toEqual([]);
    expect(page.errors).toEqual([]);
    // Bands 15 px wide, less their edges and what lies on each other.
    const banded = Number(await page.value(BANDED));
    expect(banded).toBeGreaterThan(choices.length * 9);
    expect(banded).toBeLessThanOrEqual(choices.length * 15);
  });

  it.each([360, 1200])(
    'is read without script in a window of %d px, with every figure',
    async (widthPixels) => {
      const page = await browser.open(file, { widthPixels, script: 'off' });
      expect(JSON.parse(String(await page.value(WIDTHS)))).toEqual([widthPixels, widthPixels]);
      expect(await page.value(`document.querySelectorAll('table.choices tbody tr').length`)).toBe(
        choices.length,
      );
      expect(await page.value(`document.querySelectorAll('canvas').length`)).toBe(0);
      await page.value(`document.querySelectorAll('details').forEach((each) => { each.open = true; })`);
      expect(JSON.parse(String(await page.value(WIDTHS)))).toEqual([widthPixels, widthPixels]);
    },
  );

  it('tells the plan under the finger', async () => {
    const page = await browser.open(file, { widthPixels: 360, script: 'on' });
    await page.value(`(() => {
      const over = document.querySelector('#choices .u-over');
      const { left, top, height } = over.getBoundingClientRect();
      over.dispatchEvent(new MouseEvent('mousemove', { clientX: left + 2, clientY: top + height / 2, bubbles: true }));
    })()`);
    await page.value('new Promise((next) => requestAnimationFrame(() => requestAnimationFrame(next)))');
    const worst = Math.floor(choices[0]?.judged.oneMissMarginPointsWorst ?? NaN);
    const said = String(await page.value(`document.querySelector('#choices + .read').textContent`));
    expect(said).toMatch(/^3 × 10 min: /);
    expect(said).toContain(`: +${worst} in the driest run, middle +`);
  });
});
