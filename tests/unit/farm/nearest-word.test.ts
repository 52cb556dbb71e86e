import { describe, expect, it } from 'vitest';
import { nearestWord } from '../../../src/farm/nearest-word.ts';

describe('nearestWord', () => {
  const known = ['lengthMetres', 'plants', 'crop', 'sown'];

  it.each([
    ['lenghtMetres', 'lengthMetres'],
    ['LENGTHMETRES', 'lengthMetres'],
    ['length', null],
    ['plant', 'plants'],
    ['corp', 'crop'],
    ['sowed', null],
    ['colour', null],
    ['', null],
    ['x'.repeat(1000), null],
  ])('%s -> %s', (word, meant) => {
    expect(nearestWord(word, known)).toBe(meant);
  });

  it('of two candidates takes the one with fewer edits', () => {
    expect(nearestWord('restMinute', ['testMinutes', 'restMinutes'])).toBe('restMinutes');
  });

  it('knows no word among none', () => {
    expect(nearestWord('crop', [])).toBeNull();
  });
});
