import { setTimeout as sleep } from 'node:timers/promises';
import { describe, expect, it } from 'vitest';
import { cardOf, type Held } from './fake-card.ts';
import { messageOf, neverAborted, ok, SHORT, withModem, type FakeModem } from './fake-modem.ts';

const ANA = '+351912000001';
const STRANGER = '+351930000009';
/** Of the made card: 13:42 in summer time, four quarters of an hour before UTC. */
const SENT_AT = Date.parse('2026-07-14T12:42:00Z');
const text = (index: number, from: string, body: string): Held => ({ index, from, body });

const look = async ({ channel }: FakeModem): Promise<string> => {
  const result = await channel.check!(neverAborted());
  return result.kind === 'sent' ? result.says : `failed: ${result.why}`;
};
const until = async (isSo: () => boolean): Promise<void> => {
  for (let waited = 0; waited < 300 && !isSo(); waited += 1) await sleep(10);
};
const REFUSED = '\r\n+CMS ERROR: 320\r\n';
const NOT_DELETED = /^failed: a text in the modem cannot be deleted, so the SIM memory may be full/;

describe('texts that come in', () => {
  it.each([
    ['?', '?'],
    // The body of an acknowledgement looks like the end of the answer.
    ['OK', 'OK'],
    ['ok', 'ok'],
    ['ERROR', 'ERROR'],
    ['+CMS ERROR: 38', '+CMS ERROR: 38'],
    ['', ''],
    ['004F004B', 'OK'],
    ['003F', '?'],
    ['004F006B0020D83DDC4D', 'Ok 👍'],
    ['201C006F006B201D', '“ok”'],
  ])('with the body %j is read as %j and deleted', async (body, said) => {
    const { script } = cardOf([text(1, ANA, body)]);
    await withModem(script, async (modem) => {
      expect(await look(modem)).toBe('in a network');
      expect(modem.came).toEqual([{ from: ANA, text: said, sentAt: SENT_AT }]);
      expect(modem.asked.at(-1)).toBe('AT+CMGD=1');
      expect(modem.asked).not.toContain('AT+CFUN=1,1');
    });
  });

  it('is read as soon as the modem tells of it (+CMTI), within 1 s', async () => {
    const { held, script } = cardOf([]);
    await withModem(script, async (modem) => {
      await look(modem);
      held.push(text(7, ANA, 'ok'));
      const before = performance.now();
      modem.say('\r\n+CMTI: "SM",7\r\n');
      await until(() => modem.came.length > 0);
      expect(performance.now() - before).toBeLessThan(1000);
      expect(modem.came).toEqual([{ from: ANA, text: 'ok', sentAt: SENT_AT }]);
    });
  });

  it('two at once are both read, each deleted by its own number', async () => {
    const { script } = cardOf([{ ...text(3, ANA, '?'), status: 'REC READ' }, text(8, 'BANK', 'buy now')]);
    await withModem(script, async (modem) => {
      await look(modem);
      expect(modem.came.map(({ from }) => from)).toEqual([ANA, 'BANK']);
      expect(modem.asked.filter((each) => each.startsWith('AT+CMGD'))).toEqual(['AT+CMGD=3', 'AT+CMGD=8']);
    });
  });

  it('40 at once, more than one look takes, are all read', async () => {
    const { held, script } = cardOf(Array.from({ length: 40 }, (_, index) => text(index + 1, ANA, '?')));
    await withModem(script, async (modem) => {
      expect(await look(modem)).toBe('in a network');
      await until(() => held.length === 0);
      expect(modem.came).toHaveLength(40);
    });
  });
});

