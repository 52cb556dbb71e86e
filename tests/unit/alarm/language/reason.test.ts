import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import fc from 'fast-check';
import { ENGLISH_REASONS } from '../../../../src/alarm/language/english-reasons.ts';
import { LANGUAGES } from '../../../../src/alarm/language/languages.ts';
import { reasonOf, reasonText, type ReasonName } from '../../../../src/alarm/reason.ts';
import { floorSigns, interlock, wetSigns } from '../../../../src/command/interlock.ts';
import { held, NO_ORDERS } from '../../../../src/command/orders.ts';
import { LANGUAGES_SPOKEN } from '../../../../src/farm/languages-spoken.ts';
import type { Sample } from '../../../../src/ports/sample.ts';
import {
  absorbed,
  airCelsius,
  NO_SENSES,
  returnLitresPerMinute,
  switched,
  type Senses,
} from '../../../../src/sense/senses.ts';
import { afterMinutes, afterSeconds, monotonicMillis } from '../../../../src/time/instant.ts';
import { farmWith } from '../../../support/farm.ts';

const placesOf = (sentence: string): readonly string[] => (sentence.match(/\{\w+\}/g) ?? []).toSorted();

const AT = monotonicMillis(0);
const UP = { kind: 'up' } as const;
const WELL = { kind: 'well' } as const;
const farm = farmWith([['evidence', 'leakSensor'], true], [['evidence', 'overflowFloat'], true]);

const sensed = (...samples: readonly Sample[]): Senses =>
  samples.reduce((senses, sample) => absorbed(senses, [sample], sample.at), NO_SENSES);
const why = (reading: { readonly quality: string; readonly why?: string }): string =>
  reading.why ?? reading.quality;
const air = (celsius: number, at: number): Sample => ({
  channel: 'air-temperature',
  celsius,
  at: afterSeconds(AT, at),
});
const flow = (litresPerMinute: number): Sample => ({ channel: 'return-flow', litresPerMinute, at: AT });
const wet = (channel: 'leak' | 'overflow'): Sample => ({ channel, wet: true, at: AT });
const chatter = Array.from({ length: 9 }, (_, place): Sample => ({
  channel: 'return-switch',
  flowing: place % 2 === 0,
  at: afterSeconds(AT, place),
}));

/** What the stages before the alarms really say, not what this test believes that they say. */
const SAID: readonly (readonly [name: string, says: string])[] = [
  ['not-spoken', why(switched(NO_SENSES, 'return-switch', AT))],
  ['chatters', why(switched(sensed(...chatter), 'return-switch', afterSeconds(AT, 9)))],
  ['last-reading-old', why(returnLitresPerMinute(sensed(flow(3)), afterMinutes(AT, 22)))],
  ['no-flow-meter', why(returnLitresPerMinute(NO_SENSES, AT))],
  ['flow-meter-nonsense', why(returnLitresPerMinute(sensed(flow(-1)), AT))],
  ['air-not-spoken', why(airCelsius(NO_SENSES, AT))],
  ['air-out-of-range', why(airCelsius(sensed(air(-60, 0)), AT))],
  ['air-jumped', why(airCelsius(sensed(air(20, 0), air(40, 30)), afterSeconds(AT, 30)))],
  ['air-still', why(airCelsius(sensed(air(20, 0), air(20, 11_000)), afterSeconds(AT, 11_000)))],
  ['leak-wet', wetSigns(farm, floorSigns(sensed(wet('leak')), AT)) ?? ''],
  ['overflow-wet', wetSigns(farm, floorSigns(sensed(wet('overflow')), AT)) ?? ''],
  ['leak-and-overflow-wet', wetSigns(farm, floorSigns(sensed(wet('leak'), wet('overflow')), AT)) ?? ''],
  ...(
    [
      ['held', held(NO_ORDERS, 'Ana', 30, AT), UP, WELL],
      ['board-does-not-answer', NO_ORDERS, { kind: 'down', why: 'unplugged' }, WELL],
      ['float-low', NO_ORDERS, UP, { kind: 'low', since: AT, lowAt: AT }],
    ] as const
  ).map(([name, orders, link, tank]): readonly [string, string] => {
    const lock = interlock(farm, orders, link, floorSigns(NO_SENSES, AT), tank);
    return [name, 'reason' in lock ? lock.reason : lock.kind];
  }),
];

