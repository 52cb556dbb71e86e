import { describe, expect, it } from 'vitest';
import {
  calledInOrder,
  isNight,
  sameNumber,
  senderOf,
  type Person,
  type Rota,
} from '../../../src/delivery/rota.ts';
import { wallMillis } from '../../../src/time/instant.ts';

const rota = (people: readonly Person[]): Rota => ({
  people,
  night: { from: '21:30', to: '06:30' },
  timeZone: 'Europe/Lisbon',
});
/** In Lisbon summer time, an hour ahead of UTC; 2026-07-14 is a Tuesday. */
const at = (text: string): ReturnType<typeof wallMillis> => wallMillis(Date.parse(`2026-07-${text}+01:00`));
const names = (people: readonly Person[], wall: Parameters<typeof calledInOrder>[1]): string =>
  calledInOrder(rota(people), wall)
    .map(({ name }) => name)
    .join(' ');

const ANA: Person = { name: 'Ana' };
const RUI: Person = { name: 'Rui', days: ['tuesday'], hours: { from: '20:00', to: '04:00' } };
const EVA: Person = { name: 'Eva' };

describe('the rota', () => {
  it.each([
    ['14T21:00', 'Rui Ana Eva'],
    ['14T19:59', 'Ana Eva Rui'],
    // The small hours of Wednesday belong to the watch that began on Tuesday, those of Tuesday do not.
    ['15T03:59', 'Rui Ana Eva'],
    ['15T04:00', 'Ana Eva Rui'],
    ['14T03:00', 'Ana Eva Rui'],
  ])('at 2026-07-%s calls %s, and leaves nobody out', (when, order) => {
    expect(names([RUI, ANA, EVA], at(when))).toBe(order);
  });

  it('by a clock that nobody believes calls in the order of the file, and takes it for night', () => {
    expect(names([RUI, ANA, EVA], 'unknown')).toBe('Rui Ana Eva');
    expect(isNight(rota([]), 'unknown')).toBe(true);
    expect(names([], 'unknown')).toBe('');
  });

  it.each([
    ['14T21:29', false],
    ['14T21:30', true],
    ['14T06:29', true],
    ['14T06:30', false],
  ])('at 2026-07-%s it is night: %s', (when, night) => {
    expect(isNight(rota([]), at(when))).toBe(night);
  });
});

describe('a number that was seen', () => {
  it.each([
    ['+351912000001', true],
    ['00351912000001', true],
    ['912000001', true],
    ['+351 912 000 001', true],
    ['+34912000001', false],
    ['2000001', false],
    // The plus stands in the type of the number (145), which not every modem tells.
    ['351912000001', true],
    ['0351912000001', false],
    ['12000001', false],
    ['', false],
    ['BANK', false],
  ])('%s is +351912000001: %s', (seen, same) => {
    expect(sameNumber('+351912000001', seen)).toBe(same);
  });

  it('without the 0 of its country is the same as with it', () => {
    expect(sameNumber('+447700900123', '07700900123')).toBe(true);
  });
});

describe('the sender of a text', () => {
  const of = (from: string, ...phones: readonly string[]): string | undefined =>
    senderOf(rota(phones.map((phone, place) => ({ name: `person ${place}`, phone }))), from)?.name;

  it('is nobody where the number may be that of two, and the first of two who share one', () => {
    expect(of('912000001', '+351912000001', '+34912000001')).toBeUndefined();
    expect(of('351912000001', '+351912000001', '+34912000001')).toBe('person 0');
    expect(of('912000001', '+351912000001', '+351912000001')).toBe('person 0');
  });
});
