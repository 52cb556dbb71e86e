import { mkdtemp, rm, truncate, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { readWeatherFile, type WeatherReading } from '../../../firmware-host/weather-file/read.ts';
import { FILE_BYTES_MAX } from '../../../firmware-host/weather-file/text.ts';
import { PLAIN, plainFile, problemTextsOf } from './support.ts';

let folder = '';
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'weather-file-'));
});
afterAll(() => rm(folder, { recursive: true }));

const readBytes = async (name: string, bytes: string | Buffer): Promise<WeatherReading> => {
  const path = join(folder, name);
  await writeFile(path, bytes);
  return readWeatherFile({ ...PLAIN, path });
};

describe('a weather file on the disk', () => {
  it('is read', async () => {
    const read = await readBytes('good.csv', plainFile(30));
    expect(read.ok && read.rows.length).toBe(30);
  });

  it('that is not there, or is a folder, is told', async () => {
    const missing = await readWeatherFile({ ...PLAIN, path: join(folder, 'none.csv') });
    expect(problemTextsOf(missing)[0]).toMatch(
      /^the file: found no file at this path; allowed: a file that can be read\. Look at the path/,
    );
    const folderRead = await readWeatherFile({ ...PLAIN, path: folder });
    expect(problemTextsOf(folderRead)[0]).toContain('allowed: a file.');
  });

  it('that is empty is told', async () => {
    expect(problemTextsOf(await readBytes('empty.csv', ''))).toEqual([
      'the file: found an empty file; allowed: a header line and hourly rows. Export the record again.',
    ]);
  });

  it('with a zero byte is told to be no text, with its line', async () => {
    const bytes = Buffer.from(plainFile(30));
    bytes[bytes.indexOf('\n') + 3] = 0;
    expect(problemTextsOf(await readBytes('binary.csv', bytes))[0]).toMatch(
      /^line 2: found a zero byte; allowed: plain text in UTF-8\./,
    );
    const sixteen = await readBytes('utf16.csv', Buffer.from(plainFile(30), 'utf16le'));
    expect(problemTextsOf(sixteen)[0]).toContain('UTF-16 text cannot be read');
  });

  it('in Latin-1 is told, with the line of the first byte that is not UTF-8', async () => {
    const bytes = Buffer.from(plainFile(30, { 4: '2026-07-14T02:00,20 °C' }), 'latin1');
    expect(problemTextsOf(await readBytes('latin1.csv', bytes))).toEqual([
      'line 4: found bytes that are not UTF-8; allowed: plain text in UTF-8. ' +
        'Save the file again with the encoding UTF-8.',
    ]);
  });

  it('of more than 50 MB is refused by its size', async () => {
    const path = join(folder, 'huge.csv');
    await writeFile(path, plainFile(30));
    await truncate(path, FILE_BYTES_MAX + 1_000_000);
    expect(problemTextsOf(await readWeatherFile({ ...PLAIN, path }))).toEqual([
      'the file: found 51.0 MB; allowed: at most 50 MB. Keep the years that matter.',
    ]);
  });

  it('of more than 300000 rows is refused', async () => {
    const text = `time,temperature\n${'2026-07-14T00:00,20\n'.repeat(300_001)}`;
    expect(problemTextsOf(await readBytes('long.csv', text))).toEqual([
      'line 300002: found more rows; allowed: at most 300000 rows, thirty years of hours. ' +
        'Keep the years that matter, one row an hour.',
    ]);
  });
});
