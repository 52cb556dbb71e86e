import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { readSecrets, secretsFile } from '../../../firmware-host/herald/secrets.ts';

const read = (text: string): ReturnType<typeof readSecrets> => {
  const folder = mkdtempSync(join(tmpdir(), 'rillkeeper-secrets-'));
  writeFileSync(secretsFile(folder), text, { mode: 0o600 });
  return readSecrets(folder, {});
};

describe('a file of secrets', () => {
  it('gives 2 values of 2 lines, with blanks, quotes, remarks and a Windows line end, and refuses nothing', async () => {
    const { get, refused } = await read(
      '# of the shed\r\n\n RILLKEEPER_SIM_PIN = 1234\r\nRILLKEEPER_MAIL_PASSWORD="a = b"\nRILLKEEPER_BROKER_PASSWORD=\n',
    );
    expect(refused).toBeNull();
    expect(get('RILLKEEPER_SIM_PIN')).toBe('1234');
    expect(get('RILLKEEPER_MAIL_PASSWORD')).toBe('a = b');
    expect(get('RILLKEEPER_BROKER_PASSWORD')).toBeNull();
  });

  it('names line 2, which begins with "export", and not a word of it; line 3 is used', async () => {
    const { get, refused } = await read(
      '# x\nexport RILLKEEPER_MAIL_PASSWORD=hunter2-hunter2\nRILLKEEPER_SIM_PIN=1234\n',
    );
    expect(refused).toContain('secrets.env: line 2 is not RILLKEEPER_NAME=value (no "export"');
    expect(refused).not.toContain('hunter2');
    expect(get('RILLKEEPER_MAIL_PASSWORD')).toBeNull();
    expect(get('RILLKEEPER_SIM_PIN')).toBe('1234');
  });

  it('names lines 1 and 3 where both are something else', async () => {
    const { refused } = await read('RILLKEEPER_SIM_PIN: 1234\nRILLKEEPER_SIM_PIN=1\nrillkeeper_x=1\n');
    expect(refused).toContain('lines 1, 3 are not RILLKEEPER_NAME=value');
  });
});
