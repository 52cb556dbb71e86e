import { mkdirSync, mkdtempSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { MARKERS } from '../../../firmware-host/report/page-shell.ts';
import { reportPath, writeReport } from '../../../firmware-host/report/report-file.ts';
import { rehearsalOf } from '../cli/made-rehearsal.ts';

const folder = mkdtempSync(join(tmpdir(), 'rillkeeper-report-'));
const at = (name: string): string => join(folder, name);

describe('the file of a report', () => {
  it('must end in .html', async () => {
    await expect(reportPath(at('report.txt'), 'rehearsal')).rejects.toThrow(
      /does not end in \.html; name a page/,
    );
  });

  it('must have a folder that is there', async () => {
    await expect(reportPath(at('none/report.html'), 'rehearsal')).rejects.toThrow(
      /has no folder to stand in; make .*none/,
    );
    writeFileSync(at('plain'), '');
    await expect(reportPath(at('plain/report.html'), 'rehearsal')).rejects.toThrow(
      /has no folder to stand in/,
    );
  });

  it('never replaces a file that is no report, even one that is empty or a report of a search, nor a folder', async () => {
    const begins = [
      '',
      'my own page',
      MARKERS.rehearsal.slice(0, -1),
      MARKERS.rehearsal.slice(1),
      MARKERS.search,
    ];
    for (const [place, text] of begins.entries()) {
      const file = at(`own-${place}.html`);
      writeFileSync(file, text);
      await expect(reportPath(file, 'rehearsal')).rejects.toThrow(
        /is no rehearsal report, so it stays; name another file/,
      );
      expect(await writeReport(file, rehearsalOf([{}]))).toMatch(/so it stays/);
      expect(readFileSync(file, 'utf8')).toBe(text);
    }
    mkdirSync(at('folder.html'));
    await expect(reportPath(at('folder.html'), 'rehearsal')).rejects.toThrow(/so it stays/);
  });

  it('replaces an older report, and leaves no other file behind', async () => {
    const file = at('report.html');
    expect(await writeReport(file, rehearsalOf([{}]))).toBeNull();
    const first = readFileSync(file, 'utf8');
    expect(await writeReport(file, rehearsalOf([{ belowStressMinutes: 62 }]))).toBeNull();
    expect(readFileSync(file, 'utf8')).not.toBe(first);
    expect(readdirSync(folder).filter((name) => name.startsWith('report.'))).toEqual(['report.html']);
  });
});
