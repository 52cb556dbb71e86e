import { describe, expect, it } from 'vitest';
import { rillkeeper } from './rillkeeper.ts';

describe('help', () => {
  it.each([[[]], [['check']], [['rehearse']], [['run']]])(
    '%j --help shows examples and exits 0',
    async (command) => {
      const { code, stdout, stderr } = await rillkeeper(...command, '--help');
      expect(code).toBe(0);
      expect(stderr).toBe('');
      const [, examples = ''] = stdout.split('Examples:\n');
      expect(examples).toContain(`  rillkeeper ${command[0] ?? ''}`);
    },
  );

  it('says every exit code that a command may end with', async () => {
    const { stdout } = await rillkeeper('--help');
    for (const code of [0, 1, 2, 4, 70, 74]) expect(stdout).toMatch(new RegExp(`(?:^|\\s)${code} \\w`, 'm'));
  });

  it('a call without a command shows the help on stderr and exits 2', async () => {
    const { code, stdout, stderr } = await rillkeeper();
    expect(code).toBe(2);
    expect(stdout).toBe('');
    expect(stderr).toContain('Examples:');
  });
});
