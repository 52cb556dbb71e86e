import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { farmTextWith, ownFolder, RIBEIRA, rillkeeper, written, type Ended } from '../system/rillkeeper.ts';
import { startedBrowser, type OpenPage } from './browser.ts';
import { INK, WIDTHS } from './looks.ts';

const KILOBYTE = 1000;
const folder = ownFolder();
const browser = startedBrowser();
afterAll(browser.close);

interface Band {
  readonly low: number;
  readonly middle: number;
  readonly high: number;
}
interface Data {
  readonly verdict: { readonly says: string };
  readonly benches: readonly {
    readonly bench: string;
    readonly lowestHeldPercent: Band;
    readonly lowestOxygenMilligramsPerLitre: Band;
    readonly warmestWaterCelsius: Band;
    readonly drunkLitres: Band;
  }[];
}

/** What the page shows where it is rendered; a space that keeps figure and unit together is a space. */
const textOf = async (page: OpenPage, selector: string): Promise<string> =>
  String(await page.value(`document.querySelector(${JSON.stringify(selector)}).textContent`)).replaceAll(
    '\u00a0',
    ' ',
  );

const CASES = [
  { name: 'a hot day', args: ['--draws', '4'], most: 600, code: 0, gaps: 0 },
  { name: 'a heat wave', args: ['--scenario', 'heat-wave', '--draws', '4'], most: 1000, code: 0, gaps: 0 },
  {
    name: 'a pump that dies',
    args: ['--scenario', 'pump-dead-worst', '--draws', '4'],
    most: 600,
    code: 1,
    gaps: 3,
  },
] as const;

describe.each(CASES)('the report of $name', ({ name, args, most, code, gaps }) => {
  const file = join(folder, `${name.replaceAll(' ', '-')}.html`);
  let made: Ended;
  beforeAll(async () => {
    made = await rillkeeper('rehearse', RIBEIRA, ...args, '--json', '--report', file);
  });

  it(`is written beside the data, and is smaller than ${most} kB`, () => {
    expect(made.code).toBe(code);
    expect(made.stderr).toContain(`The report stands in ${file}.`);
    expect(() => JSON.parse(made.stdout) as unknown).not.toThrow();
    expect(readFileSync(file).length).toBeLessThan(most * KILOBYTE);
  });

  it('shows the verdict and the figures of the data', async () => {
    const data = JSON.parse(made.stdout) as Data;
    const page = await browser.open(file, { widthPixels: 360, script: 'off' });
    expect(await textOf(page, 'h1')).toMatch(/^[■▲✖] /);
    expect((await textOf(page, 'h1')).slice(2)).toBe(data.verdict.says);
    for (const [place, bench] of data.benches.entries()) {
      const card = await textOf(page, `.bench:nth-child(${place + 1})`);
      const shown = (title: string, { low, middle, high }: Band, digits: number): void => {
        const said = [low, middle, high].map((value) => value.toFixed(digits));
        const [first = ''] = said;
        expect(card).toContain(`${title}${said.every((text) => text === first) ? first : said.join('')}`);
      };
      expect(card).toContain(bench.bench);
      shown('Lowest held water, %', bench.lowestHeldPercent, 1);
      shown('Lowest oxygen, mg/L', bench.lowestOxygenMilligramsPerLitre, 2);
      shown('Warmest water, °C', bench.warmestWaterCelsius, 1);
      shown('Water drunk, L', bench.drunkLitres, 1);
    }
  });

  it.each([360, 1200])(
    'fits a window of %d px with script, asks for nothing, and every plot has ink',
    async (widthPixels) => {
      const page = await browser.open(file, { widthPixels, script: 'on' });
      expect(JSON.parse(String(await page.value(WIDTHS)))).toEqual([widthPixels, widthPixels]);
      const inks = JSON.parse(String(await page.value(INK))) as readonly number[];
      // Held water and oxygen of four benches, temperature and strength of these and the tank, litres of the tank.
      expect(inks).toHaveLength(4 + 4 + 5 + 5 + 1);
      // A line from edge to edge; only the strength of a bench that dries out ends before.
      expect(inks.filter((share) => share > 0.95).length).toBeGreaterThanOrEqual(19 - gaps);
      expect(Math.min(...inks)).toBeGreaterThan(0.5);
      expect(page.requests).toEqual([]);
      expect(page.errors).toEqual([]);
    },
  );

  it.each([360, 1200])(
    'fits a window of %d px without script, with a table for each plot and no empty frame',
    async (widthPixels) => {
      const page = await browser.open(file, { widthPixels, script: 'off' });
      expect(JSON.parse(String(await page.value(WIDTHS)))).toEqual([widthPixels, widthPixels]);
      await page.value(`document.querySelectorAll('details').forEach((each) => { each.open = true; })`);
      const rows = JSON.parse(
        String(
          await page.value(
            `JSON.stringify([...document.querySelectorAll('figure tbody')].map((body) => body.rows.length))`,
          ),
        ),
      ) as readonly number[];
      const expected = name === 'a heat wave' ? 5 : 24;
      expect(rows).toEqual(Array.from({ length: 19 }, () => expected));
      // Open too they fit.
      expect(JSON.parse(String(await page.value(WIDTHS)))).toEqual([widthPixels, widthPixels]);
      expect(await page.value(`document.querySelectorAll('canvas').length`)).toBe(0);
      expect(await page.value(`document.querySelector('.plot').offsetHeight`)).toBe(0);
      expect(await textOf(page, 'main')).toContain('the same figures are in the tables below');
    },
  );
});

describe('a plot that is touched', () => {
  it('tells the moment and its figures, in all plots at once', async () => {
    const file = join(folder, 'touched.html');
    await rillkeeper('rehearse', RIBEIRA, '--draws', '2', '--report', file);
    const page = await browser.open(file, { widthPixels: 360, script: 'on' });
    await page.value(`(() => {
      const over = document.querySelector('.plot .u-over');
      const { left, top, width, height } = over.getBoundingClientRect();
      over.dispatchEvent(new MouseEvent('mousemove', { clientX: left + width / 2, clientY: top + height / 2, bubbles: true }));
    })()`);
    // The library draws its cursor with the next frame.
    await page.value('new Promise((next) => requestAnimationFrame(() => requestAnimationFrame(next)))');
    const said = await page.value(
      `[...document.querySelectorAll('.read')].map((each) => each.textContent).join('|')`,
    );
    const words = String(said).split('|');
    expect(words).toHaveLength(19);
    expect(words[0]).toMatch(/^(?:11:5|12:0)\d: \d+\.\d \(\d+\.\d to \d+\.\d\) %$/);
    expect(words[4]).toMatch(/^(?:11:5|12:0)\d: \d+\.\d \(\d+\.\d to \d+\.\d\) °C, tank \d+\.\d$/);
  });
});

describe('a farm named like markup', () => {
  it('runs no script of its own and is shown by its name', async () => {
    const name = `</script><img src=x onerror="bad=1">`;
    const { text } = farmTextWith('farm: Ribeira', `farm: '${name}'`);
    const file = join(folder, 'hostile.html');
    const farm = written(folder, 'hostile.yaml', text);
    expect((await rillkeeper('rehearse', farm, '--draws', '0', '--report', file)).code).toBe(0);
    const page = await browser.open(file, { widthPixels: 360, script: 'on' });
    expect(await textOf(page, 'title')).toContain(name);
    expect(await page.value('typeof bad')).toBe('undefined');
    expect(page.requests).toEqual([]);
    expect(page.errors).toEqual([]);
  });
});