/** Where a sentence is written that no function gives by itself. */
const WRITTEN_IN: Readonly<Partial<Record<ReasonName, string>>> = {
  'air-colder-than-water': 'src/controller/air.ts',
  'not-begun': 'src/controller/overdue.ts',
  'drew-current': 'src/controller/tell.ts',
  'past-its-relay': 'src/controller/tell.ts',
  'contact-closed': 'src/controller/tell.ts',
  'water-came-back': 'src/controller/tell.ts',
  'draws-current': 'src/controller/tell.ts',
  'return-weak': 'src/verify/flood-verdict.ts',
  'return-cut-short': 'src/verify/flood-verdict.ts',
  'board-sip': 'src/verify/left-flood.ts',
  'board-stopped-it': 'src/verify/kept-run.ts',
  'board-silent': 'firmware-host/devices/connection.ts',
  'board-reset': 'firmware-host/devices/connection.ts',
  'no-firmata': 'firmware-host/devices/connection.ts',
  'keeper-silent': 'firmware-host/devices/keeper/link-step.ts',
  'board-not-found': 'firmware-host/devices/board-link.ts',
  closed: 'firmware-host/devices/board-link.ts',
  unplugged: 'firmware-host/devices/serial-lines.ts',
};
/** These are made of others. */
const FRAMES: readonly ReasonName[] = ['after-retries', 'at-port'];

const asInSource = (sentence: string): RegExp =>
  new RegExp(
    sentence
      .split(/\{\w+\}/)
      .map((text) => text.replace(/[.*+?()]/g, '\\$&'))
      .join('\\$\\{.+?\\}'),
  );

describe('a reason', () => {
  it.each(Object.entries(WRITTEN_IN))('%s stands word for word in %s', (name, file) => {
    const sentence = Object.entries(ENGLISH_REASONS).find(([key]) => key === name)![1];
    expect(readFileSync(file, 'utf8')).toMatch(asInSource(sentence));
  });

  it('is held against its source, each one', () => {
    const held = [...SAID.map(([name]) => name), ...Object.keys(WRITTEN_IN), ...FRAMES];
    expect(Object.keys(ENGLISH_REASONS).filter((name) => !held.includes(name))).toEqual([]);
  });

  it.each(SAID)('%s is known in what its stage says: %s', (name, says) => {
    expect(reasonOf(says)).toMatchObject({ kind: 'named', name });
  });

  it.each([
    [
      'return flow 13 L/min, usually 40, after 2 retries',
      'voltam 13 L/min, o normal são 40; novas tentativas: 2',
    ],
    ['/dev/ttyUSB0: the board has not answered for 3 s', '/dev/ttyUSB0: a placa não responde há 3 s'],
    ['/dev/ttyUSB0: Error: Input/output error', '"/dev/ttyUSB0: Error: Input/output error"'],
    ['the air thermometer has not moved for 3.5 hours', 'o termómetro do ar não mexe há 3,5 horas'],
    ['held by Zé: o da bomba', 'paragem pedida por Zé: o da bomba'],
  ])('%s is told in Portuguese: %s', (says, told) => {
    expect(reasonText(reasonOf(says), LANGUAGES.pt)).toBe(told);
  });

  it('is told in English as it was said, whatever it was', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...Object.values(ENGLISH_REASONS), '{who}', '{where}: {who}, after {n} retries'),
        fc.nat(9999),
        fc.string({ unit: 'binary', minLength: 1, maxLength: 40 }),
        (sentence, figure, text) => {
          const said = sentence.replace(/\{(\w+)\}/g, (_, place: string) =>
            ['who', 'where', 'span', 'reason'].includes(place) ? text : String(figure),
          );
          expect(reasonText(reasonOf(said), LANGUAGES.en)).toBe(said);
        },
      ),
    );
  });

  it.each(LANGUAGES_SPOKEN)('has the same places in %s as in English', (code) => {
    const { reasons } = LANGUAGES[code];
    const places = Object.entries(reasons).map(([name, sentence]) => [name, placesOf(sentence)]);
    expect(places).toEqual(
      Object.entries(ENGLISH_REASONS).map(([name, sentence]) => [name, placesOf(sentence)]),
    );
  });

  it.each(['pt', 'es', 'fr'] as const)('is not left in English in %s', (code) => {
    const same = Object.entries(LANGUAGES[code].reasons).filter(
      ([name, sentence]) => sentence === Object.entries(ENGLISH_REASONS).find(([key]) => key === name)?.[1],
    );
    expect(same.map(([name]) => name).filter((name) => name !== 'at-port')).toEqual([]);
  });
});
