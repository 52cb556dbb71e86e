import { describe, expect, it } from 'vitest';
import { clearSkyWattsPerSquareMetre } from '../../../src/physics/radiation.ts';
import { FARM_PLACE, readPlain } from './support.ts';

const HOUR = 3_600_000;
const FIRST = Date.parse('2026-07-01T00:00Z');

/** A clear sun over the farm as a record of so many days, each row the mean of the span from `from` to `to` hours after it. */
const notesOf = (days: number, from: number, to: number): string => {
  const lines = Array.from({ length: 24 * days }, (_, step) => {
    const epochMillis = FIRST + step * HOUR;
    let sum = 0;
    for (let part = 0.05; part < 1; part += 0.1)
      sum += clearSkyWattsPerSquareMetre({
        ...FARM_PLACE,
        epochMillis: epochMillis + (from + part * (to - from)) * HOUR,
      });
    return `${new Date(epochMillis).toISOString()},20,${(sum / 10).toFixed(1)}`;
  });
  const columns = { time: 'time', temperature: 'temperature', sun: 'sun' };
  const read = readPlain(['time,temperature,sun', ...lines].join('\n'), { columns });
  return read.ok ? read.notes.join('\n') : JSON.stringify(read.problems);
};

describe('the sun of a plain record', () => {
  it('that is the mean of the past hour is noted as 30 min late, with how to shift it', () => {
    expect(notesOf(12, -1, 0)).toMatch(
      /about (29|30|31) min later than over the farm: .*half an hour earlier/,
    );
  });

  it('that is the mean of the coming hour is noted as 30 min early', () => {
    expect(notesOf(12, 0, 1)).toMatch(
      /about (29|30|31) min earlier than over the farm: .*half an hour later/,
    );
  });

  it('is not spoken of where it is that of the moment, nor over fewer than ten days', () => {
    expect(notesOf(12, -0.01, 0.01)).not.toContain('sun is highest');
    expect(notesOf(9, -1, 0)).not.toContain('sun is highest');
  });
});
