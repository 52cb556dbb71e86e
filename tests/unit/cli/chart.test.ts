import { describe, expect, it } from 'vitest';
import { axis, bar, lowestBars, stretches } from '../../../firmware-host/cli/chart.ts';

describe('bar', () => {
  it.each([
    [0, '▁'],
    [0.124, '▁'],
    [0.125, '▂'],
    [0.5, '▅'],
    [0.874, '▇'],
    [0.875, '█'],
    [1, '█'],
    [-0.1, '▁'],
    [1.2, '█'],
  ])('shows a share of %d as %s: eighths, and never outside the bars', (share, shown) => {
    expect(bar(share)).toBe(shown);
  });
});

describe('lowestBars', () => {
  const row = (points: readonly (readonly [at: number, share: number])[], floor = 0): string =>
    lowestBars(
      points.map(([at, share]) => ({ at, share })),
      100,
      140,
      4,
      floor,
    );

  it('shows the lowest of the values that fall into a column', () => {
    expect(
      row([
        [100, 1],
        [105, 0.5],
        [109, 0.9],
        [110, 1],
        [120, 1],
        [130, 0.3],
      ]),
    ).toBe('▅██▃');
  });

  it('repeats the column before where no value falls into one', () => {
    expect(
      row([
        [100, 0.5],
        [130, 1],
      ]),
    ).toBe('▅▅▅█');
  });

  it('is blank before the first value: nothing known is not full', () => {
    expect(row([[120, 1]])).toBe('  ██');
    expect(row([])).toBe('    ');
  });

  it('marks values at or below the floor with ×, and none above it', () => {
    expect(
      row(
        [
          [100, 0.21],
          [110, 0.2],
          [120, 0.1],
          [130, 0.9],
        ],
        0.2,
      ),
    ).toBe('▂××█');
  });

  it('counts a value at the very end to the last column, and none outside', () => {
    expect(
      row([
        [100, 1],
        [140, 0.5],
      ]),
    ).toBe('███▅');
    expect(
      row([
        [99, 0.1],
        [100, 1],
        [141, 0.1],
      ]),
    ).toBe('████');
  });
});

describe('stretches', () => {
  it('fills each column that a stretch touches, and not the one at whose start it ends', () => {
    expect(
      stretches(
        [
          { from: 5, until: 20 },
          { from: 35, until: 36 },
        ],
        0,
        40,
        4,
      ),
    ).toBe('▆▆·▆');
    expect(stretches([], 0, 40, 4)).toBe('····');
  });
});

describe('axis', () => {
  it('begins each label at the column of its moment', () => {
    expect(
      axis(
        [
          { at: 0, text: '00' },
          { at: 12, text: '12' },
        ],
        0,
        24,
        12,
      ),
    ).toBe('00    12');
  });

  it('leaves out a label that would reach past the row', () => {
    expect(
      axis(
        [
          { at: 0, text: '00' },
          { at: 23, text: '23' },
        ],
        0,
        24,
        12,
      ),
    ).toBe('00');
  });
});
