import { describe, expect, it } from 'vitest';
import { wrapped } from '../../../firmware-host/cli/wrap.ts';

describe('wrapped', () => {
  it('leaves a text of exactly the columns on one line, and breaks one that is a letter longer', () => {
    expect(wrapped('abcd efghi', 10)).toBe('abcd efghi');
    expect(wrapped('abcd efghij', 10)).toBe('abcd\nefghij');
  });

  it('begins later lines with the indent, which counts as columns', () => {
    expect(wrapped('13:30  water came', 12, 7)).toBe('13:30  water\n       came');
    expect(wrapped('13:30  aa bbb', 12, 7)).toBe('13:30  aa\n       bbb');
  });

  it('keeps a number on the line of its unit', () => {
    expect(wrapped('lasts 13 min more', 8)).toBe('lasts\n13 min\nmore');
    expect(wrapped('at most 60 L', 10)).toBe('at most\n60 L');
    expect(wrapped('down to 13.8 % now', 12)).toBe('down to\n13.8 % now');
  });

  it('breaks between a number and a word that is no unit', () => {
    expect(wrapped('has 4 benches', 6)).toBe('has 4\nbenches');
    expect(wrapped('of 3 hours', 5)).toBe('of 3\nhours');
  });

  it('lets a word longer than a line stand alone, and keeps the breaks it was given', () => {
    expect(wrapped('a bcdefghijkl m', 5)).toBe('a\nbcdefghijkl\nm');
    expect(wrapped('one\ntwo', 20)).toBe('one\ntwo');
  });
});
