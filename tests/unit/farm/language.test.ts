import { describe, expect, it } from 'vitest';
import { minutesAgo, textIn } from '../alarm/situations.ts';
import { farmWith, problemsWith } from './example.ts';

describe('the language of the alarms', () => {
  it('is English where the farm file names none', () => {
    expect(farmWith().language).toBe('en');
  });

  it.each([
    ['en', 'The clock of the host has jumped'],
    ['pt', 'O relógio do computador deu um salto'],
    ['es', 'El reloj del ordenador ha dado un salto'],
    ['fr', "L'horloge de l'ordinateur a sauté"],
  ])('%s begins the alarm of a stepped clock with "%s"', (language, begins) => {
    const farm = farmWith([['language'], language]);
    expect(textIn({ clockDoubtedAt: minutesAgo(1) }, farm).slice(0, begins.length)).toBe(begins);
  });

  it('refuses one that is not spoken here, and names the four that are', () => {
    expect(problemsWith([['language'], 'de'])).toEqual([
      expect.objectContaining({
        path: ['language'],
        problem: 'This value is not one of those allowed.',
        allowed: 'en, pt, es or fr',
      }),
    ]);
  });
});
