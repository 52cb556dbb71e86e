import { describe, expect, it } from 'vitest';
import { textDiff } from '../../../firmware-host/farm-file/text-diff.ts';

const LINES = [
  'farm: x',
  'dayPlan:',
  '  - part: night',
  '    floods: 3',
  '    floodMinutes: 20',
  '    # end',
  '',
];
const BEFORE = LINES.join('\n');

describe('textDiff', () => {
  it('names the file and shows one changed line with two lines on either side', () => {
    expect(textDiff('my-farm.yaml', BEFORE, BEFORE.replace('floods: 3', 'floods: 4')).split('\n')).toEqual([
      '--- my-farm.yaml',
      '+++ my-farm.yaml',
      '@@ -2,5 +2,5 @@',
      ' dayPlan:',
      '   - part: night',
      '-    floods: 3',
      '+    floods: 4',
      '     floodMinutes: 20',
      '     # end',
      '',
    ]);
  });

  it('is empty for the same text', () => {
    expect(textDiff('my-farm.yaml', BEFORE, BEFORE)).toBe('');
  });

  it('shows a line with CRLF as one line out and one in', () => {
    const crlf = BEFORE.replaceAll('\n', '\r\n');
    const lines = textDiff('f.yaml', crlf, crlf.replace('floods: 3', 'floods: 4')).split('\n');
    expect(lines.filter((line) => /^[-+] /.test(line))).toEqual(['-    floods: 3\r', '+    floods: 4\r']);
  });
});
