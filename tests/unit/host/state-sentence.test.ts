import { describe, expect, it } from 'vitest';
import { stateSentence } from '../../../firmware-host/state-sentence.ts';
import { gsm7Places, toGsm7 } from '../../../src/alarm/language/gsm7.ts';
import { held, NO_ORDERS } from '../../../src/command/orders.ts';
import type { Step } from '../../../src/controller.ts';
import { LANGUAGES_SPOKEN } from '../../../src/farm/languages-spoken.ts';
import type { Now } from '../../../src/time/instant.ts';
import { minute } from '../../support/moments.ts';
import { NOON, RESTING, restingHost } from '../../support/resting-host.ts';
import { alarmIn, cardOf } from '../alarm/made-alarms.ts';
import { CLUE } from '../alarm/situations.ts';

const UNDATED: Now = { ...NOON, wall: 'unknown' };
type State = Step['state'];

const WET = { theta: 0.9, thetaLow: 0.8 };
const belief = (
  ...benches: readonly { readonly theta: number; readonly thetaLow: number }[]
): State['belief'] => ({
  ...RESTING.state.belief,
  benches,
});

describe('the first sentence of the status', () => {
  it.each([
    ['wet', restingHost({ belief: belief(WET, WET) }), 'Wet. Last flood confirmed 11:50, next about 12:27.'],
    [
      'a bench at 49 %, below the stress floor of 50 %',
      restingHost({ belief: belief(WET, { theta: 0.49, thetaLow: 0.4 }) }),
      'Drying. Last flood confirmed 11:50, next about 12:27.',
    ],
    [
      'a bench whose dry edge is at 19 %, below the wilt floor of 20 %',
      restingHost({ belief: belief(WET, { theta: 0.6, thetaLow: 0.19 }) }),
      'Drying. Last flood confirmed 11:50, next about 12:27.',
    ],
    [
      'before the first flood',
      { ...restingHost({ belief: belief(WET) }), last: null },
      'Wet. First flood about 12:27.',
    ],
    [
      'with no flood planned',
      restingHost({ belief: belief(WET) }, { nextFloodAt: null }),
      'Wet. Last flood confirmed 11:50, no flood is planned now.',
    ],
    [
      'with the board gone for 3 min',
      restingHost({ link: { kind: 'down', why: 'unplugged' }, linkDownSince: minute(497) }),
      'NO BOARD for 3 min, about 83 min left.',
    ],
    [
      'with a bench that may be wilting',
      restingHost(
        { link: { kind: 'down', why: 'unplugged' }, linkDownSince: minute(380) },
        { left: () => ({ minutes: 0.4, bench: 'Bench 4' }) },
      ),
      'NO BOARD for 2 h, Bench 4 may be wilting already.',
    ],
    [
      'held',
      restingHost({ orders: held(NO_ORDERS, 'Ana', 30, NOON.monotonic) }),
      'Held by Ana until 12:30; the plants have about 83 min.',
    ],
    [
      'held, at night',
      restingHost(
        { orders: held(NO_ORDERS, 'Ana', 30, NOON.monotonic) },
        { left: () => ({ minutes: 2000, bench: null }) },
      ),
      'Held by Ana until 12:30; the plants have more than a day.',
    ],
    [
      'held too long',
      restingHost(
        { orders: held(NO_ORDERS, 'Ana', 30, NOON.monotonic) },
        { left: () => ({ minutes: 0.4, bench: 'Bench 4' }) },
      ),
      'Held by Ana until 12:30; Bench 4 may be wilting already.',
    ],
    [
      'held, with a clock that nobody believes',
      { ...restingHost({ orders: held(NO_ORDERS, 'Ana', 30, NOON.monotonic) }), now: UNDATED },
      'Held by Ana for another 30 min; the plants have about 83 min.',
    ],
    [
      'resting, with a clock that nobody believes',
      { ...restingHost({ belief: belief(WET) }), now: UNDATED },
      'Wet. Last flood confirmed 10 min ago, next in 27 min.',
    ],
    [
      'a flood missed, water last seen 22 min ago',
      restingHost({ memory: { ...RESTING.state.memory, missed: CLUE, lastWaterAt: minute(478) } }),
      'NO WATER for 22 min, about 83 min left.',
    ],
  ] as const)('%s', (_, given, sentence) => {
    expect(stateSentence(given, 'en')).toBe(sentence);
  });

  it('a silent board comes before a hold: nobody knows what the pump does', () => {
    const both = restingHost({
      linkDownSince: minute(497),
      orders: held(NO_ORDERS, 'Ana', 30, NOON.monotonic),
    });
    expect(stateSentence(both, 'en')).toMatch(/^NO BOARD/);
  });
});

