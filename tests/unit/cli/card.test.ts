import { describe, expect, it } from 'vitest';
import { card } from '../../../firmware-host/cli/card.ts';
import type { Console } from '../../../firmware-host/cli/console.ts';
import { cardPage } from '../../../firmware-host/report/card-page.ts';
import { everyWords } from '../../../firmware-host/report/card-words.ts';
import { bucketCard } from '../../../src/estimate/bucket-card.ts';
import { exampleFarm, farmWith, type Change } from '../../support/farm.ts';

const DATE = '2026-07-14';
const page = (...changes: readonly Change[]): string => cardPage(bucketCard(farmWith(...changes), DATE));

describe('the bucket card', () => {
  it('says one channel, and not one channels', () => {
    expect(page([['benches', 0, 'channels'], 1])).toMatch(/L × 1 channel<\/td>/);
    expect(page()).toMatch(/L × 12 channels<\/td>/);
  });

  it('on paper begins with the plug, and heads the order in which benches are watered', () => {
    const text = page();
    expect(text.indexOf('Pull the plug')).toBeLessThan(text.indexOf('<table>'));
    expect(text.match(/Pull the plug/g)).toHaveLength(1);
    expect(text).toContain('<th>order</th><th>bench</th>');
  });

  it('at a terminal begins with the plug likewise', async () => {
    const said: string[] = [];
    const console: Console = {
      out: (text) => said.push(text),
      talk: () => undefined,
      atTerminal: false,
      outAtTerminal: false,
      columns: 100,
      unread: new AbortController().signal,
      lost: () => null,
    };
    expect(await card('docs/examples/ribeira.yaml', { date: DATE }, console)).toBe(0);
    const text = said.join('\n');
    expect(text.indexOf('Pull the plug')).toBeLessThan(text.indexOf('1. '));
    expect(text.match(/Pull the plug/g)).toHaveLength(1);
    expect(text).toContain('L to each of 12 channels, every');
  });

  it('tells long spans in hours and minutes, as everything else does', () => {
    const [hours] = bucketCard(exampleFarm, DATE).hours;
    const [round] = hours?.rounds ?? [];
    expect(round).toBeDefined();
    if (round === undefined) return;
    expect(everyWords({ ...round, everyMinutes: 145 })).toBe('every 2 h 25 min');
    expect(everyWords({ ...round, everyMinutes: 45 })).toBe('every 45 min');
  });
});
