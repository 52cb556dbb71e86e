import { setTimeout as sleep } from 'node:timers/promises';
import { describe, expect, it } from 'vitest';
import { lettersOf, textBytes } from '../../../firmware-host/herald/gsm/gsm-letters.ts';
import { messageOf, neverAborted, ok, withModem, type Script } from './fake-modem.ts';

const ringThrough = (script: Script): Promise<{ result: string; asked: readonly string[] }> =>
  withModem(script, async ({ channel, asked }) => {
    const result = await channel.send(messageOf('ring'), neverAborted());
    return { result: result.kind === 'sent' ? result.says : `${result.again}: ${result.why}`, asked };
  });

describe('a phone that is rung', () => {
  it.each<[string, Script, string]>([
    ['rings until it is hung up', {}, 'rang'],
    ['is answered', { 'AT+CLCC': '\r\n+CLCC: 1,0,0,0,0\r\n\r\nOK\r\n' }, 'rang, and was answered'],
    [
      'is turned off',
      { 'AT+CLCC': (times) => (times === 0 ? '\r\n+CLCC: 1,0,3,0,0\r\n\r\nOK\r\n' : ok) },
      'rang, and was turned off',
    ],
    [
      'cannot be told of by this modem',
      { 'AT+CLCC': '\r\nERROR\r\n' },
      'dialled; this modem cannot tell whether the phone rang',
    ],
    [
      'never rings',
      { 'AT+CLCC': '\r\n+CLCC: 1,0,2,0,0\r\n\r\nOK\r\n' },
      'their-end: the network did not make the phone ring',
    ],
    [
      'is not put through',
      { 'ATD+351912000001;': '\r\nNO CARRIER\r\n' },
      'their-end: the network did not put the call through, or it was cut',
    ],
    ['is busy', { 'AT+CLCC': '\r\nBUSY\r\n' }, 'their-end: the phone is busy'],
    ['is off', { 'AT+CLCC': ok }, 'their-end: the call ended before the phone rang'],
    [
      'cannot be rung by this modem',
      { 'ATD+351912000001;': '\r\n+CME ERROR: 30\r\n' },
      'later: the modem finds no network (+CME ERROR: 30)',
    ],
  ])('%s', async (_, script, says) => {
    const { result, asked } = await ringThrough(script);
    expect(result).toBe(says);
    if (script['ATD+351912000001;'] === undefined) expect(asked.at(-1)).toBe('AT+CHUP');
  });

  it('is hung up by ATH where the modem does not know AT+CHUP', async () => {
    const { asked } = await ringThrough({ 'AT+CHUP': '\r\nERROR\r\n' });
    expect(asked.slice(-2)).toEqual(['AT+CHUP', 'ATH']);
  });

  it('is let go of at once when the attempt is broken off', async () => {
    await withModem({}, async ({ channel, asked }) => {
      const stop = new AbortController();
      const ringing = channel.send(messageOf('ring'), stop.signal);
      while (!asked.includes('AT+CLCC')) await sleep(5);
      stop.abort();
      await ringing;
      expect(asked.at(-1)).toBe('AT+CHUP');
    });
  });
});

describe('the letters of a text, by 3GPP TS 23.038, 6.2.1', () => {
  it.each([
    ['@', 0x00],
    ['$', 0x02],
    ['é', 0x05],
    ['Ç', 0x09],
    ['A', 0x41],
    ['Ñ', 0x5d],
    ['¿', 0x60],
    ['ñ', 0x7d],
    ['à', 0x7f],
  ])('%s is %i', (letter, code) => {
    expect([...textBytes(letter)]).toEqual([code]);
    expect(lettersOf(String.fromCharCode(code))).toBe(letter);
  });
});