/** Of a person who sent "?", in the language of the farm; the English is above. */
describe('the same for people, in the language of the farm', () => {
  const orders = held(NO_ORDERS, 'Ana', 30, NOON.monotonic);
  const gone = {
    link: { kind: 'down', why: 'unplugged', keeper: 'keeps' },
    linkDownSince: minute(497),
  } as const;
  const alarms = [alarmIn('active-unacknowledged', cardOf('tank-low'), minute(490))];
  const missed = { memory: { ...RESTING.state.memory, missed: CLUE, lastWaterAt: minute(478) } };
  const wilting = { left: () => ({ minutes: 0.4, bench: 'Bench 4', others: 2 }) };
  const flooding = {
    flood: {} as NonNullable<State['flood']>,
    guard: {
      ...RESTING.state.guard,
      asked: { kind: 'on', since: minute(495), until: minute(515) },
    } as State['guard'],
  };
  const wet = { belief: belief(WET) };

  it.each([
    [
      'resting, a tank that is low',
      restingHost({ ...wet, alarms }),
      'ALARME: depósito baixo. Bancadas molhadas. Última rega confirmada às 11:50, próxima por volta das 12:27.',
      'ALARMA: depósito bajo. Mesas mojadas. Último riego confirmado a las 11:50, el siguiente hacia las 12:27.',
      'ALARME : cuve basse. Tables mouillées. Dernier arrosage confirmé à 11:50, prochain vers 12:27.',
    ],
    [
      "before the first flood, at one o'clock",
      {
        ...restingHost({ belief: belief({ theta: 0.4, thetaLow: 0.3 }) }, { nextFloodAt: minute(1300) }),
        last: null,
      },
      'Bancadas a secar. Primeira rega por volta da 01:20.',
      'Mesas secándose. Primer riego hacia la 01:20.',
      'Tables qui sèchent. Premier arrosage vers 01:20.',
    ],
    [
      'without a clock that is believed',
      { ...restingHost(wet), now: UNDATED },
      'Bancadas molhadas. Última rega confirmada há 10 min, próxima dentro de 27 min.',
      'Mesas mojadas. Último riego confirmado hace 10 min, el siguiente dentro de 27 min.',
      'Tables mouillées. Dernier arrosage confirmé il y a 10 min, prochain dans 27 min.',
    ],
    [
      'with no flood planned, the last one missed',
      {
        ...restingHost(wet, { nextFloodAt: null }),
        last: { verdict: { kind: 'missed', says: '', clue: CLUE }, at: minute(490) } as const,
      },
      'Bancadas molhadas. Última rega falhada às 11:50, nenhuma rega prevista agora.',
      'Mesas mojadas. Último riego fallido a las 11:50, ningún riego previsto ahora.',
      'Tables mouillées. Dernier arrosage manqué à 11:50, aucun arrosage prévu maintenant.',
    ],
    [
      'flooding',
      restingHost(flooding),
      'A regar desde as 11:55, faltam 15 min.',
      'Regando desde las 11:55, faltan 15 min.',
      'Arrosage depuis 11:55, encore 15 min.',
    ],
    [
      'held',
      restingHost({ orders }),
      'Paragem de Ana até às 12:30; as plantas têm cerca de 83 min.',
      'Parada de Ana hasta las 12:30; las plantas tienen unos 83 min.',
      "Arrêt de Ana jusqu'à 12:30 ; les plantes ont environ 83 min.",
    ],
    [
      'held without a clock, at night',
      { ...restingHost({ orders }, { left: () => ({ minutes: 2000, bench: null }) }), now: UNDATED },
      'Paragem de Ana por mais 30 min; as plantas têm mais de um dia.',
      'Parada de Ana durante 30 min más; las plantas tienen más de un día.',
      "Arrêt de Ana encore pour 30 min ; les plantes ont plus d'un jour.",
    ],
    [
      'the board gone in a hold, its keeper floods',
      restingHost({ ...gone, orders }),
      'SEM PLACA há 3 min, restam cerca de 83 min. Paragem de Ana. Com corrente, ela rega pela sua tabela.',
      'SIN PLACA desde hace 3 min, quedan unos 83 min. Parada de Ana. Con corriente, riega según su tabla.',
      'PAS DE CARTE depuis 3 min, il reste environ 83 min. Arrêt de Ana. Sous tension, elle arrose selon son programme.',
    ],
    [
      'a flood missed, three benches perhaps wilting',
      restingHost(missed, wilting),
      'SEM ÁGUA há 22 min, Bench 4 (e mais 2) pode já estar a murchar.',
      'SIN AGUA desde hace 22 min, Bench 4 (y 2 más) puede estar ya marchitándose.',
      "PAS D'EAU depuis 22 min, Bench 4 (et 2 de plus) est peut-être déjà en train de flétrir.",
    ],
  ] as const)('%s', (_, given, pt, es, fr) => {
    const said = LANGUAGES_SPOKEN.map((code) => [code, stateSentence(given, code)]);
    expect(Object.fromEntries(said)).toMatchObject({ pt, es, fr });
    for (const [, text] of said) expect(gsm7Places(toGsm7(String(text)))).toBeLessThanOrEqual(160);
  });
});
