import { basename } from 'node:path';
import { describe, expect, it } from 'vitest';
import { pinRefusedFile } from '../../../firmware-host/herald/channels.ts';
import { messageOf, neverAborted, withModem, type Script } from './fake-modem.ts';

const LOCKED = '\r\n+CPIN: SIM PIN\r\n\r\nOK\r\n';
const READY = '\r\n+CPIN: READY\r\n\r\nOK\r\n';

/** What two texts came to, and how often the PIN was entered. */
const twoTexts = async (
  script: Script,
): Promise<{ results: readonly string[]; entered: number; refused: number }> => {
  let refused = 0;
  const sim = { pin: '1111', wasRefused: () => refused > 0, refused: () => void (refused += 1) };
  return withModem(
    script,
    async ({ channel, asked }) => {
      const results: string[] = [];
      for (let tries = 0; tries < 2; tries += 1) {
        const result = await channel.send(messageOf('text'), neverAborted());
        results.push(result.kind === 'sent' ? result.says : result.why);
      }
      return { results, entered: asked.filter((each) => each === 'AT+CPIN="1111"').length, refused };
    },
    { sim },
  );
};

describe('a PIN that is answered with', () => {
  it.each(['14', '13', '10', '3', 'SIM busy'])(
    '+CME ERROR: %s is not refused, and is entered again',
    async (error) => {
      const { results, entered, refused } = await twoTexts({
        'AT+CPIN?': LOCKED,
        'AT+CPIN="1111"': (times) => (times === 0 ? `\r\n+CME ERROR: ${error}\r\n` : '\r\nOK\r\n'),
      });
      expect(results[0]).toContain(error);
      expect(results[1]).toBe('taken by the network');
      expect({ entered, refused }).toEqual({ entered: 2, refused: 0 });
    },
  );

  it.each(['+CME ERROR: 16', '+CME ERROR: 11', '+CME ERROR: 100', '+CME ERROR: incorrect password', 'ERROR'])(
    '%s is refused, entered once, and told with the file to delete',
    async (error) => {
      const { results, entered, refused } = await twoTexts({
        'AT+CPIN?': LOCKED,
        'AT+CPIN="1111"': `\r\n${error}\r\n`,
      });
      for (const result of results)
        expect(result).toContain(`delete ${basename(pinRefusedFile('state'))} in`);
      expect({ entered, refused }).toEqual({ entered: 1, refused: 1 });
    },
  );

  it('+CME ERROR: 12 is refused, and told as a card that wants its PUK', async () => {
    const { results, entered, refused } = await twoTexts({
      'AT+CPIN?': (times) => (times === 0 ? LOCKED : '\r\n+CPIN: SIM PUK\r\n\r\nOK\r\n'),
      'AT+CPIN="1111"': '\r\n+CME ERROR: 12\r\n',
    });
    expect(results[0]).toContain('asks for its PUK');
    expect(results[1]).toContain('the SIM card is locked (SIM PUK)');
    expect({ entered, refused }).toEqual({ entered: 1, refused: 1 });
  });

  it('OK is entered once', async () => {
    const { results, entered } = await twoTexts({
      'AT+CPIN?': (times) => (times === 0 ? LOCKED : READY),
    });
    expect(results).toEqual(['taken by the network', 'taken by the network']);
    expect(entered).toBe(1);
  });
});
