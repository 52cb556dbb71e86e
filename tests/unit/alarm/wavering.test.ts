import { describe, expect, it } from 'vitest';
import { meantBy } from '../../../src/alarm/meant.ts';
import { minute } from '../../support/moments.ts';
import { calledOn, callWords, type CalledOn } from './called-on.ts';
import { alarmIn, cardOf } from './made-alarms.ts';
import { voice } from './made-voices.ts';

const words = (shed: CalledOn): readonly string[] => shed.calls().map(callWords);
const state = (shed: CalledOn): readonly string[] => shed.alarms().map((alarm) => alarm.state);

/** The board is silent for 2 min and heard for 2 min, from now on for so many times. */
const wavers = (shed: CalledOn, times: number): void => {
  for (let time = 0; time < times; time += 1) {
    const from = shed.now();
    shed.stands('board-silent');
    shed.until(from + 2);
    shed.stands();
    shed.until(from + 4);
  }
};

describe('an alarm that comes and goes', () => {
  it('is told the first time, its end, that it is back, and from then on as one that nobody answers', () => {
    const shed = calledOn();
    shed.left(600);
    wavers(shed, 15);
    expect(words(shed)).toEqual([
      'raised board-silent 0 at 0',
      'returned board-silent 0 at 2.5',
      'raised board-silent 0 at 4',
      // Due at 14, when it was away.
      'escalated board-silent 1 at 14',
      'escalated board-silent 2 at 24',
      'escalated board-silent 3 at 34',
      'escalated board-silent 4 at 44',
      'escalated board-silent 5 at 54',
    ]);
    expect(shed.calls()[2]!.text).toContain('comes and goes');
  });

  it.each([
    ['while it stood', 1],
    ['while it was away', 3],
  ])('a whole night makes 5 calls after an answer %s', (_, later) => {
    const shed = calledOn();
    shed.left(24 * 60);
    wavers(shed, 1);
    shed.stands('board-silent');
    shed.until(4 + Math.min(2, later));
    if (later > 2) shed.stands();
    shed.until(4 + later);
    shed.acknowledge('board-silent');
    shed.stands();
    shed.until(8);
    wavers(shed, 148);
    const calls = words(shed);
    expect(calls.slice(0, 3)).toEqual([
      'raised board-silent 0 at 0',
      'returned board-silent 0 at 2.5',
      'raised board-silent 0 at 4',
    ]);
    // An acknowledged alarm on water speaks again at half of the time then left.
    expect(calls.slice(3).every((call) => call.startsWith('again '))).toBe(true);
    expect(calls.length).toBeLessThanOrEqual(5);
  });

  it('that was answered is acknowledged when it comes again, and who answered is remembered', () => {
    const shed = calledOn();
    shed.left(24 * 60);
    wavers(shed, 2);
    shed.stands('board-silent');
    shed.until(shed.now() + 1);
    shed.acknowledge('board-silent');
    shed.stands();
    shed.until(shed.now() + 2);
    expect(state(shed)).toEqual([]);
    shed.stands('board-silent');
    shed.until(shed.now() + 1);
    expect(state(shed)).toEqual(['active-acknowledged']);
    expect(shed.kept().voices[0]).toMatchObject({ seenBy: 'Ana', phase: 'seen' });
  });

  it('is told as over once it has been away for 30 min, to whoever was called', () => {
    const shed = calledOn();
    shed.left(600);
    wavers(shed, 3);
    shed.until(120);
    expect(words(shed).slice(3)).toEqual(['returned board-silent 0 at 40.5']);
    expect(shed.kept().voices).toEqual([]);
    shed.stands('board-silent');
    shed.until(121);
    expect(words(shed).slice(4)).toEqual(['raised board-silent 0 at 120']);
    expect(shed.calls().at(-1)!.text).not.toContain('comes and goes');
  });

  it('is a new one where it comes later than 30 min after its end', () => {
    const shed = calledOn();
    shed.stands('board-silent');
    shed.until(1);
    shed.stands();
    shed.until(40);
    shed.stands('board-silent');
    shed.until(41);
    expect(words(shed).slice(2)).toEqual(['raised board-silent 0 at 40']);
    expect(shed.kept().voices[0]).toMatchObject({ wavers: false, since: minute(40) });
  });

  const answered = (): CalledOn => {
    const shed = calledOn();
    shed.left(600);
    const low = cardOf('tank-falls', 'It is so.', 'medium');
    for (const from of [0, 10]) {
      shed.stands(low);
      shed.until(from + 5);
      if (from === 10) shed.acknowledge('tank-falls');
      shed.stands();
      shed.until(from + 10);
    }
    expect(words(shed)).toHaveLength(3);
    return shed;
  };

  it('goes on silently where it comes again as grave, with as much time left', () => {
    const shed = answered();
    shed.stands(cardOf('tank-falls', 'It is so.', 'medium'));
    shed.until(25);
    expect([words(shed).length, state(shed)]).toEqual([3, ['active-acknowledged']]);
  });

  it('is told anew at once where it comes again graver', () => {
    const shed = answered();
    shed.stands(cardOf('tank-falls', 'It is so.', 'high'));
    shed.until(21);
    expect(words(shed).slice(3)).toEqual(['raised tank-falls 0 at 20']);
    expect(state(shed)).toEqual(['active-unacknowledged']);
  });

  it('is told anew at once where less than half of the time is left that was at its last call', () => {
    const shed = answered();
    shed.left(290);
    shed.stands(cardOf('tank-falls', 'It is so.', 'medium'));
    shed.until(21);
    expect(words(shed).slice(3)).toEqual(['raised tank-falls 0 at 20']);
    expect(state(shed)).toEqual(['active-unacknowledged']);
  });
});

describe('what an "ok" can have meant', () => {
  const told = (at: number): { readonly alarm: 'tank-low'; readonly madeAt: ReturnType<typeof minute> } => ({
    alarm: 'tank-low',
    madeAt: minute(at),
  });
  const standing = alarmIn('active-unacknowledged', cardOf('tank-low'), minute(50));
  const other = alarmIn('active-unacknowledged', cardOf('return-lower'), minute(10));

  it('is what the call told that had reached them, and not what stands beside it', () => {
    expect(meantBy([standing, other], [], [told(50)])).toEqual(['tank-low']);
    expect(meantBy([standing, other], [], [])).toEqual([]);
  });

  it('is not what was raised anew after that call', () => {
    expect(meantBy([standing], [], [told(40)])).toEqual([]);
  });

  it('is what only came and went since', () => {
    const same = voice('tank-low', { raisedAt: minute(50), since: minute(30) });
    expect(meantBy([standing], [same], [told(40)])).toEqual(['tank-low']);
  });
});