describe('a text that cannot be deleted', () => {
  it.each(['+CMS ERROR: 320', '+CMS ERROR: 321', '+CMS ERROR: 500', 'ERROR'])(
    'for %s is handed on once in 4 looks, and each look fails in words',
    async (says) => {
      const { script } = cardOf([text(1, ANA, 'ok')], () => `\r\n${says}\r\n`);
      await withModem(script, async (modem) => {
        for (let looks = 0; looks < 4; looks += 1) expect(await look(modem)).toMatch(NOT_DELETED);
        expect(modem.came).toEqual([{ from: ANA, text: 'ok', sentAt: SENT_AT }]);
      });
    },
  );

  it('does not keep the 2 behind it from being read, nor one that is told of later', async () => {
    const { held, script } = cardOf(
      [text(1, ANA, 'ok'), text(2, STRANGER, 'hello'), text(3, ANA, '?')],
      (index) => (index === 1 ? REFUSED : ok),
    );
    await withModem(script, async (modem) => {
      expect(await look(modem)).toMatch(NOT_DELETED);
      expect(modem.came.map((each) => each.text)).toEqual(['ok', 'hello', '?']);
      held.push(text(4, ANA, '?'));
      modem.say('\r\n+CMTI: "SM",4\r\n');
      await until(() => held.length === 1);
      expect(modem.came.map((each) => each.text)).toEqual(['ok', 'hello', '?', '?']);
    });
  });

  it('nor do 35 of them, more than one look takes, keep a new one from being read', async () => {
    const stuck = Array.from({ length: 35 }, (_, index) => text(index + 1, STRANGER, 'hello'));
    const { held, script } = cardOf(stuck, () => REFUSED);
    await withModem(script, async (modem) => {
      await look(modem);
      await look(modem);
      expect(modem.came).toHaveLength(35);
      held.push(text(40, ANA, 'ok'));
      await look(modem);
      expect(modem.came).toHaveLength(36);
      expect(modem.came.at(-1)).toEqual({ from: ANA, text: 'ok', sentAt: SENT_AT });
    });
  }, 20_000);

  it('is deleted later, and another in its place with another time is handed on', async () => {
    let deletes = REFUSED;
    const { held, script } = cardOf([text(1, ANA, 'ok')], () => deletes);
    await withModem(script, async (modem) => {
      await look(modem);
      deletes = ok;
      expect(await look(modem)).toBe('in a network');
      expect(held).toEqual([]);
      deletes = REFUSED;
      held.push({ ...text(1, ANA, 'ok'), at: '26/07/14,15:00:00+04' });
      await look(modem);
      held.splice(0, 1, { ...text(1, ANA, 'ok'), at: '26/07/14,16:00:00+04' });
      await look(modem);
      expect(modem.came).toHaveLength(3);
    });
  });

  it('and whose second line looks like news of a text does not keep the modem reading', async () => {
    const { script } = cardOf([text(1, ANA, 'ok\r\n+CMTI: "SM",1')], () => REFUSED);
    await withModem(script, async (modem) => {
      expect(await look(modem)).toMatch(NOT_DELETED);
      const asked = modem.asked.length;
      await sleep(10 * SHORT.quietMillis);
      expect(modem.asked).toHaveLength(asked);
      expect(modem.came).toHaveLength(1);
    });
  });

  it('though the modem says so is handed on once, and the 2nd look fails in words', async () => {
    const { script } = cardOf([text(1, ANA, 'ok')]);
    await withModem({ ...script, 'AT+CMGD=1': ok }, async (modem) => {
      expect(await look(modem)).toBe('in a network');
      for (let looks = 0; looks < 3; looks += 1) expect(await look(modem)).toMatch(NOT_DELETED);
      expect(modem.came).toHaveLength(1);
    });
  });

  it('is no reason to take a 2nd "ok" without a time, in the place of one that was deleted, for the first', async () => {
    const { held, script } = cardOf([{ ...text(1, ANA, 'ok'), at: '' }]);
    await withModem(script, async (modem) => {
      await look(modem);
      held.push({ ...text(1, ANA, 'ok'), at: '' });
      await look(modem);
      expect(modem.came).toHaveLength(2);
    });
  });

  it('for which the modem hangs is not handed on again when it is well', async () => {
    const { script } = cardOf([text(1, ANA, 'ok')]);
    const hangs = { 'AT+CMGD=1': (times: number) => (times === 0 ? 'hang' : ok) } as const;
    await withModem({ ...script, ...hangs }, async (modem) => {
      expect(await look(modem)).toMatch(/^failed: .*did not answer in time/);
      await look(modem);
      expect(modem.came).toHaveLength(1);
    });
  });
});

