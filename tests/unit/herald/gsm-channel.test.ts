import { describe, expect, it } from 'vitest';
import { messageOf, neverAborted, NO_PIN, ok, withModem, type Script } from './fake-modem.ts';

const textThrough = (
  script: Script,
  options: Parameters<typeof withModem>[2] = {},
  text = 'No water since 13:42.',
): Promise<{ result: string; asked: readonly string[] }> =>
  withModem(
    script,
    async ({ channel, asked }) => {
      const result = await channel.send(messageOf('text', text), neverAborted());
      return {
        result: result.kind === 'sent' ? `sent: ${result.says}` : `${result.again}: ${result.why}`,
        asked,
      };
    },
    options,
  );

const CMGS = 'AT+CMGS="+351912000001"';

describe('a text through a modem behind a pseudo-terminal', () => {
  it.each<[string, Script, Parameters<typeof withModem>[2]?]>([
    ['that is well', {}],
    ['that echoes', {}, { echo: 'on' }],
    [
      'that says each answer a byte at a time',
      {
        words: Array.from(
          '\r\n+CMGS: 12\r\n\r\nOK\r\n',
          (letter, place) => [60 + place * 8, letter] as const,
        ),
        [CMGS]: [
          [0, '\r'],
          [20, '\n>'],
          [40, ' '],
        ],
      },
    ],
    [
      'that tells of calls, texts and its network in the middle of every answer',
      {
        'AT+CPIN?': '\r\n+CPIN: READY\r\n\r\nRING\r\n\r\n+CLIP: "+351911",145\r\n\r\nOK\r\n',
        'AT+CREG?': '\r\n+CREG: 0,5\r\n\r\n^RSSI: 12\r\n\r\nOK\r\n',
        words: '\r\n^MODE: 5,4\r\n\r\n+CMGS: 3\r\n\r\nRING\r\n\r\nOK\r\n',
      },
    ],
    [
      'that knows neither CMEE nor CNMI',
      { 'AT+CMEE=1': '\r\nERROR\r\n', 'AT+CNMI=2,1,0,0,0': '\r\nERROR\r\n' },
    ],
    [
      'that has noise on its line when it is opened',
      { AT: '\u0000\u00ff\u00fe%%\r\n\u0080garbage\r\nOK\r\n' },
    ],
    ['whose OK to AT comes late, into the next command', { AT: [[280, ok]], ATE0: [[60, ok]] }],
    [
      'that says OK before the number of the text, and the end again',
      {
        words: [
          [0, ok],
          [60, '\r\n+CMGS: 9\r\n\r\nOK\r\n'],
        ],
      },
    ],
    [
      'that is at home in a network abroad (+CREG: 2,5 with its cell)',
      { 'AT+CREG?': '\r\n+CREG: 2,5,"01A2","00F3"\r\n\r\nOK\r\n' },
    ],
    // 3GPP TS 27.007, 7.2: an LTE network that takes texts and no calls, or would rather take none.
    ...[6, 7, 9, 10].map((status): [string, Script] => [
      `that is registered as +CREG: 0,${status}`,
      { 'AT+CREG?': `\r\n+CREG: 0,${status}\r\n\r\nOK\r\n` },
    ]),
  ])('%s goes out once', async (_, script, options) => {
    const { result, asked } = await textThrough(script, options);
    expect(result).toBe('sent: taken by the network');
    expect(asked.filter((each) => each.startsWith('words:'))).toEqual(['words:No water since 13:42.']);
    expect(asked).not.toContain('AT+CFUN=1,1');
  });

  it('a text is for 12 h on its way at most (+CSMP, 27.005, 3.1), set before it is sent', async () => {
    const { asked } = await textThrough({});
    expect(asked.indexOf('AT+CSMP=17,143,0,0')).toBeGreaterThan(0);
    expect(asked.indexOf('AT+CSMP=17,143,0,0')).toBeLessThan(asked.indexOf(CMGS));
  });

  it.each<[string, Script, readonly string[]]>([
    [
      'reads them there',
      { 'AT+CPMS?': '\r\n+CPMS: "ME",3,50,"ME",3,50,"SM",0,20\r\n\r\nOK\r\n' },
      ['AT+CPMS="SM"'],
    ],
    ['is left as it is', { 'AT+CPMS?': '\r\n+CPMS: "SM",0,20,"SM",0,20,"SM",0,20\r\n\r\nOK\r\n' }, []],
    ['or does not tell is left as it is', { 'AT+CPMS?': '\r\nERROR\r\n' }, []],
    [
      'and will not read them there sends all the same',
      {
        'AT+CPMS?': '\r\n+CPMS: "ME",3,50,"ME",3,50,"SM",0,20\r\n\r\nOK\r\n',
        'AT+CPMS="SM"': '\r\n+CMS ERROR: 302\r\n',
        'AT+CSMP=17,143,0,0': '\r\nERROR\r\n',
      },
      ['AT+CPMS="SM"'],
    ],
  ])('a modem that tells where it puts texts %s', async (_, script, set) => {
    const { result, asked } = await textThrough(script);
    expect(result).toBe('sent: taken by the network');
    expect(asked.filter((each) => each.startsWith('AT+CPMS="'))).toEqual(set);
  });

  it.each<[string, Script, RegExp]>([
    ['38, network out of order', { words: '\r\n+CMS ERROR: 38\r\n' }, /^later: the network is out of order/],
    [
      '38, after a late OK of another command',
      {
        words: [
          [0, ok],
          [60, '\r\n+CMS ERROR: 38\r\n'],
        ],
      },
      /^later: the network is out of order/,
    ],
    [
      '21, as without credit',
      { words: '\r\n+CMS ERROR: 21\r\n' },
      /^later: refused by the network; often a card without credit/,
    ],
    ['500', { words: '\r\n+CMS ERROR: 500\r\n' }, /^later: .*often a card without credit/],
    ['1, a number of nobody', { words: '\r\n+CMS ERROR: 1\r\n' }, /^useless: the number is not assigned/],
    // The card that sends is not known: that of every message.
    ['28', { words: '\r\n+CMS ERROR: 28\r\n' }, /^later: the network does not know this card/],
    ['330, no message centre', { [CMGS]: '\r\n+CMS ERROR: 330\r\n' }, /^later: .*message centre/],
    ['310, no SIM', { 'AT+CPIN?': '\r\n+CME ERROR: 10\r\n' }, /^later: no SIM card is in the modem/],
    ['a plain ERROR', { words: '\r\nERROR\r\n' }, /^later: the modem answers ERROR/],
    [
      'no network',
      { 'AT+CREG?': '\r\n+CREG: 0,2\r\n\r\nOK\r\n' },
      /^later: .*found none yet; is the antenna on/,
    ],
    [
      'a network for emergencies only',
      { 'AT+CREG?': '\r\n+CREG: 0,8\r\n\r\nOK\r\n' },
      /^later: the network allows emergency calls only/,
    ],
    [
      'a network that refuses',
      { 'AT+CREG?': '\r\n+CREG: 0,3\r\n\r\nOK\r\n' },
      /^later: .*does not let this card in/,
    ],
    [
      'a PUK',
      { 'AT+CPIN?': '\r\n+CPIN: SIM PUK\r\n\r\nOK\r\n' },
      /^later: the SIM card is locked \(SIM PUK\)/,
    ],
    [
      'a PIN that nobody gave',
      { 'AT+CPIN?': '\r\n+CPIN: SIM PIN\r\n\r\nOK\r\n' },
      /^later: .*set RILLKEEPER_SIM_PIN/,
    ],
  ])('a modem that says %s is told in words, and not reset', async (_, script, why) => {
    const { result, asked } = await textThrough(script);
    expect(result).toMatch(why);
    expect(asked).not.toContain('AT+CFUN=1,1');
  });

  it.each(['AT', 'AT+CPIN?', 'AT+CMGF=1', 'AT+CSCS="GSM"', 'AT+CREG?'])(
    'a modem that hangs at %s is told to start anew by AT+CFUN=1,1',
    async (at) => {
      const { result, asked } = await textThrough({ [at]: 'hang' });
      expect(result).toMatch(/^later: the modem hangs and was told to start anew/);
      expect(asked.at(-1)).toBe('AT+CFUN=1,1');
      expect(asked.some((each) => each.startsWith('words:'))).toBe(false);
    },
  );

  it('a modem that takes the words, then hangs altogether, is told to start anew', async () => {
    const { result, asked } = await textThrough({
      words: 'hang',
      AT: (times) => (times === 0 ? ok : 'hang'),
    });
    expect(result).toMatch(/^later: the modem hangs/);
    expect(asked.at(-1)).toBe('AT+CFUN=1,1');
  });

  it('a modem whose network never answers is not reset, and says that the text may have gone out', async () => {
    const { result, asked } = await textThrough({ words: 'hang' });
    expect(result).toBe('later: the network did not answer; the text may have gone out all the same');
    expect(asked).not.toContain('AT+CFUN=1,1');
  });

  it('after a hang the next text goes out, since the modem is well again', async () => {
    const script: Script = { 'AT+CREG?': (times) => (times === 0 ? 'hang' : '\r\n+CREG: 0,1\r\n\r\nOK\r\n') };
    await withModem(script, async ({ channel }) => {
      expect((await channel.send(messageOf('text'), neverAborted())).kind).toBe('failed');
      expect((await channel.send(messageOf('text'), neverAborted())).kind).toBe('sent');
    });
  });

  it('of more than 160 letters is cut behind a word, and Portuguese letters keep what the alphabet has', async () => {
    const long = `Não há água à volta_desde as 13:42. € ${'Bancada 2 '.repeat(20)}`;
    const { asked } = await textThrough({}, {}, long);
    const words = asked.find((each) => each.startsWith('words:'))!.slice('words:'.length);
    expect(words.length).toBeLessThanOrEqual(160);
    expect(words.endsWith('...')).toBe(true);
    // 3GPP TS 23.038, 6.2.1: à is 7F; ã and á are not in it.
    expect(words).toContain('Nao ha agua \u007f volta-desde as 13:42. ? Bancada 2');
    const codes = Array.from(words, (letter) => letter.charCodeAt(0));
    expect(codes.filter((code) => [0x11, 0x13, 0x1a, 0x1b].includes(code))).toEqual([]);
  });

  it('to a port that is not there fails in words', async () => {
    await withModem({}, async ({ channel, die }) => {
      die();
      const result = await channel.send(messageOf('text'), neverAborted());
      expect(result.kind).toBe('failed');
    });
  });

  it('a PIN is entered once; one that the card refuses is never given again', async () => {
    let refused = false;
    const sim = { pin: '1111', wasRefused: () => refused, refused: () => void (refused = true) };
    const locked = '\r\n+CPIN: SIM PIN\r\n\r\nOK\r\n';
    await withModem(
      { 'AT+CPIN?': locked, 'AT+CPIN="1111"': '\r\n+CME ERROR: 16\r\n' },
      async ({ channel, asked }) => {
        for (let tries = 0; tries < 4; tries += 1) await channel.send(messageOf('text'), neverAborted());
        expect(asked.filter((each) => each === 'AT+CPIN="1111"')).toHaveLength(1);
      },
      { sim },
    );
    const right = { ...NO_PIN, pin: '4711' };
    const { result, asked } = await textThrough({ 'AT+CPIN?': locked }, { sim: right });
    expect(result).toBe('sent: taken by the network');
    expect(asked).toContain('AT+CPIN="4711"');
  });
});