describe('a body of many lines', () => {
  it.each(['OK', 'ERROR', '+CMS ERROR: 38', 'NO CARRIER', '', 'RING', '+CMTI: "SM",3', 'AT+CMGL="ALL"'])(
    'with %j second ends no listing: it and the 2 behind it are read and deleted',
    async (second) => {
      const { held, script } = cardOf([
        text(1, STRANGER, `hello\r\n${second}\r\nthere`),
        text(2, STRANGER, `hello\r\n${second}`),
        text(3, ANA, 'ok'),
      ]);
      await withModem(script, async (modem) => {
        expect(await look(modem)).toBe('in a network');
        expect(modem.came.map((each) => each.text)).toEqual(['hello', 'hello', 'ok']);
        expect(held).toEqual([]);
        expect((await modem.channel.send(messageOf('text'), neverAborted())).kind).toBe('sent');
      });
    },
  );

  it('that comes line by line, half of a silence apart, ends no listing', async () => {
    // Long enough for a machine with other work to be late by a part of it.
    const times = { ...SHORT, quietMillis: 400, commandMillis: 3000 };
    const half = times.quietMillis / 2;
    const pieces = [
      '+CMGL: 1,"REC READ","1",,"x"',
      'a',
      'OK',
      'b',
      '+CMGL: 2,"REC READ","2",,"x"',
      'b',
      'OK',
    ];
    const { script } = cardOf([text(1, STRANGER, 'a\r\nOK\r\nb'), text(2, ANA, 'ok')]);
    const slow = pieces.map((line, place) => [place * half, `${line}\r\n`] as const);
    const listed = { ...script, 'AT+CMGL="ALL"': slow };
    const read = async (modem: FakeModem): Promise<void> => {
      expect(await look(modem)).toBe('in a network');
      expect(modem.came.map((each) => each.text)).toEqual(['a', 'ok']);
    };
    await withModem(listed, read, { times });
  });

  it.each([
    [7, '\r\n+CMS ERROR: 321\r\n'],
    [7, ok],
    [7, '\r\n+CMGR: 0,,0\r\n\r\nOK\r\n'],
    [5, ok],
    [2, ok],
  ])('of a stranger that names number %i as one of Ana is no "ok" of hers', async (forged, nothing) => {
    const lines = (command: string, place: string): string =>
      `${command}: ${place}"REC UNREAD","${ANA}",,""\r\nok`;
    const body = `hello\r\n${lines('+CMGL', `${forged},`)}\r\n${lines('+CMGR', '')}`;
    const { held, script } = cardOf([text(5, STRANGER, body), text(2, ANA, '?')], undefined, nothing);
    await withModem(script, async (modem) => {
      expect(await look(modem)).toBe('in a network');
      expect(modem.came).toContainEqual({ from: STRANGER, text: 'hello', sentAt: SENT_AT });
      expect(modem.came.filter(({ from }) => from === ANA)).toEqual([
        { from: ANA, text: '?', sentAt: SENT_AT },
      ]);
      expect(held).toEqual([]);
      expect(modem.asked).not.toContain('AT+CMGD=7');
    });
  });
});

describe('what is on the card and said by nobody', () => {
  it.each(['STO UNSENT', 'STO SENT'])('%s: it is deleted and not handed on', async (status) => {
    const { held, script } = cardOf([{ ...text(1, ANA, 'ok'), status }]);
    await withModem(script, async (modem) => {
      expect(await look(modem)).toBe('in a network');
      expect(modem.came).toEqual([]);
      expect(held).toEqual([]);
    });
  });
});

describe('an inbox that cannot be read', () => {
  it.each([
    [
      'AT+CMGL="ALL"',
      REFUSED,
      /^failed: the texts in the modem cannot be read: the memory of the modem fails/,
    ],
    ['AT+CMGL="ALL"', 'hang', /^failed: the texts in the modem cannot be read: .*did not answer in time/],
    ['AT+CMGR=1', REFUSED, /^failed: the texts in the modem cannot be read: the memory of the modem fails/],
    ['AT+CMGR=1', ok, /^failed: the texts in the modem cannot be read: .*what was not asked/],
  ])('since %s is answered %j makes the look fail', async (command, says, words) => {
    const { held, script } = cardOf([text(1, ANA, 'ok')]);
    await withModem({ ...script, [command]: says }, async (modem) => {
      expect(await look(modem)).toMatch(words);
      expect(modem.came).toEqual([]);
      expect(held).toHaveLength(1);
    });
  });

  it('gives way to a text that is to be sent, and is read on behind it', async () => {
    const { held, script } = cardOf(
      Array.from({ length: 20 }, (_, index) => text(index + 1, STRANGER, 'hello')),
    );
    await withModem(script, async (modem) => {
      const looking = look(modem);
      await until(() => modem.asked.includes('AT+CMGD=2'));
      await modem.channel.send(messageOf('text'), neverAborted());
      expect(held.length).toBeGreaterThan(10);
      await looking;
      await until(() => held.length === 0);
      expect(modem.came).toHaveLength(20);
    });
  });
});
